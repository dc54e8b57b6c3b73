#include "fit/tolerances.h"

#include "fit/words.h"

#include <algorithm>
#include <cctype>
#include <cstdint>

namespace fettle::fit {
namespace {

constexpr int kFinest = 4;
constexpr int kCoarsest = 13;
constexpr std::int16_t kNone = -32768; // the standard gives no deviation

// Size steps in mm, "up to and including". Main steps carry IT, d to h, j to p; all carry the rest.
constexpr std::array<int, 13> kMain = {3, 6, 10, 18, 30, 50, 80, 120, 180, 250, 315, 400, 500};
constexpr std::array<int, 25> kFine = {3,   6,   10,  14,  18,  24,  30,  40,  50,
                                       65,  80,  100, 120, 140, 160, 180, 200, 225,
                                       250, 280, 315, 355, 400, 450, 500};

// Micrometres, rows IT4 to IT13.
constexpr std::int16_t kGrades[][13] = {
    {3, 4, 4, 5, 6, 7, 8, 10, 12, 14, 16, 18, 20},
    {4, 5, 6, 8, 9, 11, 13, 15, 18, 20, 23, 25, 27},
    {6, 8, 9, 11, 13, 16, 19, 22, 25, 29, 32, 36, 40},
    {10, 12, 15, 18, 21, 25, 30, 35, 40, 46, 52, 57, 63},
    {14, 18, 22, 27, 33, 39, 46, 54, 63, 72, 81, 89, 97},
    {25, 30, 36, 43, 52, 62, 74, 87, 100, 115, 130, 140, 155},
    {40, 48, 58, 70, 84, 100, 120, 140, 160, 185, 210, 230, 250},
    {60, 75, 90, 110, 130, 160, 190, 220, 250, 290, 320, 360, 400},
    {100, 120, 150, 180, 210, 250, 300, 350, 400, 460, 520, 570, 630},
    {140, 180, 220, 270, 330, 390, 460, 540, 630, 720, 810, 890, 970}};

struct MainRow {
    const char* letter;
    std::int16_t microns[13];
};
constexpr MainRow kMainRows[] = {
    {"d", {-20, -30, -40, -50, -65, -80, -100, -120, -145, -170, -190, -210, -230}},
    {"e", {-14, -20, -25, -32, -40, -50, -60, -72, -85, -100, -110, -125, -135}},
    {"f", {-6, -10, -13, -16, -20, -25, -30, -36, -43, -50, -56, -62, -68}},
    {"g", {-2, -4, -5, -6, -7, -9, -10, -12, -14, -15, -17, -18, -20}},
    {"h", {0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0}},
    {"k", {0, 1, 1, 1, 2, 2, 2, 3, 3, 4, 4, 4, 5}}, // IT4 to IT7; 0 beyond
    {"m", {2, 4, 6, 7, 8, 9, 11, 13, 15, 17, 20, 21, 23}},
    {"n", {4, 8, 10, 12, 15, 17, 20, 23, 27, 31, 34, 37, 40}},
    {"p", {6, 12, 15, 18, 22, 26, 32, 37, 43, 50, 56, 62, 68}}};
constexpr std::int16_t kJ5and6[] = {-2, -2, -2, -3, -4, -5, -7, -9, -11, -13, -16, -18, -20};
constexpr std::int16_t kJ7[] = {-4, -4, -5, -6, -8, -10, -12, -15, -18, -21, -26, -28, -32};
// Holes J6 to J8, upper deviation.
constexpr std::int16_t kHoleJ[][13] = {{2, 5, 5, 6, 8, 10, 13, 16, 18, 22, 25, 29, 33},
                                       {4, 6, 8, 10, 12, 14, 18, 22, 26, 30, 36, 39, 43},
                                       {6, 10, 12, 15, 20, 24, 28, 34, 41, 47, 55, 60, 66}};

struct FineRow {
    const char* letter;
    std::int16_t microns[25];
};
constexpr FineRow kFineRows[] = {
    {"a", {-270, -270, -280, -290, -290, -300, -300, -310,  -320,  -340,  -360,  -380, -410,
           -460, -520, -580, -660, -740, -820, -920, -1050, -1200, -1350, -1500, -1650}},
    {"b", {-140, -140, -150, -150, -150, -160, -160, -170, -180, -190, -200, -220, -240,
           -260, -280, -310, -340, -380, -420, -480, -540, -600, -680, -760, -840}},
    {"c", {-60,  -70,  -80,  -95,  -95,  -110, -110, -120, -130, -140, -150, -170, -180,
           -200, -210, -230, -240, -260, -280, -300, -330, -360, -400, -440, -480}},
    {"r", {10, 15, 19, 23, 23, 28, 28, 34, 34,  41,  43,  51, 54,
           63, 65, 68, 77, 80, 84, 94, 98, 108, 114, 126, 132}},
    {"s", {14, 19,  23,  28,  28,  35,  35,  43,  43,  53,  59,  71, 79,
           92, 100, 108, 122, 130, 140, 158, 170, 190, 208, 232, 252}},
    {"t", {kNone, kNone, kNone, kNone, kNone, kNone, 41,  48,  54,  66,  75,  91, 104,
           122,   134,   146,   166,   180,   196,   218, 240, 268, 294, 330, 360}},
    {"u", {18,  23,  28,  33,  33,  41,  48,  60,  70,  87,  102, 124, 144,
           170, 190, 210, 236, 258, 284, 315, 350, 390, 435, 490, 540}},
    {"v", {kNone, kNone, kNone, kNone, 39,  47,  55,  68,  81,  102, 120, 146, 172,
           202,   228,   252,   284,   310, 340, 385, 425, 475, 530, 595, 660}},
    {"x", {20,  28,  34,  40,  45,  54,  64,  80,  97,  122, 146, 178, 210,
           248, 280, 310, 350, 385, 425, 475, 525, 590, 660, 740, 820}},
    {"y", {kNone, kNone, kNone, kNone, kNone, 63,  75,  94,  114, 144, 174, 214, 254,
           300,   340,   380,   425,   470,   520, 580, 650, 730, 820, 920, 1000}},
    {"z", {26,  35,  42,  50,  60,  73,  88,  112, 136, 172,  210,  258, 310,
           365, 415, 465, 520, 575, 640, 710, 790, 900, 1000, 1100, 1250}},
    {"za", {32,  42,  52,  64,  77,  98,  118, 148,  180,  226,  274,  335, 400,
            470, 535, 600, 670, 740, 820, 920, 1000, 1150, 1300, 1450, 1600}},
    {"zb", {40,  50,  67,  90,  108, 136,  160,  200,  242,  300,  360,  445, 525,
            620, 700, 780, 880, 960, 1050, 1200, 1300, 1500, 1650, 1850, 2100}},
    {"zc", {60,  80,  97,   130,  150,  188,  218,  274,  325,  405,  480,  585, 690,
            800, 900, 1000, 1150, 1250, 1350, 1550, 1700, 1900, 2100, 2400, 2600}}};

template <std::size_t N>
std::size_t step_of(const std::array<int, N>& steps, double size) {
    const double mm = size / kMilli - 1e-9;
    return static_cast<std::size_t>(
        std::find_if(steps.begin(), steps.end(), [mm](int to) { return mm <= to; }) -
        steps.begin());
}

bool in_range(double size) {
    return size > 0 && step_of(kMain, size) < kMain.size();
}

bool known_letter(std::string_view letter) {
    const auto has = [letter](const auto& row) { return letter == row.letter; };
    return letter == "j" || letter == "js" || std::ranges::any_of(kMainRows, has) ||
           std::ranges::any_of(kFineRows, has);
}

std::optional<double> microns(std::int16_t value) {
    if (value == kNone) return std::nullopt;
    return value * kMicron;
}

// Upper deviation of holes J to ZC. ISO 286-1: the shaft's deviation turned round, and delta added
// where it applies; N is 0 beyond IT8, M6 between 250 and 315 mm is the one exception printed.
std::optional<double> hole_upper(const ToleranceClass& wanted, double size) {
    const std::string& letter = wanted.letter;
    const int grade = wanted.grade;
    if (letter == "j") {
        if (grade < 6 || grade > 8) return std::nullopt;
        return kHoleJ[grade - 6][step_of(kMain, size)] * kMicron;
    }
    const bool small = size <= 3 * kMilli + 1e-12;
    const bool soft = letter == "k" || letter == "m" || letter == "n";
    if (letter == "k" && grade > 8 && !small) return std::nullopt;
    if (letter == "n" && grade > 8 && !small) return 0.0;
    if (letter == "m" && grade == 6 && kMain[step_of(kMain, size)] == 315) return -9 * kMicron;
    const auto shaft = shaft_deviation(letter, letter == "k" ? 7 : grade, size);
    if (!shaft) return std::nullopt;
    return -*shaft + (grade <= (soft ? 8 : 7) ? delta(grade, size) : 0.0);
}

} // namespace

Outcome<ToleranceClass> read_class(std::string_view typed, const char* field, bool hole) {
    const auto no = [&] {
        return Refusal{field,
                       line(field, ": ", in_quotes(typed), " is no tolerance class of a ",
                            hole ? "hole" : "shaft", "; accepted are ",
                            hole ? "capitals A to ZC with a grade from 4 to 13, such as H7."
                                 : "small letters a to zc with a grade from 4 to 13, such as p6.")};
    };
    while (!typed.empty() && std::isspace(static_cast<unsigned char>(typed.front())))
        typed.remove_prefix(1);
    while (!typed.empty() && std::isspace(static_cast<unsigned char>(typed.back())))
        typed.remove_suffix(1);
    std::size_t at = 0;
    std::string letter;
    while (at < typed.size() && at < 3 && std::isalpha(static_cast<unsigned char>(typed[at]))) {
        const auto sign = static_cast<unsigned char>(typed[at]);
        // One capital alone tells hole from shaft: js6 and JS7, but "Js7" is read as a hole too.
        if (at == 0 && (std::isupper(sign) != 0) != hole) return no();
        letter += static_cast<char>(std::tolower(sign));
        ++at;
    }
    const std::string_view digits = typed.substr(at);
    if (!known_letter(letter) || digits.empty() || digits.size() > 2 ||
        !std::ranges::all_of(digits, [](char c) { return c >= '0' && c <= '9'; }))
        return no();
    const int grade =
        digits.size() == 1 ? digits[0] - '0' : 10 * (digits[0] - '0') + digits[1] - '0';
    if (grade < kFinest || grade > kCoarsest) return no();
    return ToleranceClass{hole, letter, grade};
}

std::optional<double> standard_tolerance(int grade, double size) {
    if (grade < kFinest || grade > kCoarsest || !in_range(size)) return std::nullopt;
    return kGrades[grade - kFinest][step_of(kMain, size)] * kMicron;
}

std::optional<double> shaft_deviation(std::string_view letter, int grade, double size) {
    if (!in_range(size)) return std::nullopt;
    const std::size_t main = step_of(kMain, size);
    if (letter == "j") {
        if (grade != 5 && grade != 6 && grade != 7) return std::nullopt;
        return (grade == 7 ? kJ7[main] : kJ5and6[main]) * kMicron;
    }
    if (letter == "k" && grade > 7) return 0.0;
    for (const MainRow& row : kMainRows) {
        if (letter == row.letter) return row.microns[main] * kMicron;
    }
    for (const FineRow& row : kFineRows) {
        if (letter == row.letter) return microns(row.microns[step_of(kFine, size)]);
    }
    return std::nullopt;
}

double delta(int grade, double size) {
    if (size <= 3 * kMilli + 1e-12) return 0;
    const auto coarse = standard_tolerance(grade, size);
    const auto fine = standard_tolerance(grade - 1, size);
    if (coarse && fine) return *coarse - *fine;
    // IT4 less IT3, read above 180 mm, from memory below.
    constexpr double kFour[] = {0, 1.5, 1.5, 2, 2, 3, 3, 4, 4, 4, 4, 5, 5};
    return grade == kFinest && in_range(size) ? kFour[step_of(kMain, size)] * kMicron : 0;
}

std::optional<Zone> zone(const ToleranceClass& wanted, double size) {
    const auto tolerance = standard_tolerance(wanted.grade, size);
    if (!tolerance) return std::nullopt;
    if (wanted.letter == "js") return Zone{-*tolerance / 2, *tolerance / 2};
    const bool clear = wanted.letter <= "h"; // a to h lie on the clearance side
    if (wanted.hole && !clear) {
        const auto upper = hole_upper(wanted, size);
        if (!upper) return std::nullopt;
        return Zone{*upper - *tolerance, *upper};
    }
    const auto deviation = shaft_deviation(wanted.letter, wanted.grade, size);
    if (!deviation) return std::nullopt;
    if (wanted.hole) return Zone{-*deviation, -*deviation + *tolerance};
    return clear ? Zone{*deviation - *tolerance, *deviation}
                 : Zone{*deviation, *deviation + *tolerance};
}

} // namespace fettle::fit
