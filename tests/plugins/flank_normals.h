// Backlash a move of a bevel gear from the normals of its flanks: a second derivation, with
// vectors, for checking the formula and for gears that tests make up. Radians.
#pragma once

#include <array>
#include <cmath>

namespace fettle::test {

inline constexpr double kDegree = 3.14159265358979323846 / 180;

// How far the ring gear turns at the pitch circle from one flank touching to the other, once the
// gears stand `moved` apart. In the frame of the pitch point: along the cone's generator, along the
// circumference, square to the cone.
inline double freed(double pressure, double spiral, const std::array<double, 3>& moved) {
    double turned = 0;
    for (const double side : {1.0, -1.0}) {
        const std::array<double, 3> flank = {-side * std::cos(pressure) * std::sin(spiral),
                                             side * std::cos(pressure) * std::cos(spiral),
                                             std::sin(pressure)};
        const double gap = flank[0] * moved[0] + flank[1] * moved[1] + flank[2] * moved[2];
        turned += gap / (std::cos(pressure) * std::cos(spiral));
    }
    return turned;
}

// A metre along the ring gear's axis away from the pinion.
inline double freed_by_ring(double pressure, double pitch, double spiral) {
    return freed(pressure, spiral, {std::cos(pitch), 0, std::sin(pitch)});
}

// A metre along the pinion's axis, at a right angle to the other, away from the ring gear.
inline double freed_by_pinion(double pressure, double pitch, double spiral) {
    return freed(pressure, spiral, {-std::sin(pitch), 0, std::cos(pitch)});
}

} // namespace fettle::test
