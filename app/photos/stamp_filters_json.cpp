#include "base/text.h"
#include "photos/stamp_filters.h"

#include <nlohmann/json.hpp>

#include <cmath>

namespace fettle::photos {
namespace {

using nlohmann::json;

struct Setting {
    const char* name;
    double StampFilters::*value;
    double least, most;
};

constexpr Setting kSettings[] = {{"flatten", &StampFilters::flatten, 0, 1},
                                 {"contrast", &StampFilters::contrast, 0, 1},
                                 {"relief", &StampFilters::relief, 0, 1},
                                 {"sharpen", &StampFilters::sharpen, 0, 1},
                                 {"radius", &StampFilters::radius, kLeastRadius, kMostRadius},
                                 {"light_from", &StampFilters::light_from, 0, 360}};

Failure refused(const std::string& what) {
    return {FailureKind::invalid, what};
}

std::string accepted(const Setting& setting) {
    return "a number from " + std::to_string(int(setting.least)) + " to " +
           std::to_string(int(setting.most));
}

Done take(StampFilters& filters, const std::string& name, const json& value) {
    if (name == "invert") {
        if (!value.is_boolean())
            return refused("Filters of a mark: \"invert\" is true or false, not " + value.dump() +
                           ".");
        filters.invert = value.get<bool>();
        return done();
    }
    for (const Setting& setting : kSettings) {
        if (name != setting.name) continue;
        const double number = value.is_number() ? value.get<double>() : NAN;
        if (!(number >= setting.least && number <= setting.most))
            return refused("Filters of a mark: \"" + name + "\" is " + accepted(setting) +
                           ", not " + fettle::quoted(value.dump()) + ".");
        filters.*setting.value = number;
        return done();
    }
    return refused("Filters of a mark: there is none called " + fettle::quoted(name) +
                   "; known are flatten, contrast, relief, sharpen, invert, radius and "
                   "light_from.");
}

} // namespace

std::string to_json(const StampFilters& filters) {
    auto object = json::object();
    for (const Setting& setting : kSettings)
        // Sliders move by hundredths; more digits would only be noise in the record.
        object[setting.name] = std::round(filters.*setting.value * 1000) / 1000;
    object["invert"] = filters.invert;
    return object.dump();
}

Result<StampFilters> filters_from_json(std::string_view text) {
    const json object = json::parse(text, nullptr, false);
    if (!object.is_object())
        return refused("Filters of a mark are a JSON object such as {\"flatten\": 0.6}, not " +
                       fettle::quoted(text) + ".");
    StampFilters filters;
    for (const auto& [name, value] : object.items())
        if (auto taken = take(filters, name, value); !taken) return taken.failure();
    return filters;
}

} // namespace fettle::photos
