#include "fit/press.h"

#include <cmath>
#include <numbers>

namespace fettle::fit {
namespace {

constexpr double square(double x) {
    return x * x;
}

} // namespace

double hub_compliance(const Ring& hub, double d) {
    const double shape = (square(hub.other) + square(d)) / (square(hub.other) - square(d));
    return (shape + hub.poisson) / hub.modulus;
}

double shaft_compliance(const Ring& shaft, double d) {
    const double shape = (square(d) + square(shaft.other)) / (square(d) - square(shaft.other));
    return (shape - shaft.poisson) / shaft.modulus;
}

double press_pressure(double interference, double d, const Ring& hub, const Ring& shaft) {
    return interference / (d * (hub_compliance(hub, d) + shaft_compliance(shaft, d)));
}

double hub_hoop(double p, double d, const Ring& hub) {
    return p * (square(hub.other) + square(d)) / (square(hub.other) - square(d));
}

double shaft_hoop(double p, double d, const Ring& shaft) {
    if (shaft.other <= 0) return -p;
    return -2 * p * square(d) / (square(d) - square(shaft.other));
}

double hub_equivalent(double p, double d, const Ring& hub) {
    const double hoop = hub_hoop(p, d, hub); // with the radial stress -p
    return std::sqrt(square(hoop) + hoop * p + square(p));
}

double shaft_equivalent(double p, double d, const Ring& shaft) {
    return std::abs(shaft_hoop(p, d, shaft)); // inside of a bush: no radial stress; solid: -p, -p
}

double close_in(double p, double d, const Ring& shaft) {
    if (shaft.other <= 0) return 0;
    return shaft.other * std::abs(shaft_hoop(p, d, shaft)) / shaft.modulus;
}

double outside_growth(double p, double d, const Ring& hub) {
    return hub.other * 2 * p * square(d) / ((square(hub.other) - square(d)) * hub.modulus);
}

double push_force(double p, double d, double length, double friction) {
    return friction * p * std::numbers::pi * d * length;
}

double slip_torque(double p, double d, double length, double friction) {
    return push_force(p, d, length, friction) * d / 2;
}

double smoothing(double hub_rz, double shaft_rz) {
    return 0.8 * (hub_rz + shaft_rz);
}

} // namespace fettle::fit
