#include "torque/tightening.h"

#include "screw_threads/words.h"

#include <algorithm>
#include <cmath>

namespace fettle::torque {
namespace {

// Torque in the thread over preload, m.
double thread_arm(const Thread& thread, double mu_thread) {
    return thread.pitch / (2 * kPi) +
           pitch_diameter(thread) * mu_thread / (2 * std::cos(flank_angle(thread.form)));
}

double torque_arm(const Thread& thread, Friction friction, Seat seat) {
    return thread_arm(thread, friction.thread) + friction.head * (seat.bearing_od + seat.hole) / 4;
}

// Shear stress of a torque in the thread: VDI 2230 counts the bolt as wholly plastic in torsion,
// t = 12 T/(pi d0³), which is the (3/2) of its printed form.
double shear_stress(const Thread& thread, double torque) {
    const double d0 = std::sqrt(4 * stress_area(thread) / kPi);
    return 12 * torque / (kPi * d0 * d0 * d0);
}

} // namespace

double torque_for(const Thread& thread, double preload, Friction friction, Seat seat,
                  double prevailing) {
    return preload * torque_arm(thread, friction, seat) + prevailing;
}

double preload_for(const Thread& thread, double torque, Friction friction, Seat seat,
                   double prevailing) {
    return std::max(0.0, torque - prevailing) / torque_arm(thread, friction, seat);
}

double power_screw_torque(const Thread& thread, double preload, Friction friction,
                          double collar_diameter) {
    const double mean = pitch_diameter(thread);
    const double lead = thread.pitch / (kPi * mean);
    const double secant = 1 / std::cos(flank_angle(thread.form));
    const double screw = (lead + friction.thread * secant) / (1 - friction.thread * lead * secant);
    return preload * (mean / 2 * screw + friction.head * collar_diameter / 2);
}

double combined_stress(const Thread& thread, double preload, double mu_thread, double prevailing) {
    const double tension = preload / stress_area(thread);
    const double torsion =
        shear_stress(thread, preload * thread_arm(thread, mu_thread) + prevailing);
    return std::sqrt(tension * tension + 3 * torsion * torsion);
}

double preload_at_yield(const Thread& thread, double yield, double share, double mu_thread) {
    return share * yield / combined_stress(thread, 1.0, mu_thread);
}

double torque_by_nut_factor(double factor, double diameter, double preload) {
    return factor * diameter * preload;
}

double head_pressure(double preload, Seat seat) {
    return preload / (kPi / 4 * (seat.bearing_od * seat.bearing_od - seat.hole * seat.hole));
}

double wrench_setting(double torque, double wrench, double adapter, double angle) {
    return torque * wrench / (wrench + adapter * std::cos(angle));
}

} // namespace fettle::torque
