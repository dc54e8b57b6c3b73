#include "spring/leaf_beam.h"

#include <array>
#include <cmath>

namespace fettle::spring {
namespace {

struct Gives { // integrals of 1, y and y² over E I, y from the outer end inward
    double zeroth, first, second;
};

// E I straight from `outer` to `inner`: closed forms with a logarithm.
Gives narrowing(double h, double inner, double share) {
    const double rest = 1 - share;
    const double log = std::log(1 / share);
    const double zeroth = log / rest;
    const double first = (1 - share * zeroth) / rest;
    const double second = (0.5 - share * first) / rest;
    return {h * zeroth / inner, h * h * first / inner, h * h * h * second / inner};
}

// The same where both ends differ too little for the logarithm: Gauss's rule with six points, whose
// error is below 1e-9 for a ratio of two.
Gives nearly_even(double h, double inner, double outer) {
    constexpr std::array<double, 3> kPlaces = {0.2386191860831969, 0.6612093864662645,
                                               0.9324695142031521};
    constexpr std::array<double, 3> kWeights = {0.4679139345726910, 0.3607615730481386,
                                                0.1713244923791704};
    Gives sum{0, 0, 0};
    for (std::size_t i = 0; i < kPlaces.size(); ++i) {
        for (const double side : {-1.0, 1.0}) {
            const double y = h * (1 + side * kPlaces[i]) / 2;
            const double share = kWeights[i] * h / 2 / (outer + (inner - outer) * y / h);
            sum.zeroth += share;
            sum.first += share * y;
            sum.second += share * y * y;
        }
    }
    return sum;
}

Gives gives_of(const Stretch& stretch) {
    const double h = stretch.length;
    if (stretch.outer < stretch.inner / 2) {
        return narrowing(h, stretch.inner, stretch.outer / stretch.inner);
    }
    if (stretch.outer != stretch.inner) return nearly_even(h, stretch.inner, stretch.outer);
    return {h / stretch.inner, h * h / (2 * stretch.inner), h * h * h / (3 * stretch.inner)};
}

} // namespace

LeafBeam::LeafBeam(const std::vector<Stretch>& stretches) {
    double at = 0, sum0 = 0, sum1 = 0, sum2 = 0;
    for (const Stretch& stretch : stretches) {
        const Gives gives = gives_of(stretch);
        at += stretch.length;
        lengths_.push_back(stretch.length);
        at_.push_back(at);
        give0_.push_back(gives.zeroth);
        give1_.push_back(gives.first);
        give2_.push_back(gives.second);
        // The same integrals counted from the clamp: x = at - y.
        sum0 += gives.zeroth;
        sum1 += at * gives.zeroth - gives.first;
        sum2 += at * at * gives.zeroth - 2 * at * gives.first + gives.second;
        sum0_.push_back(sum0);
        sum1_.push_back(sum1);
        sum2_.push_back(sum2);
    }
}

void LeafBeam::moments(const double* forces, const double* couples, double* moments) const {
    double shear = 0;
    double moment = 0;
    for (std::size_t s = stations(); s-- > 0;) {
        shear += forces[s];
        moment += couples[s];
        moments[s] = moment;
        moment += shear * lengths_[s];
    }
    moments[stations()] = moment;
}

void LeafBeam::bend(const double* forces, const double* couples, double* deflections) const {
    double shear = 0;
    double moment = 0; // at the clamp, then carried outward
    for (std::size_t s = 0; s < stations(); ++s) {
        shear += forces[s];
        moment += forces[s] * at_[s] + couples[s];
    }
    double slope = 0;
    double deflection = 0;
    for (std::size_t s = 0; s < stations(); ++s) {
        moment -= shear * lengths_[s]; // just inside the station
        deflection += slope * lengths_[s] + moment * give1_[s] + shear * give2_[s];
        slope += moment * give0_[s] + shear * give1_[s];
        deflections[s] = deflection;
        moment -= couples[s];
        shear -= forces[s];
    }
}

} // namespace fettle::spring
