#include "torque/grades.h"

#include <algorithm>

namespace fettle::torque {
namespace {

using plugin::line;
using plugin::Refusal;

constexpr double kInch = 0.0254;
constexpr double kKsi = 6894757.293168;
constexpr double kMPa = 1e6;
constexpr double kHair = 1e-7; // m, so that a size on the bound is inside

constexpr Grade inch(const char* name, const char* standard, double from, double up_to,
                     double proof, double tensile, double yield) {
    return {name,          standard,     Form::unified,  from * kInch,
            up_to * kInch, proof * kKsi, tensile * kKsi, yield * kKsi};
}

constexpr Grade metric(const char* name, double from, double up_to, double proof, double tensile,
                       double yield) {
    return {name,        "ISO 898-1",  Form::metric,   from / 1e3,
            up_to / 1e3, proof * kMPa, tensile * kMPa, yield * kMPa};
}

// ksi and MPa: proof, tensile, yield. SAE J429 and ASTM A574 from extracts of the standards; ISO
// 898-1 from memory except for the proof stress of 8.8 and above. Rows of one grade follow each
// other from small to large; a size belongs to the first that holds it.
constexpr Grade kGrades[] = {
    inch("SAE 1", "SAE J429", 0.25, 1.5, 33, 60, 36),
    inch("SAE 2", "SAE J429", 0.25, 0.75, 55, 74, 57),
    inch("SAE 2", "SAE J429", 0.75, 1.5, 33, 60, 36),
    inch("SAE 5", "SAE J429", 0.25, 1.0, 85, 120, 92),
    inch("SAE 5", "SAE J429", 1.0, 1.5, 74, 105, 81),
    inch("SAE 8", "SAE J429", 0.25, 1.5, 120, 150, 130),
    metric("ISO 4.6", 1.6, 39, 225, 400, 240),
    metric("ISO 5.8", 1.6, 39, 380, 520, 420),
    metric("ISO 8.8", 1.6, 16, 580, 800, 640),
    metric("ISO 8.8", 16, 39, 600, 830, 660),
    metric("ISO 10.9", 1.6, 39, 830, 1040, 940),
    metric("ISO 12.9", 1.6, 39, 970, 1220, 1100),
    inch("ASTM A574", "ASTM A574", 0.06, 0.5, 140, 180, 153),
    inch("ASTM A574", "ASTM A574", 0.5, 4.0, 135, 170, 153),
};

std::string size_text(double metres, Form form) {
    return form == Form::metric ? line(plugin::figure(metres * 1e3, 3), " mm")
                                : line(plugin::figure(metres / kInch, 3), " in");
}

} // namespace

plugin::Outcome<Grade> grade_for(std::string_view name, const Thread& thread) {
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
        std::string names;
        for (const char* known : kGradeNames)
            names += line(names.empty() ? "" : ", ", known);
        return Refusal{"grade", line("grade: \"", std::string(name.substr(0, 32)),
                                     "\" is not held here; accepted are ", names, ".")};
    }
    return Refusal{"grade", line("grade: ", first->standard, " gives ", first->name, " for ",
                                 size_text(first->from, first->form), " to ",
                                 size_text(last->up_to, first->form), ", not for ", thread.name,
                                 " of ", size_text(thread.diameter, first->form), ".")};
}

} // namespace fettle::torque
