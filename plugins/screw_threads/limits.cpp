#include "screw_threads/limits.h"

#include "screw_threads/words.h"

#include <algorithm>
#include <cmath>

namespace fettle::screw {
namespace {

// What the tolerances of a 5/16-18 UNC 2A/2B leave of the strip area of the basic profile.
constexpr double kShareOfBasic = 0.8;

ThreadLimits from_tolerances(const Thread& thread, double allowance, double major,
                             double bolt_pitch, double nut_pitch, double nut_minor,
                             const char* source) {
    const double effective = pitch_diameter(thread);
    return {thread.diameter - allowance - major,
            effective - allowance - bolt_pitch,
            nut_minor_diameter(thread) + nut_minor,
            effective + nut_pitch,
            1.0,
            source};
}

// Inches. Length of engagement: one diameter for UNC and UNF, nine pitches for the others.
ThreadLimits unified(const Thread& thread) {
    const double d = thread.diameter / kInch;
    const double p = thread.pitch / kInch;
    const double engaged = thread.of_diameter ? d : 9 * p;
    const double two_thirds = std::cbrt(p * p);
    const double bolt = 0.0015 * std::cbrt(d) + 0.0015 * std::sqrt(engaged) + 0.015 * two_thirds;
    double minor = 0;
    if (d < 0.2495) {
        minor =
            std::clamp(0.05 * two_thirds + 0.03 * p / d - 0.002, 0.25 * p - 0.4 * p * p, 0.394 * p);
    } else {
        minor = p > 0.2501 ? 0.15 * p : 0.25 * p - 0.4 * p * p;
    }
    return from_tolerances(thread, 0.3 * bolt * kInch, 0.060 * two_thirds * kInch, bolt * kInch,
                           1.3 * bolt * kInch, minor * kInch,
                           "limits by the formulae of ASME B1.1, classes 2A and 2B, from memory");
}

// Micrometres from millimetres; the standard takes the geometric mean of a range of diameters.
ThreadLimits metric(const Thread& thread) {
    static constexpr double kRanges[] = {0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45, 90, 180};
    const double d = thread.diameter * 1e3;
    const double p = thread.pitch * 1e3;
    const double* above =
        std::upper_bound(std::begin(kRanges) + 1, std::end(kRanges) - 1, d - 1e-9);
    const double mean = std::sqrt(above[-1] * above[0]);
    const double bolt = 90 * std::pow(p, 0.4) * std::pow(mean, 0.1);
    const double major = 180 * std::cbrt(p * p) - 3.15 / std::sqrt(p);
    const double minor = p < 0.999 ? 433 * p - 190 * std::pow(p, 1.22) : 230 * std::pow(p, 0.7);
    constexpr double kMicron = 1e-6;
    return from_tolerances(thread, (15 + 11 * p) * kMicron, major * kMicron, bolt * kMicron,
                           1.32 * bolt * kMicron, minor * kMicron,
                           "limits by the formulae of ISO 965-1, 6g and 6H, from memory");
}

// Inches.
ThreadLimits whitworth(const Thread& thread) {
    const double d = thread.diameter / kInch;
    const double p = thread.pitch / kInch;
    const double medium = 0.002 * std::cbrt(d) + 0.003 * std::sqrt(d) + 0.005 * std::sqrt(p);
    const double bolt = 1.5 * medium;
    const double nut_step = p < 1 / 25.5 ? 0.004 : (p < 1 / 21.5 ? 0.005 : 0.007);
    return from_tolerances(thread, 0, (bolt + 0.01 * std::sqrt(p)) * kInch, bolt * kInch,
                           medium * kInch, (0.2 * p + nut_step) * kInch,
                           "limits by the formulae of BS 84, free bolt in medium nut, from memory");
}

} // namespace

ThreadLimits limits_of(const Thread& thread) {
    switch (thread.form) {
    case Form::unified:
        return unified(thread);
    case Form::metric:
        return metric(thread);
    case Form::whitworth:
        return whitworth(thread);
    default:
        return {thread.diameter,
                pitch_diameter(thread),
                nut_minor_diameter(thread),
                pitch_diameter(thread),
                kShareOfBasic,
                "basic sizes, of which four fifths are counted, as tolerances are not held for "
                "this form"};
    }
}

} // namespace fettle::screw
