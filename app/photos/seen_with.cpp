#include "photos/seen_with.h"

#include "base/text.h"

#include <nlohmann/json.hpp>

#include <cmath>

namespace fettle::photos {
namespace {

using nlohmann::json;

Failure refused(const std::string& what) {
    return {FailureKind::invalid, "How a mark was seen: " + what};
}

Done take(SeenWith& seen, const std::string& name, const json& value) {
    if (name == "filters") {
        auto filters = filters_from_json(value.dump());
        if (!filters) return filters.failure();
        seen.filters = *filters;
        return done();
    }
    if (name == "mirrored") {
        if (!value.is_boolean())
            return refused("\"mirrored\" is true or false, not " + fettle::quoted(value.dump()) +
                           ".");
        seen.mirrored = value.get<bool>();
        return done();
    }
    if (name == "torch") {
        if (!value.is_object())
            return refused("\"torch\" is an object, not " + fettle::quoted(value.dump()) + ".");
        seen.torch = value.dump();
        return done();
    }
    if (name != "turn")
        return refused("there is nothing called " + fettle::quoted(name) +
                       "; known are filters, turn, mirrored and torch.");
    const double turn = value.is_number() ? value.get<double>() : NAN;
    if (!(turn >= 0 && turn <= 360))
        return refused("\"turn\" is a number of degrees from 0 to 360, not " +
                       fettle::quoted(value.dump()) + ".");
    seen.turn = turn;
    return done();
}

} // namespace

std::string to_json(const SeenWith& seen) {
    if (seen.plain()) return {};
    auto object = json::object();
    if (seen.filters.any()) object["filters"] = json::parse(to_json(seen.filters));
    if (seen.turn != 0) object["turn"] = std::round(seen.turn * 1000) / 1000;
    if (seen.mirrored) object["mirrored"] = true;
    if (!seen.torch.empty()) object["torch"] = json::parse(seen.torch);
    return object.dump();
}

Result<SeenWith> seen_with_from_json(std::string_view text) {
    SeenWith seen;
    if (text.empty()) return seen;
    const json object = json::parse(text, nullptr, false);
    if (!object.is_object())
        return refused("it is a JSON object such as {\"filters\": {\"flatten\": 0.6}}, not " +
                       fettle::quoted(text) + ".");
    for (const auto& [name, value] : object.items())
        if (auto taken = take(seen, name, value); !taken) return taken.failure();
    return seen;
}

} // namespace fettle::photos
