// The sheet coat.weather in words: may this steel be painted in this air? SI units (K, Pa, s,
// shares of 1). Knows refusals and notes of the plugin contract, but no host.
//
// ISO 8502-4 gives guidance on condensation: steel 3 K above the dew point unless agreed otherwise.
// The paint maker's own limits come first; all of them can be typed.
#pragma once

#include "coat/bounds.h"
#include "picture.hpp"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace fettle::coat {

inline constexpr std::array<const char*, 2> kHumidityBy = {"hygrometer", "dry and wet bulb"};
inline constexpr std::array<const char*, 3> kSurfaces = {
    "blasted bare steel", "bare steel cleaned by hand or power tool", "primed or painted before"};

inline constexpr double kUsualMargin = 3;      // K, ISO 8502-4
inline constexpr double kUsualHumidity = 0.85; // coating makers' sheets
inline constexpr Bounds kMarginBounds = {0, 20};
inline constexpr Bounds kLimitBounds = {0.2, 1};

struct WeatherTyped {
    std::optional<double> air;
    std::string humidity_by; // one of kHumidityBy, "" for the first
    std::optional<double> humidity;
    std::optional<double> wet_bulb;
    std::optional<double> pressure; // blank: 1013.25 hPa
    std::optional<double> steel;
    std::optional<double> steel_low; // the coldest it gets before it is touch dry
    std::optional<double> margin_wanted, humidity_limit;
    std::optional<double> paint_least, paint_greatest;
    std::string surface; // one of kSurfaces, "" for the last
    std::optional<double> since_blasting, blast_limit;
};

struct WeatherAnswer {
    double dew_point;
    double margin; // K, steel less dew point
    std::string verdict;
    double humidity;
    double humidity_at_steel;       // of the air that touches it; above 1: water condenses
    double steel_needed;            // K, for margin and the paint's least temperature
    double warm_by;                 // K
    double air_at_limit;            // K, where this air, no water added, has the limit of humidity
    std::optional<double> bare_for; // s, how long blasted steel may stand in this air
    plugin::Account account;
    std::vector<plugin::Picture> pictures;
};

// How long freshly bared steel may stand before it flash-rusts: 8 h up to 50 % humidity, 4 h at
// 85 %, none at 100 %, straight between. Common practice, no source; the paint maker's sheet first.
double usual_bare_time(double humidity);

plugin::Outcome<WeatherAnswer> work_weather(const WeatherTyped& typed);

// The air of the sheet, and the charts drawn from it.
struct Weather {
    double air, vapour, dew, steel;
    double margin_wanted, limit;
};
plugin::Picture dew_point_chart(const Weather& weather);
plugin::Picture warming_chart(const Weather& weather);

} // namespace fettle::coat
