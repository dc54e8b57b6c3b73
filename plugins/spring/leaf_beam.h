// One leaf of half a spring as a cantilever: what forces and couples at its stations do to it.
//
// Stations stand where one stretch meets the next; the first stretch begins at the clamp, the last
// ends at the tip. Upward forces and couples that turn the tip upward count positive. The bending
// stiffness E I runs straight from one end of a stretch to the other, so every coefficient has a
// closed form: integrals of 1, x and x² over E I. Euler-Bernoulli, small deflections. SI units.
// Source: any text on strength of materials; checked against 3EI/L³ and its kin in the tests.
#pragma once

#include <cstddef>
#include <vector>

namespace fettle::spring {

// A point is a tip of this share of the width: the integrals then stay finite.
inline constexpr double kLeastTipShare = 1e-6;

struct Stretch {
    double length; // m, greater than nothing
    double inner;  // N.m², E I at the end nearer the clamp
    double outer;
};

class LeafBeam {
  public:
    explicit LeafBeam(const std::vector<Stretch>& stretches);

    std::size_t stations() const { return lengths_.size(); }

    // Deflection at one station by 1 N at another, m/N: x s I0 - (x + s) I1 + I2 up to the nearer.
    double sag(std::size_t at, std::size_t load) const {
        const std::size_t nearer = at < load ? at : load;
        return at_[at] * at_[load] * sum0_[nearer] - (at_[at] + at_[load]) * sum1_[nearer] +
               sum2_[nearer];
    }

    // Deflection at a station by a couple of 1 N.m at another, 1/N.
    double sag_by_couple(std::size_t at, std::size_t couple) const {
        const std::size_t nearer = at < couple ? at : couple;
        return at_[at] * sum0_[nearer] - sum1_[nearer];
    }

    // Deflections at every station under all forces and couples. Arrays as long as stations().
    void bend(const double* forces, const double* couples, double* deflections) const;

    // Bending moment just inside every station and, last, at the clamp; positive curves the tip
    // upward. `moments` is one longer than stations().
    void moments(const double* forces, const double* couples, double* moments) const;

  private:
    std::vector<double> lengths_;
    std::vector<double> at_;                    // m from the clamp
    std::vector<double> give0_, give1_, give2_; // of a stretch, counted from its outer end
    std::vector<double> sum0_, sum1_, sum2_;    // from the clamp to a station, counted from there
};

} // namespace fettle::spring
