#include "torque/tightening.h"

#include <cmath>
#include <numbers>

namespace fettle::torque {
namespace {

constexpr double kPi = std::numbers::pi;

// Torque over preload, m.
double torque_arm(const Thread& thread, Friction friction, Seat seat) {
    const double lead = thread.pitch / (2 * kPi);
    const double flank =
        pitch_diameter(thread) * friction.thread / (2 * std::cos(flank_angle(thread.form)));
    const double head = friction.head * (seat.bearing_od + seat.hole) / 4;
    return lead + flank + head;
}

// Combined over plain tensile stress.
double torsion_factor(const Thread& thread, double mu_thread) {
    const double d2 = pitch_diameter(thread);
    const double d0 = std::sqrt(4 * stress_area(thread) / kPi);
    const double shear =
        1.5 * (d2 / d0) *
        (thread.pitch / (kPi * d2) + mu_thread / std::cos(flank_angle(thread.form)));
    return std::sqrt(1 + 3 * shear * shear);
}

} // namespace

double torque_for(const Thread& thread, double preload, Friction friction, Seat seat) {
    return preload * torque_arm(thread, friction, seat);
}

double preload_for(const Thread& thread, double torque, Friction friction, Seat seat) {
    return torque / torque_arm(thread, friction, seat);
}

double combined_stress(const Thread& thread, double preload, double mu_thread) {
    return preload / stress_area(thread) * torsion_factor(thread, mu_thread);
}

double preload_at_yield(const Thread& thread, double yield, double share, double mu_thread) {
    return share * yield * stress_area(thread) / torsion_factor(thread, mu_thread);
}

double torque_by_nut_factor(double factor, double diameter, double preload) {
    return factor * diameter * preload;
}

double wrench_setting(double torque, double wrench, double adapter, double angle) {
    return torque * wrench / (wrench + adapter * std::cos(angle));
}

} // namespace fettle::torque
