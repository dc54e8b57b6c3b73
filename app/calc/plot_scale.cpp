#include "calc/plot_scale.h"

#include "base/quantity.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace fettle::calc {
namespace {

constexpr double kMargin = 0.05;     // of the stretch, either side
constexpr double kNearNothing = 0.4; // starting this far up, a scale still begins at nothing

std::string tick_text(double value, double step) {
    const int decimals = std::clamp(static_cast<int>(-std::floor(std::log10(step) + 1e-9)), 0, 9);
    char text[64];
    std::snprintf(text, sizeof text, "%.*f", decimals, std::fabs(value) < step / 2 ? 0.0 : value);
    return text;
}

} // namespace

double round_step(double size) {
    const double tens = std::pow(10.0, std::floor(std::log10(size)));
    for (const double step : {1.0, 2.0, 5.0})
        if (step * tens >= size * (1 - 1e-9)) return step * tens;
    return 10 * tens;
}

Stretch stretch_over(const std::vector<double>& values, std::string_view quantity) {
    if (values.empty()) return {};
    const auto [low, high] = std::ranges::minmax(values);
    Stretch stretch{low, high};
    const bool offset = quantity == "temperature";
    if (!offset && low > 0 && low < kNearNothing * high) stretch.least = 0;
    if (!offset && high < 0 && high > kNearNothing * low) stretch.greatest = 0;
    double room = stretch.size() * kMargin;
    if (room == 0) room = low == 0 ? 1 : std::fabs(low) * kMargin;
    if (quantity == "count") room = std::max(room, 0.25);
    if (stretch.least != 0) stretch.least -= room;
    if (stretch.greatest != 0) stretch.greatest += room;
    if (stretch.size() <= 0) stretch.greatest = stretch.least + 1;
    return stretch;
}

std::vector<Tick> ticks(const Stretch& stretch, std::string_view quantity, std::string_view unit,
                        int most) {
    const auto low = to_unit(stretch.least, quantity, unit);
    const auto high = to_unit(stretch.greatest, quantity, unit);
    if (!low || !high || !(*high > *low)) return {};
    double step = round_step((*high - *low) / std::max(1, most));
    if (quantity == "count") step = std::max(1.0, step);
    std::vector<Tick> all;
    for (double value = std::ceil(*low / step - 1e-9) * step; value <= *high + step * 1e-9;
         value += step) {
        const auto si = from_unit(value, quantity, unit);
        if (si) all.push_back({*si, tick_text(value, step)});
    }
    return all;
}

} // namespace fettle::calc
