// How far the preload strays when bolts are tightened alike. Pure functions.
#pragma once

#include <span>

namespace fettle::torque {

struct Spread {
    double mean;
    double deviation; // of a sample: over n - 1
};

// Precondition: at least two readings.
Spread spread_of(std::span<const double> readings);

struct PreloadRange {
    double least;
    double greatest;
};

// Share either way: F (1 - s) to F (1 + s).
PreloadRange by_share(double preload, double share);

// VDI 2230: the preload aimed at is the greatest, the least is that over the tightening factor.
PreloadRange by_tightening_factor(double greatest, double factor);

} // namespace fettle::torque
