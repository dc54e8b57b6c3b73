#include "torque/threads.h"

#include <cctype>
#include <cstdlib>
#include <numbers>
#include <regex>

namespace fettle::torque {
namespace {

using plugin::line;
using plugin::Outcome;
using plugin::Refusal;

constexpr double kInch = 0.0254;
constexpr std::size_t kLongestDesignation = 32;

// Threads to the inch of the standard series, 0 where there is none.
// UNC, UNF: ASME B1.1. BSW, BSF: BS 84.
struct InchSize {
    const char* size;
    double inches;
    int unc, unf, bsw, bsf;
};
constexpr InchSize kInchSizes[] = {{"#0", 0.060, 0, 80, 0, 0},       {"#1", 0.073, 64, 72, 0, 0},
                                   {"#2", 0.086, 56, 64, 0, 0},      {"#3", 0.099, 48, 56, 0, 0},
                                   {"#4", 0.112, 40, 48, 0, 0},      {"#5", 0.125, 40, 44, 0, 0},
                                   {"#6", 0.138, 32, 40, 0, 0},      {"#8", 0.164, 32, 36, 0, 0},
                                   {"#10", 0.190, 24, 32, 0, 0},     {"#12", 0.216, 24, 28, 0, 0},
                                   {"1/8", 0.125, 0, 0, 40, 0},      {"3/16", 0.1875, 0, 0, 24, 32},
                                   {"7/32", 0.21875, 0, 0, 0, 28},   {"1/4", 0.25, 20, 28, 20, 26},
                                   {"5/16", 0.3125, 18, 24, 18, 22}, {"3/8", 0.375, 16, 24, 16, 20},
                                   {"7/16", 0.4375, 14, 20, 14, 18}, {"1/2", 0.5, 13, 20, 12, 16},
                                   {"9/16", 0.5625, 12, 18, 12, 16}, {"5/8", 0.625, 11, 18, 11, 14},
                                   {"3/4", 0.75, 10, 16, 10, 12},    {"7/8", 0.875, 9, 14, 9, 11},
                                   {"1", 1.0, 8, 12, 8, 10},         {"1 1/8", 1.125, 7, 12, 7, 9},
                                   {"1 1/4", 1.25, 7, 12, 7, 9},     {"1 3/8", 1.375, 6, 12, 6, 8},
                                   {"1 1/2", 1.5, 6, 12, 6, 8}};

struct Series {
    const char* name;
    Form form;
    int InchSize::*tpi;
};
constexpr Series kSeries[] = {{"UNC", Form::unified, &InchSize::unc},
                              {"UNF", Form::unified, &InchSize::unf},
                              {"BSW", Form::whitworth, &InchSize::bsw},
                              {"BSF", Form::whitworth, &InchSize::bsf}};

// ISO 261, first choice and the sizes between that vehicles use; mm.
struct CoarsePitch {
    double diameter, pitch;
};
constexpr CoarsePitch kCoarse[] = {
    {1.6, 0.35}, {2, 0.4},  {2.5, 0.45}, {3, 0.5},   {3.5, 0.6}, {4, 0.7}, {5, 0.8},  {6, 1},
    {7, 1},      {8, 1.25}, {10, 1.5},   {12, 1.75}, {14, 2},    {16, 2},  {18, 2.5}, {20, 2.5},
    {22, 2.5},   {24, 3},   {27, 3},     {30, 3.5},  {33, 3.5},  {36, 4},  {39, 4}};

// BS 93, mm: diameter and pitch of 0BA to 12BA.
constexpr CoarsePitch kBritishAssociation[] = {
    {6.0, 1.00}, {5.3, 0.90}, {4.7, 0.81}, {4.1, 0.73}, {3.6, 0.66}, {3.2, 0.59}, {2.8, 0.53},
    {2.5, 0.48}, {2.2, 0.43}, {1.9, 0.39}, {1.7, 0.35}, {1.5, 0.31}, {1.3, 0.28}};

Refusal refusal(std::string_view typed, const std::string& why) {
    return {"thread", line("thread: \"", std::string(typed), "\" ", why)};
}

Refusal unreadable(std::string_view typed) {
    return refusal(typed.substr(0, kLongestDesignation),
                   "is not a thread this sheet can read; accepted are designations like 5/16-24 "
                   "UNF, 1/4-20 UNC, #10-32, 3/8-20 BSF, 1/2-12 BSW, 2BA, M10x1.5 and M8.");
}

std::string upper(std::string_view typed) {
    static constexpr std::string_view kCross = "\u00d7";
    std::string plain;
    for (std::size_t i = 0; i < typed.size(); ++i) {
        if (typed.substr(i, kCross.size()) == kCross) {
            plain += 'X';
            i += kCross.size() - 1;
        } else {
            plain += static_cast<char>(std::toupper(static_cast<unsigned char>(typed[i])));
        }
    }
    const std::size_t first = plain.find_first_not_of(' ');
    if (first == std::string::npos) return "";
    return plain.substr(first, plain.find_last_not_of(' ') - first + 1);
}

double decimal(std::string text) {
    for (char& c : text) {
        if (c == ',') c = '.';
    }
    return std::strtod(text.c_str(), nullptr);
}

std::string plain_number(double value) {
    std::string text = plugin::figure(value, 6);
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text;
}

Outcome<Thread> read_metric(std::string_view typed, const std::smatch& parts) {
    const double diameter = decimal(parts[1]);
    double pitch = parts[2].matched ? decimal(parts[2]) : 0;
    if (!parts[2].matched) {
        for (const CoarsePitch& coarse : kCoarse) {
            if (coarse.diameter == diameter) pitch = coarse.pitch;
        }
        if (pitch == 0) {
            return refusal(typed, "has no coarse pitch in ISO 261; add the pitch, as in M9x1.25.");
        }
    }
    if (diameter < 1 || diameter > 100 || pitch < 0.1 || pitch > diameter / 3) {
        return refusal(typed, "is no usable metric thread; accepted are M1 to M100 with a pitch of "
                              "0.1 mm to a third of the diameter.");
    }
    const std::string name = line("M", plain_number(diameter), "x", plain_number(pitch));
    return Thread{name, Form::metric, diameter / 1e3, pitch / 1e3};
}

Outcome<Thread> read_association(std::string_view typed, const std::string& number) {
    const std::size_t index = std::strtoul(number.c_str(), nullptr, 10);
    if (index >= std::size(kBritishAssociation)) {
        return refusal(typed, "is not in the BA series; accepted are 0BA to 12BA.");
    }
    const CoarsePitch& row = kBritishAssociation[index];
    return Thread{line(std::to_string(index), "BA"), Form::british_association, row.diameter / 1e3,
                  row.pitch / 1e3};
}

struct InchTyped {
    double inches = 0;
    std::string size;   // as in the table when it is there
    int tpi = 0;        // 0: not typed
    std::string series; // "": not typed
    const InchSize* row = nullptr;
};

// "1 1/8", "1-1/8", "5/16", "0.3125", "1" or "#10".
double inches_of(const std::string& size) {
    if (size.front() == '#') return 0.060 + 0.013 * std::atoi(size.c_str() + 1);
    const std::size_t slash = size.find('/');
    if (slash == std::string::npos) return decimal(size);
    const std::size_t gap = size.find_first_of(" -");
    const double whole = gap == std::string::npos ? 0 : std::atoi(size.c_str());
    const std::size_t top = gap == std::string::npos ? 0 : gap + 1;
    const int bottom = std::atoi(size.c_str() + slash + 1);
    return bottom == 0 ? 0 : whole + static_cast<double>(std::atoi(size.c_str() + top)) / bottom;
}

InchTyped inch_parts(const std::smatch& parts) {
    InchTyped typed;
    typed.size = parts[1];
    if (parts[1].str().front() == 'N') { // No.10 and No 10 are #10
        typed.size = line("#", typed.size.substr(typed.size.find_first_of("0123456789")));
    }
    typed.inches = inches_of(typed.size);
    const bool numbered = typed.size.front() == '#';
    for (const InchSize& row : kInchSizes) {
        const bool named_alike = (row.size[0] == '#') == numbered;
        if (named_alike && std::abs(row.inches - typed.inches) < 1e-6) typed.row = &row;
    }
    if (typed.row != nullptr) typed.size = typed.row->size;
    if (parts[2].matched) typed.tpi = std::atoi(parts[2].str().c_str());
    typed.series = parts[3];
    return typed;
}

Thread inch_thread(const InchTyped& typed, int tpi, const char* series, Form form) {
    return {line(typed.size, "-", std::to_string(tpi), " ", series), form, typed.inches * kInch,
            kInch / tpi};
}

// Every standard thread of this size and, when it was typed, this pitch.
std::vector<Thread> candidates(const InchTyped& typed) {
    std::vector<Thread> found;
    if (typed.row == nullptr) return found;
    for (const Series& series : kSeries) {
        const int tpi = typed.row->*series.tpi;
        if (tpi == 0 || (typed.tpi != 0 && typed.tpi != tpi)) continue;
        found.push_back(inch_thread(typed, tpi, series.name, series.form));
    }
    return found;
}

Outcome<Thread> ask_back(std::string_view typed, const std::vector<Thread>& could_be) {
    if (could_be.size() == 1) return could_be.front();
    if (could_be.empty()) {
        return refusal(typed,
                       "is in none of UNC, UNF, BSW and BSF; if it is a special, add its form: "
                       "UNS for 60° or WHIT for 55°.");
    }
    std::string names;
    for (std::size_t i = 0; i < could_be.size(); ++i)
        names += line(i == 0 ? "" : (i + 1 == could_be.size() ? " or " : ", "), could_be[i].name);
    return refusal(typed, line("could be ", names, "; type the one it is."));
}

Outcome<Thread> read_inch(std::string_view whole, const std::smatch& parts) {
    const InchTyped typed = inch_parts(parts);
    if (typed.inches < 0.05 || typed.inches > 4) {
        return refusal(whole, "is no usable inch thread; accepted are #0 to 4 in.");
    }
    if (typed.series.empty()) return ask_back(whole, candidates(typed));
    for (const Series& series : kSeries) {
        if (typed.series != series.name) continue;
        const int tpi = typed.row == nullptr ? 0 : typed.row->*series.tpi;
        if (tpi == 0) return refusal(whole, line("is no size of the ", series.name, " series."));
        if (typed.tpi != 0 && typed.tpi != tpi) {
            return refusal(whole, line("does not exist: ", typed.size, " ", series.name, " has ",
                                       std::to_string(tpi), " threads to the inch."));
        }
        return inch_thread(typed, tpi, series.name, series.form);
    }
    if (typed.tpi < 4 || typed.tpi > 100 || typed.tpi * typed.inches < 3) {
        return refusal(whole, "needs its threads to the inch, 4 to 100 and at least three to the "
                              "diameter, as in 1-14 UNS.");
    }
    const bool whitworth = typed.series == "WHIT";
    return inch_thread(typed, typed.tpi, typed.series.c_str(),
                       whitworth ? Form::whitworth : Form::unified);
}

} // namespace

Outcome<Thread> read_thread(std::string_view designation) {
    if (designation.size() > kLongestDesignation) return unreadable(designation);
    const std::string plain = upper(designation);
    static const std::regex metric(
        R"(M ?(\d{1,3}(?:[.,]\d)?)(?: ?[X*-] ?(\d(?:[.,]\d{1,3})?|[.,]\d{1,3}))?(?: ?-? ?\d[A-Z])?)");
    static const std::regex association(R"((?:(\d{1,2}) ?B\.?A\.?|B\.?A\.? ?(\d{1,2})))");
    static const std::regex inch(
        R"(((?:#|NO\.? ?)\d{1,2}|\d{1,2}[ -]\d{1,2}/\d{1,2}|\d{1,2}/\d{1,2}|\d?\.\d{1,5}|\d)(?: ?IN| ?")?)"
        R"((?: ?[-X ] ?(\d{1,3})(?: ?TPI)?)?(?: ?(UNC|UNF|UNEF|UNS|UN|BSW|BSF|WHIT))?(?: ?-? ?[123][AB])?)");
    std::smatch parts;
    if (std::regex_match(plain, parts, metric)) return read_metric(designation, parts);
    if (std::regex_match(plain, parts, association)) {
        return read_association(designation, parts[1].matched ? parts[1] : parts[2]);
    }
    if (std::regex_match(plain, parts, inch)) return read_inch(designation, parts);
    return unreadable(designation);
}

