#include "coat/air.h"

#include <cmath>

namespace fettle::coat {
namespace {

constexpr double kAtIce = 611.2; // Pa
constexpr double kSlope = 17.62;
constexpr double kShift = 243.12; // K

} // namespace

double saturation(double temperature) {
    const double celsius = temperature - kIce;
    return kAtIce * std::exp(kSlope * celsius / (kShift + celsius));
}

double dew_point(double vapour) {
    const double x = std::log(vapour / kAtIce);
    return kIce + kShift * x / (kSlope - x);
}

double vapour_of(double temperature, double humidity) {
    return humidity * saturation(temperature);
}

double vapour_by_wet_bulb(double dry, double wet, double pressure) {
    const double factor = 6.53e-4 * (1 + 9.44e-4 * (wet - kIce)); // 1/K
    return saturation(wet) - factor * pressure * (dry - wet);
}

double water_content(double vapour, double temperature) {
    return 2.167e-3 * vapour / temperature; // 216.7 g K/(hPa m3)
}

double temperature_for(double vapour, double humidity) {
    return dew_point(vapour / humidity);
}

} // namespace fettle::coat
