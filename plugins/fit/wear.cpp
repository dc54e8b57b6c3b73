#include "fit/wear.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace fettle::fit {
namespace {

// Readings at one station in one direction. A direction and its opposite measure the same diameter.
struct Place {
    long station;   // in thousandths, so that equal numbers meet
    long direction; // in thousandths of a degree, 0 to 180
    auto operator<=>(const Place&) const = default;
};

constexpr double kDegree = 3.14159265358979323846 / 180;

Place place_of(const Reading& reading) {
    const double degrees = *reading.direction / kDegree;
    const double half = degrees - 180 * std::floor(degrees / 180);
    const long thousandths = std::lround(half * 1000) % 180000;
    return {std::lround(reading.station * 1000), thousandths};
}

void put_together(const std::vector<Reading>& readings, Measured& result) {
    std::map<Place, std::vector<double>> same;
    std::vector<Reading> first;
    for (const Reading& reading : readings) {
        if (!reading.direction) {
            result.places.push_back(reading);
            continue;
        }
        auto& sizes = same[place_of(reading)];
        if (sizes.empty()) first.push_back(reading);
        sizes.push_back(reading.size);
    }
    double squares = 0;
    std::size_t freedom = 0;
    for (Reading& reading : first) {
        const auto& sizes = same[place_of(reading)];
        double sum = 0;
        for (const double size : sizes)
            sum += size;
        reading.size = sum / static_cast<double>(sizes.size());
        for (const double size : sizes)
            squares += (size - reading.size) * (size - reading.size);
        freedom += sizes.size() - 1;
        result.places.push_back(reading);
    }
    if (freedom > 0) result.repeat = std::sqrt(squares / static_cast<double>(freedom));
}

struct Station {
    double sum = 0;
    std::size_t count = 0;
    double least = INFINITY; // of places whose direction is known
    double greatest = -INFINITY;
    std::size_t directed = 0;
};

} // namespace

Measured measured(const std::vector<Reading>& readings) {
    Measured result{};
    put_together(readings, result);
    std::map<long, Station> stations;
    double sum = 0;
    result.least = INFINITY;
    result.greatest = -INFINITY;
    for (const Reading& place : result.places) {
        sum += place.size;
        result.least = std::min(result.least, place.size);
        result.greatest = std::max(result.greatest, place.size);
        Station& station = stations[std::lround(place.station * 1000)];
        station.sum += place.size;
        ++station.count;
        if (!place.direction) continue;
        ++station.directed;
        station.least = std::min(station.least, place.size);
        station.greatest = std::max(station.greatest, place.size);
    }
    result.mean = sum / static_cast<double>(result.places.size());
    double low = INFINITY;
    double high = -INFINITY;
    for (const auto& [at, station] : stations) {
        const double mean = station.sum / static_cast<double>(station.count);
        low = std::min(low, mean);
        high = std::max(high, mean);
        if (station.directed > 1)
            result.ovality = std::max(result.ovality.value_or(0), station.greatest - station.least);
    }
    if (stations.size() > 1) result.taper = high - low;
    return result;
}

double expanded(const UncertaintyParts& parts) {
    const double spread = parts.error * parts.error / 3 + parts.step * parts.step / 12 +
                          parts.apart * parts.apart / 3 + parts.repeat * parts.repeat;
    return 2 * std::sqrt(spread);
}

Standing standing(double margin, double uncertainty) {
    if (margin >= uncertainty) return Standing::inside;
    return margin <= -uncertainty ? Standing::outside : Standing::doubtful;
}

} // namespace fettle::fit
