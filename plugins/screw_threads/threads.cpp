#include "screw_threads/threads.h"

#include "screw_threads/words.h"

#include <cmath>

namespace fettle::screw {
namespace {

// Depths in pitches below the major diameter, each counted on the diameter.
// UN and metric: ISO 68-1. Whitworth: BS 84. BA: BS 93. Cycle: BS 811 (from memory).
struct Profile {
    double pitch, nut_minor, core, stress;
    double flank; // degrees
    const char* name;
};

const Profile& profile(Form form) {
    static constexpr Profile kUnified{0.649519, 1.082532, 1.226869, 0.9743, 30, "Unified, 60°"};
    static constexpr Profile kMetric{0.649519, 1.082532, 1.226869, 0.9382, 30, "ISO metric, 60°"};
    static constexpr Profile kWhitworth{0.640327, 1.280654, 1.280654,
                                        0.960491, 27.5,     "Whitworth, 55°"};
    static constexpr Profile kAssociation{0.6, 1.2, 1.2, 0.9, 23.75, "British Association, 47.5°"};
    static constexpr Profile kCycle{0.5327, 1.0654, 1.0654, 0.79905, 30, "British cycle, 60°"};
    switch (form) {
    case Form::unified:
        return kUnified;
    case Form::whitworth:
        return kWhitworth;
    case Form::british_association:
        return kAssociation;
    case Form::cycle:
        return kCycle;
    default:
        return kMetric;
    }
}

} // namespace

double flank_angle(Form form) {
    return profile(form).flank * kPi / 180;
}

double pitch_diameter(const Thread& thread) {
    return thread.diameter - profile(thread.form).pitch * thread.pitch;
}

double nut_minor_diameter(const Thread& thread) {
    return thread.diameter - profile(thread.form).nut_minor * thread.pitch;
}

double core_diameter(const Thread& thread) {
    return thread.diameter - profile(thread.form).core * thread.pitch;
}

double sharp_height(Form form) {
    return 0.5 / std::tan(flank_angle(form));
}

double thread_depth(Form form) {
    return profile(form).core / 2;
}

double crest_radius(Form form) {
    if (form == Form::unified || form == Form::metric) return 0;
    return (sharp_height(form) - thread_depth(form)) / 2 / (1 / std::sin(flank_angle(form)) - 1);
}

double full_depth(Form form) {
    // UN and metric by custom: twice three quarters of H, deeper than either thread is.
    const bool flat = form == Form::unified || form == Form::metric;
    return flat ? 1.299038 : profile(form).core;
}

double stress_depth(Form form) {
    return profile(form).stress;
}

double stress_area(const Thread& thread) {
    const double mean = thread.diameter - stress_depth(thread.form) * thread.pitch;
    return kPi / 4 * mean * mean;
}

const char* form_name(Form form) {
    return profile(form).name;
}

} // namespace fettle::screw
