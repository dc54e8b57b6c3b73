// The two pictures of coat.weather.
#include "coat/weather_sheet.h"

#include <algorithm>

namespace fettle::coat {
namespace {

using plugin::line;
using plugin::Picture;

constexpr int kSteps = 40;

} // namespace

Picture dew_point_chart(const Weather& weather) {
    constexpr double kDriest = 0.2;
    const double humidity = weather.vapour / saturation(weather.air);
    const double from = std::min(kDriest, humidity);
    std::vector<fettle_point> dew;
    for (int i = 0; i <= kSteps; ++i) {
        const double share = from + (1 - from) * i / kSteps;
        dew.push_back({share, dew_point(vapour_of(weather.air, share))});
    }
    const double highest = weather.steel - weather.margin_wanted;
    const double low = std::min(dew.front().y, highest);
    const double high = std::max(dew.back().y, weather.steel);
    Picture picture{"dew_point", {}, {}};
    picture.traces = {
        {line("dew point, air ", degrees(weather.air)), FETTLE_LINE, dew},
        {"highest dew point for this steel", FETTLE_DASHED, {{from, highest}, {1, highest}}},
        {"limit of humidity", FETTLE_DASHED, {{weather.limit, low}, {weather.limit, high}}},
        {"", FETTLE_DOTS, {{humidity, weather.dew}}}};
    picture.labels = {{{humidity, weather.dew}, line("dew point ", degrees(weather.dew))}};
    return picture;
}

Picture warming_chart(const Weather& weather) {
    constexpr double kBeyond = 10; // K
    const double limit_at = temperature_for(weather.vapour, weather.limit);
    const double from = weather.dew;
    const double to = std::max({weather.air, limit_at, weather.dew}) + kBeyond;
    std::vector<fettle_point> humidity;
    for (int i = 0; i <= kSteps; ++i) {
        const double at = from + (to - from) * i / kSteps;
        humidity.push_back({at, weather.vapour / saturation(at)});
    }
    const double now = weather.vapour / saturation(weather.air);
    Picture picture{"warming", {}, {}};
    picture.traces = {
        {"humidity, no water added", FETTLE_LINE, humidity},
        {"limit of humidity", FETTLE_DASHED, {{from, weather.limit}, {to, weather.limit}}},
        {"", FETTLE_DOTS, {{weather.air, now}}}};
    picture.labels = {{{weather.air, now}, line("now ", percent(now))}};
    return picture;
}

} // namespace fettle::coat
