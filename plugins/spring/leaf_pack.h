// A laminated spring as measured on the bench, leaf by leaf, and what a load does to it.
//
// Two views, neither of which solves where the leaves press on one another:
//   beam  All leaves bend alike wherever they lie on each other (common curvature): a stepped beam.
//         No leaf can lift off, so this is the stiffest the pack can be without friction.
//   book  3nf + 2ng of the textbooks, each leaf counted with its own thickness cubed.
// SI units. Knows no words and no host.
#pragma once

#include <optional>
#include <vector>

namespace fettle::spring {

struct Leaf {
    double length; // m, whole length along the leaf; of the master eye centre to eye centre
    double thickness;
    std::optional<double> radius; // m, free
};

struct Pack {
    std::vector<Leaf> leaves; // longest first
    double width;
    double clamp; // m, inactive length at the axle, taken off every leaf whole
    double modulus;
};

struct LeafUnderLoad {
    bool full;          // counted as full length
    double share;       // of the bending moment at the clamp, beam view
    double stress_beam; // Pa, the greatest along the leaf
    double stress_book; // Pa: 18FLt/(bS) full, 12FLt/(bS) graduated, S = sum 3t³ + sum 2t³
};

struct PackUnderLoad {
    double half_length; // m, of the longest leaf without the clamp
    int full;
    int graduated;
    double rate;      // N/m at the axle, beam view
    double rate_book; // N/m
    double book_sum;  // S, m³
    std::vector<LeafUnderLoad> leaves;
};

// A leaf counts as full length when it is as long as the longest to within this, m.
inline constexpr double kFullLengthWithin = 0.0005;

// Precondition: at least one leaf, every leaf longer than the clamp, all lengths positive.
// Source of the beam view: the bending of a stepped cantilever, 1/R = F x / (E sum of I).
PackUnderLoad under_load(const Pack& pack, double load);

// The gap at the clamp between two neighbours laid on each other free, from their radii: the lower
// leaf (of this half length) curves more sharply when it is positive. l²/2 (1/r - 1/R).
double free_gap(double half_length, double upper_radius, double lower_radius);

// Natural frequency of the load itself bouncing on the spring, Hz: sqrt(k g / W) / 2 pi.
double bounce_frequency(double rate, double load);

} // namespace fettle::spring
