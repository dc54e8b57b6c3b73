#include "screw_threads/grades.h"

#include "screw_threads/words.h"

namespace fettle::screw {
namespace {

using plugin::line;
using plugin::Refusal;

constexpr double kMPa = 1e6;
constexpr double kTonPerSquareInch = 2240 * kPoundForce / (kInch * kInch); // Pa
constexpr double kProofOfYield = 0.85; // where no proof stress is published: Shigley, p. 442
constexpr double kHair = 1e-7;         // m, so that a size on the bound is inside

constexpr Grade inch(const char* name, const char* standard, double from, double up_to,
                     double proof, double tensile, double yield, double stretch) {
    return {name,         standard,       from * kInch, up_to * kInch,
            proof * kKsi, tensile * kKsi, yield * kKsi, stretch};
}

constexpr Grade metric(const char* name, double from, double up_to, double proof, double tensile,
                       double yield, double stretch) {
    return {name,         "ISO 898-1",    from / 1e3,   up_to / 1e3,
            proof * kMPa, tensile * kMPa, yield * kMPa, stretch};
}

constexpr Grade letter(const char* name, double tons, double yield) {
    return {name,
            "BS 970",
            0.18 * kInch,
            1.5 * kInch,
            kProofOfYield * yield * kMPa,
            tons * kTonPerSquareInch,
            yield * kMPa,
            0};
}

// ksi and MPa: proof, tensile, yield, elongation. SAE J429 and ASTM A574 from extracts of the
// standards (seen), 4, 5.2 and 8.2 from Shigley table 8-9 (seen); ISO 898-1 from memory except for
// the proof stress of 8.8 and above. British letters: the condition letters of BS 970, least
// tensile strength in tonf/in² and yield in MPa, from memory; no proof stress is published for
// them. Rows of one grade follow each other from small to large; a size belongs to the first that
// holds it.
constexpr Grade kGrades[] = {
    inch("SAE 1", "SAE J429", 0.25, 1.5, 33, 60, 36, 0.18),
    inch("SAE 2", "SAE J429", 0.25, 0.75, 55, 74, 57, 0.18),
    inch("SAE 2", "SAE J429", 0.75, 1.5, 33, 60, 36, 0.18),
    inch("SAE 4", "SAE J429", 0.25, 1.5, 65, 115, 100, 0.10),
    inch("SAE 5", "SAE J429", 0.25, 1.0, 85, 120, 92, 0.14),
    inch("SAE 5", "SAE J429", 1.0, 1.5, 74, 105, 81, 0.14),
    inch("SAE 5.2", "SAE J429", 0.25, 1.0, 85, 120, 92, 0.14),
    inch("SAE 8", "SAE J429", 0.25, 1.5, 120, 150, 130, 0.12),
    inch("SAE 8.2", "SAE J429", 0.25, 1.0, 120, 150, 130, 0.10),
    metric("ISO 4.6", 1.6, 39, 225, 400, 240, 0.22),
    metric("ISO 4.8", 1.6, 16, 310, 420, 340, 0.14),
    metric("ISO 5.6", 1.6, 39, 280, 500, 300, 0.20),
    metric("ISO 5.8", 1.6, 39, 380, 520, 420, 0.10),
    metric("ISO 6.8", 1.6, 39, 440, 600, 480, 0.08),
    metric("ISO 8.8", 1.6, 16, 580, 800, 640, 0.12),
    metric("ISO 8.8", 16, 39, 600, 830, 660, 0.12),
    metric("ISO 9.8", 1.6, 16, 650, 900, 720, 0.10),
    metric("ISO 10.9", 1.6, 39, 830, 1040, 940, 0.09),
    metric("ISO 12.9", 1.6, 39, 970, 1220, 1100, 0.08),
    inch("ASTM A574", "ASTM A574", 0.06, 0.5, 140, 180, 153, 0.08),
    inch("ASTM A574", "ASTM A574", 0.5, 4.0, 135, 170, 153, 0.08),
    letter("BS letter R", 45, 525),
    letter("BS letter S", 50, 585),
    letter("BS letter T", 55, 680),
    letter("BS letter V", 65, 850),
    letter("BS letter X", 75, 1020),
};

bool is_metric(const Grade& grade) {
    return std::string_view(grade.standard) == "ISO 898-1";
}

std::string size_text(double metres, const Grade& grade) {
    return is_metric(grade) ? mm(metres, 3) : inches(metres);
}

std::string all_names() {
    std::string names;
    for (const char* known : kGradeNames)
        names += line(names.empty() ? "" : ", ", known);
    return names;
}

} // namespace

plugin::Outcome<Grade> grade_for(std::string_view name, const Thread& thread, const char* field) {
    const Grade* first = nullptr;
    const Grade* last = nullptr;
    for (const Grade& row : kGrades) {
        if (name != row.name) continue;
        if (first == nullptr) first = &row;
        last = &row;
        const bool holds =
            thread.diameter >= row.from - kHair && thread.diameter <= row.up_to + kHair;
        if (holds) return row;
    }
    if (first == nullptr) {
        return Refusal{field, line(field, ": ", in_quotes(name), " is not held here; accepted are ",
                                   all_names(), ".")};
    }
    return Refusal{field, line(field, ": ", first->standard, " gives ", first->name, " for ",
                               size_text(first->from, *first), " to ",
                               size_text(last->up_to, *first), ", not for ", thread.name, " of ",
                               size_text(thread.diameter, *first), ".")};
}

Grade typed_grade(double proof, double tensile, double yield) {
    return {kTypedStrength, "what was typed", 0, 1, proof, tensile, yield > 0 ? yield : proof, 0};
}

std::string grade_words(const Grade& grade) {
    if (std::string_view(grade.name) == grade.standard) return grade.name;
    return line(grade.name, " of ", grade.standard);
}

bool speaks_of(const Grade& grade, Form form) {
    const std::string_view standard = grade.standard;
    if (standard == "what was typed") return true;
    if (standard == "BS 970") return form != Form::metric;
    return (standard == "ISO 898-1" ? Form::metric : Form::unified) == form;
}

bool hydrogen_brittle(const Grade& grade) {
    constexpr double kHardFrom = 1165e6; // least tensile strength; ASTM A574 over 1/2 in has 1172
    return grade.tensile >= kHardFrom;
}

} // namespace fettle::screw