double flank_angle(Form form) {
    constexpr double kDegree = std::numbers::pi / 180;
    switch (form) {
    case Form::whitworth:
        return 27.5 * kDegree;
    case Form::british_association:
        return 23.75 * kDegree;
    default:
        return 30 * kDegree;
    }
}

double pitch_diameter(const Thread& thread) {
    switch (thread.form) {
    case Form::whitworth:
        return thread.diameter - 0.640327 * thread.pitch;
    case Form::british_association:
        return thread.diameter - 0.6 * thread.pitch;
    default:
        return thread.diameter - 0.649519 * thread.pitch;
    }
}

double stress_area(const Thread& thread) {
    // How many pitches the mean of pitch and minor diameter lies inside the major diameter.
    const auto inside = [](Form form) {
        switch (form) {
        case Form::unified:
            return 0.9743;
        case Form::whitworth:
            return 0.960491; // (0.640327 + 1.280654) / 2
        case Form::british_association:
            return 0.9; // (0.6 + 1.2) / 2
        default:
            return 0.9382;
        }
    };
    const double mean = thread.diameter - inside(thread.form) * thread.pitch;
    return std::numbers::pi / 4 * mean * mean;
}

const char* form_name(Form form) {
    switch (form) {
    case Form::unified:
        return "Unified, 60°";
    case Form::whitworth:
        return "Whitworth, 55°";
    case Form::british_association:
        return "British Association, 47.5°";
    default:
        return "ISO metric, 60°";
    }
}

} // namespace fettle::torque
