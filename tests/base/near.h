// Relative closeness. doctest's Approx adds an absolute part, far too wide for 1e-5 m.
#pragma once

#include <cmath>

namespace fettle::test {

inline bool near(double value, double expected, double relative) {
    return std::fabs(value - expected) <= relative * std::fabs(expected);
}

} // namespace fettle::test
