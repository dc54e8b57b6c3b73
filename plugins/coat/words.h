// Quantities as the lines of working and the notes of this plugin say them, metric with the other
// unit behind it. Header only, SI in, no state.
#pragma once

#include "coat/air.h"
#include "spoken.hpp"

#include <cmath>
#include <cstdio>
#include <optional>
#include <string>
#include <string_view>

namespace fettle::coat {

inline constexpr double kThou = 2.54e-5;            // m
inline constexpr double kSquareFoot = 0.09290304;   // m2
inline constexpr double kUsGallon = 3.785411784e-3; // m3
inline constexpr double kHour = 3600;               // s

inline std::string decimals(double value, int places) {
    const double grain = std::pow(10.0, -places);
    if (std::fabs(value) < grain / 2) value = 0; // never -0.0
    char text[64];
    std::snprintf(text, sizeof text, "%.*f", places, value);
    return text;
}

inline std::string plain(double value) { // "2", "0.5", "3.6"
    return plugin::plain_number(value, 3);
}

inline std::string degrees(double kelvin) {
    const double celsius = kelvin - kIce;
    return plugin::line(decimals(celsius, 1), " °C (", decimals(celsius * 1.8 + 32, 1), " °F)");
}

inline std::string difference(double kelvin) {
    return plugin::line(decimals(kelvin, 1), " K (", decimals(kelvin * 1.8, 1), " °F)");
}

inline std::string percent(double share) {
    return plugin::line(plain(share * 100), " %");
}

inline std::string film(double metres) {
    return plugin::line(plain(metres * 1e6), " µm (", plugin::figure(metres / kThou, 3), " thou)");
}

inline std::string litres(double volume) {
    return plugin::line(plugin::figure(volume * 1e3, 3), " L (",
                        plugin::figure(volume / kUsGallon, 3), " US gal)");
}

inline std::string square(double area) {
    return plugin::line(plugin::figure(area, 3), " m² (", plugin::figure(area / kSquareFoot, 3),
                        " ft²)");
}

inline std::string spell(double seconds) {
    const double hours = seconds / kHour;
    if (hours < 1) return plugin::line(plain(hours * 60), " min");
    if (hours < 72) return plugin::line(plain(hours), " h");
    return plugin::line(plain(hours / 24), " days");
}

} // namespace fettle::coat
