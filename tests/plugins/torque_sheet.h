// What tests of bolts and threads type, and ways to look at their answers.
#pragma once

#include "plugins/asked_sheet.h"

#include <cmath>

namespace fettle::test {

inline constexpr double kInch = 0.0254;
inline constexpr double kPoundForce = 4.4482216152605;
inline constexpr double kKsi = 1000 * kPoundForce / (kInch * kInch);
inline constexpr double kMegaPoundPerInch = 1e6 * kPoundForce / kInch;

inline TypedById with(TypedById typed, const char* id, const Typed& value) {
    typed[id] = value;
    return typed;
}

inline const TypedById kM12 = {{"thread", Typed::of("M12")},
                               {"grade", Typed::of("ISO 8.8")},
                               {"mu_thread", Typed::of(0.12)},
                               {"mu_head", Typed::of(0.12)}};

inline bool near(double value, double wanted, double share) {
    INFO("computed ", value, ", published ", wanted);
    CHECK(std::abs(value - wanted) <= share * std::abs(wanted));
    return std::abs(value - wanted) <= share * std::abs(wanted);
}

// Whether an output rises (or falls, for sign -1) at each step of an input.
inline void check_monotonic(const Sheet& sheet, const TypedById& typed, const char* input,
                            const std::vector<double>& steps, const char* output, int sign) {
    CAPTURE(std::string(input));
    CAPTURE(std::string(output));
    double before = NAN;
    for (const double step : steps) {
        const double now = sheet.number(with(typed, input, Typed::of(step)), output);
        if (!std::isnan(before)) CHECK(sign * (now - before) > 0);
        before = now;
    }
}

} // namespace fettle::test
