#include "fit/inch_fits.h"

#include "fit/words.h"

#include <algorithm>
#include <cmath>

namespace fettle::fit {
namespace {

constexpr double kNo = -1; // no value printed

// Inches, "up to and including". Force fits have steps of their own.
constexpr std::array<double, 13> kSteps = {0.12, 0.24, 0.40, 0.71,  1.19,  1.97, 3.15,
                                           4.73, 7.09, 9.85, 12.41, 15.75, 19.69};
constexpr std::array<double, 25> kForceSteps = {
    0.12, 0.24, 0.40, 0.56, 0.71, 0.95, 1.19,  1.58,  1.97,  2.56,  3.15,  3.94, 4.73,
    5.52, 6.30, 7.09, 7.88, 8.86, 9.85, 11.03, 12.41, 13.98, 15.75, 17.72, 19.69};
using Row = std::array<double, 13>;      // thou, for kSteps
using ForceRow = std::array<double, 25>; // thou, for kForceSteps

constexpr std::array<Row, 10> kGrades = {{{.15, .15, .15, .2, .25, .3, .3, .4, .5, .6, .6, .7, .8},
                                          {.2, .2, .25, .3, .4, .4, .5, .6, .7, .8, .9, 1, 1},
                                          {.25, .3, .4, .4, .5, .6, .7, .9, 1, 1.2, 1.2, 1.4, 1.6},
                                          {.4, .5, .6, .7, .8, 1, 1.2, 1.4, 1.6, 1.8, 2, 2.2, 2.5},
                                          {.6, .7, .9, 1, 1.2, 1.6, 1.8, 2.2, 2.5, 2.8, 3, 3.5, 4},
                                          {1, 1.2, 1.4, 1.6, 2, 2.5, 3, 3.5, 4, 4.5, 5, 6, 6},
                                          {1.6, 1.8, 2.2, 2.8, 3.5, 4, 4.5, 5, 6, 7, 8, 9, 10},
                                          {2.5, 3, 3.5, 4, 5, 6, 7, 9, 10, 12, 12, 14, 16},
                                          {4, 5, 6, 7, 8, 10, 12, 14, 16, 18, 20, 22, 25},
                                          {6, 7, 9, 10, 12, 16, 18, 22, 25, 28, 30, 35, 40}}};

// The limit of the shaft nearest the basic size: below it for RC and LC, above for LT, LN and FN.
constexpr Row kNil = {};
constexpr Row kSliding = {.1, .15, .2, .25, .3, .4, .4, .5, .6, .6, .8, 1, 1.2};
constexpr Row kRunning = {.3, .4, .5, .6, .8, 1, 1.2, 1.4, 1.6, 2, 2.5, 3, 4};
constexpr Row kMedium = {.6, .8, 1, 1.2, 1.6, 2, 2.5, 3, 3.5, 4, 5, 6, 8};
constexpr Row kFree = {1, 1.2, 1.6, 2, 2.5, 3, 4, 5, 6, 7, 8, 10, 12};
constexpr Row kLoose = {2.5, 2.8, 3, 3.5, 4.5, 5, 6, 7, 8, 10, 12, 14, 16};
constexpr Row kLoosest = {4, 4.5, 5, 6, 7, 8, 9, 10, 12, 15, 18, 22, 25};
constexpr Row kLoosestEnd = {5.6, 6, 7.2, 8.8, 10.5, 12, 13.5, 15, 18, 22, 26, 31, 35};
constexpr Row kLc5 = {.1, .15, .2, .25, .3, .4, .4, .5, .6, .6, .7, .7, .8};
constexpr Row kLc6 = {.3, .4, .5, .6, .8, 1, 1.2, 1.4, 1.6, 2, 2.2, 2.5, 2.8};
constexpr Row kLc7 = {.6, .8, 1, 1.2, 1.6, 2, 2.5, 3, 3.5, 4, 4.5, 5, 5};
constexpr Row kLc8 = {1, 1.2, 1.6, 2, 2.5, 3, 4, 5, 6, 7, 7, 8, 9};
constexpr Row kLc10 = {4, 4.5, 5, 6, 7, 8, 10, 11, 12, 16, 20, 22, 25};
constexpr Row kLc11 = {5, 6, 7, 8, 10, 12, 14, 16, 18, 22, 28, 30, 35};
constexpr Row kHalf6 = {.12, .15, .2, .2, .25, .3, .3, .4, .5, .6, .6, .7, .8};
constexpr Row kHalf7 = {.2, .25, .3, .35, .4, .5, .6, .7, .8, .9, 1, 1, 1.2};
constexpr Row kTouching = {kNo, kNo, .1, .1, .1, .1, .1, .1, .1, .2, .2, .2, .2};
constexpr Row kTight = {.25, .3, .4, .5, .6, .7, .8, 1, 1.2, 1.4, 1.4, 1.6, 1.8};
constexpr Row kLn1 = {.25, .3, .4, .4, .5, .6, .8, 1, 1.2, 1.4, 1.4, 1.6, 1.8};
constexpr Row kLn1End = {.45, .5, .65, .8, 1, 1.1, 1.3, 1.6, 1.9, 2.2, 2.3, 2.6, 2.8};
constexpr Row kLn2 = {.4, .5, .6, .7, .8, 1, 1.4, 1.6, 1.8, 2, 2.2, 2.5, 2.8};
constexpr Row kLn3 = {.5, .6, .8, 1, 1.2, 1.4, 1.6, 2, 2.5, 3, 3.5, 4.5, 5};

constexpr std::array<ForceRow, 5> kForceLower = {
    {{.3,  .4,  .5,  .5,  .6,  .7,  .8, .9, 1,   1.3, 1.4, 1.8, 2,
      2.2, 2.5, 2.8, 3.0, 3.5, 3.5, 4,  4,  4.5, 5,   6,   6},
     {.6,  .7, 1,   1.2, 1.2, 1.4, 1.4, 1.8, 1.8, 2, 2.2, 2.8, 3,
      3.5, 4,  4.5, 5,   5,   6,   6,   7,   8,   8, 9,   10},
     {kNo, kNo, kNo, kNo, kNo, kNo, 1.6, 2, 2.2, 2.5, 3,  3.5, 4,
      5,   5,   6,   7,   7,   8,   9,   9, 10,  12,  12, 14},
     {.7, .9, 1.2, 1.4, 1.4, 1.6, 1.8, 2.5, 2.8, 3.5, 4,  5, 6,
      7,  7,  8,   9,   10,  12,  12,  14,  16,  18,  20, 22},
     {.9, 1.2, 1.4, 1.6, 1.8, 2.2, 2.5, 3,  4,  5,  6,  7, 8,
      10, 12,  12,  14,  16,  16,  18,  20, 22, 25, 28, 30}}};
constexpr std::array<ForceRow, 5> kForceUpper = {
    {{.5,  .6,  .75, .8,  .9,  1.1, 1.2, 1.3, 1.4, 1.8, 1.9, 2.4, 2.6,
      2.9, 3.2, 3.5, 3.8, 4.3, 4.3, 4.9, 4.9, 5.5, 6.1, 7,   7},
     {.85, 1, 1.4, 1.6, 1.6, 1.9, 1.9, 2.4, 2.4, 2.7, 2.9,  3.7, 3.9,
      4.5, 5, 5.5, 6.2, 6.2, 7.2, 7.2, 8.2, 9.4, 9.4, 10.6, 11.6},
     {kNo, kNo, kNo, kNo, kNo, kNo, 2.1,  2.6,  2.8,  3.2,  3.7,  4.4, 4.9,
      6,   6,   7,   8.2, 8.2, 9.2, 10.2, 10.2, 11.4, 13.4, 13.6, 15.6},
     {.95, 1.2, 1.6, 1.8,  1.8,  2.1,  2.3,  3.1,  3.4,  4.2,  4.7,  5.9, 6.9,
      8,   8,   9,   10.2, 11.2, 13.2, 13.2, 15.2, 17.4, 19.4, 21.6, 23.6},
     {1.3,  1.7,  2,    2.3,  2.5,  3,    3.3, 4,  5,    6.2,  7.2,  8.4, 9.4,
      11.6, 13.6, 13.6, 15.8, 17.8, 17.8, 20,  22, 24.2, 27.2, 30.5, 32.5}}};
constexpr std::array<int, 5> kForceHole = {6, 7, 7, 7, 8};

struct Built {
    const char* name;
    int hole;        // grade
    const Row* near; // limit of the shaft nearest the basic size
    int grade;       // of the shaft; 0: `far` is printed apart
    const Row* far;
};
constexpr Built kBelow[] = { // clearance fits
    {"RC 1", 5, &kSliding, 4, nullptr},       {"RC 2", 6, &kSliding, 5, nullptr},
    {"RC 3", 7, &kRunning, 6, nullptr},       {"RC 4", 8, &kRunning, 7, nullptr},
    {"RC 5", 8, &kMedium, 7, nullptr},        {"RC 6", 9, &kMedium, 8, nullptr},
    {"RC 7", 9, &kFree, 8, nullptr},          {"RC 8", 10, &kLoose, 9, nullptr},
    {"RC 9", 11, &kLoosest, 0, &kLoosestEnd}, {"LC 1", 6, &kNil, 5, nullptr},
    {"LC 2", 7, &kNil, 6, nullptr},           {"LC 3", 8, &kNil, 7, nullptr},
    {"LC 4", 10, &kNil, 9, nullptr},          {"LC 5", 7, &kLc5, 6, nullptr},
    {"LC 6", 9, &kLc6, 8, nullptr},           {"LC 7", 10, &kLc7, 9, nullptr},
    {"LC 8", 10, &kLc8, 9, nullptr},          {"LC 9", 11, &kLoose, 10, nullptr},
    {"LC 10", 12, &kLc10, 12, nullptr},       {"LC 11", 13, &kLc11, 13, nullptr}};
constexpr Built kAbove[] = { // transition and locational interference
    {"LT 3", 7, &kTouching, 6, nullptr}, {"LT 4", 8, &kTouching, 7, nullptr},
    {"LT 5", 7, &kTight, 6, nullptr},    {"LT 6", 7, &kTight, 7, nullptr},
    {"LN 1", 6, &kLn1, 0, &kLn1End},     {"LN 2", 7, &kLn2, 6, nullptr},
    {"LN 3", 7, &kLn3, 6, nullptr}};

template <std::size_t N>
std::optional<std::size_t> step_of(const std::array<double, N>& steps, double size) {
    const double inches = size / kInch - 1e-9;
    const auto found =
        std::find_if(steps.begin(), steps.end(), [inches](double to) { return inches <= to; });
    if (size <= 0 || found == steps.end()) return std::nullopt;
    return static_cast<std::size_t>(found - steps.begin());
}

double grade_thou(int grade, std::size_t step) {
    return kGrades[static_cast<std::size_t>(grade - 4)][step];
}

Zone in_metres(double lower, double upper) { // thou
    return {lower * kThou, upper * kThou};
}

std::optional<InchFit> force_fit(std::size_t number, double size, std::size_t step) {
    const auto force = step_of(kForceSteps, size);
    if (!force || kForceLower[number][*force] == kNo) return std::nullopt;
    return InchFit{in_metres(0, grade_thou(kForceHole[number], step)),
                   in_metres(kForceLower[number][*force], kForceUpper[number][*force])};
}

} // namespace

std::optional<double> inch_tolerance(int grade, double size) {
    const auto step = step_of(kSteps, size);
    if (!step || grade < 4 || grade > 13) return std::nullopt;
    return grade_thou(grade, *step) * kThou;
}

std::optional<InchFit> inch_fit(std::string_view name, double size) {
    const auto step = step_of(kSteps, size);
    if (!step) return std::nullopt;
    const auto hole = [&](int grade) { return in_metres(0, grade_thou(grade, *step)); };
    if (name == "LT 1") return InchFit{hole(7), in_metres(-kHalf6[*step], kHalf6[*step])};
    if (name == "LT 2") return InchFit{hole(8), in_metres(-kHalf7[*step], kHalf7[*step])};
    if (name.size() == 4 && name.starts_with("FN ") && name[3] >= '1' && name[3] <= '5')
        return force_fit(static_cast<std::size_t>(name[3] - '1'), size, *step);
    const auto far = [&](const Built& fit, double near) {
        return fit.far != nullptr ? (*fit.far)[*step] : near + grade_thou(fit.grade, *step);
    };
    for (const Built& fit : kBelow) {
        if (name != fit.name) continue;
        const double near = (*fit.near)[*step];
        return InchFit{hole(fit.hole), in_metres(-far(fit, near), -near)};
    }
    for (const Built& fit : kAbove) {
        if (name != fit.name) continue;
        const double near = (*fit.near)[*step];
        if (near == kNo) return std::nullopt;
        return InchFit{hole(fit.hole), in_metres(near, far(fit, near))};
    }
    return std::nullopt;
}

} // namespace fettle::fit
