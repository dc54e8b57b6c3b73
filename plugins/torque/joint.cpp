#include "torque/joint.h"

#include "screw_threads/words.h"

#include <cmath>

namespace fettle::torque {

double bolt_stiffness(const Thread& thread, double grip, double plain, double modulus) {
    const double shank = kPi / 4 * thread.diameter * thread.diameter;
    const double threaded = stress_area(thread);
    return shank * threaded * modulus / (shank * (grip - plain) + threaded * plain);
}

double parts_stiffness(double diameter, double grip, double modulus) {
    const double cone = 0.5774 * grip;
    const double spread = 5 * (cone + 0.5 * diameter) / (cone + 2.5 * diameter);
    return 0.5774 * kPi * modulus * diameter / (2 * std::log(spread));
}

double load_share(double bolt, double parts) {
    return bolt / (bolt + parts);
}

double service_stress(double share, double outer_load, double preload, double area) {
    return (share * outer_load + preload) / area;
}

double separation_load(double share, double preload) {
    return preload / (1 - share);
}

} // namespace fettle::torque
