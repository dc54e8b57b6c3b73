#include "torque/scatter.h"

#include <cmath>
#include <numeric>

namespace fettle::torque {

Spread spread_of(std::span<const double> readings) {
    const double count = static_cast<double>(readings.size());
    const double mean = std::accumulate(readings.begin(), readings.end(), 0.0) / count;
    double squares = 0;
    for (const double reading : readings)
        squares += (reading - mean) * (reading - mean);
    return {mean, std::sqrt(squares / (count - 1))};
}

PreloadRange by_share(double preload, double share) {
    return {preload * (1 - share), preload * (1 + share)};
}

PreloadRange by_tightening_factor(double greatest, double factor) {
    return {greatest / factor, greatest};
}

} // namespace fettle::torque
