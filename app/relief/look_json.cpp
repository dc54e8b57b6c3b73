#include "base/text.h"
#include "relief/look.h"

#include <nlohmann/json.hpp>

#include <array>
#include <cmath>

namespace fettle::relief {
namespace {

using nlohmann::json;

constexpr std::array<std::string_view, 4> kKinds = {"lit", "relief", "depth", "albedo"};

struct Setting {
    const char* name;
    double View::*value;
    double least, most;
};

constexpr Setting kSettings[] = {{"light_from", &View::light_from, 0, 360},
                                 {"light_height", &View::light_height, kLeastHeight, kMostHeight},
                                 {"slope", &View::slope, kLeastSlope, kMostTimes},
                                 {"lean_right", &View::lean_right, -kMostLean, kMostLean},
                                 {"lean_down", &View::lean_down, -kMostLean, kMostLean},
                                 {"contrast", &View::contrast, 0, 1},
                                 {"radius", &View::radius, kLeastAround, kMostAround}};

Failure refused(const std::string& what) {
    return {FailureKind::invalid, "View of a relief: " + what};
}

Failure outside(const Setting& setting, const std::string& value) {
    return refused(std::string("\"") + setting.name + "\" is a number from " +
                   json(setting.least).dump() + " to " + json(setting.most).dump() + ", not " +
                   fettle::quoted(value) + ".");
}

bool accepted(const Setting& setting, double value) {
    return value >= setting.least && value <= setting.most;
}

Done take(View& view, const std::string& name, const json& value) {
    if (name == "kind") {
        auto kind = kind_called(value.is_string() ? value.get<std::string>() : value.dump());
        if (!kind) return kind.failure();
        view.kind = *kind;
        return done();
    }
    if (name == "turned_over") {
        if (!value.is_boolean())
            return refused("\"turned_over\" is true or false, not " + fettle::quoted(value.dump()) +
                           ".");
        view.turned_over = value.get<bool>();
        return done();
    }
    for (const Setting& setting : kSettings) {
        if (name != setting.name) continue;
        const double number = value.is_number() ? value.get<double>() : NAN;
        if (!accepted(setting, number)) return outside(setting, value.dump());
        view.*setting.value = number;
        return done();
    }
    return refused("there is nothing called " + fettle::quoted(name) +
                   "; known are kind, light_from, light_height, slope, turned_over, lean_right, "
                   "lean_down, contrast and radius.");
}

} // namespace

std::string_view word(Kind kind) {
    return kKinds[std::size_t(kind)];
}

Result<Kind> kind_called(std::string_view word) {
    for (std::size_t i = 0; i < kKinds.size(); ++i)
        if (word == kKinds[i]) return Kind(i);
    return refused("the kind " + fettle::quoted(word) +
                   " is not accepted: give lit, relief, depth or albedo.");
}

Done check_view(const View& view) {
    for (const Setting& setting : kSettings)
        if (const double value = view.*setting.value; !accepted(setting, value))
            return outside(setting, json(value).dump());
    return done();
}

std::string to_json(const View& view) {
    auto object = json::object();
    object["kind"] = word(view.kind);
    object["turned_over"] = view.turned_over;
    for (const Setting& setting : kSettings)
        // Sliders move by hundredths; more digits would only be noise in the record.
        object[setting.name] = std::round(view.*setting.value * 1000) / 1000;
    return object.dump();
}

Result<View> view_from_json(std::string_view text) {
    const json object = json::parse(text, nullptr, false);
    if (!object.is_object())
        return refused("it is a JSON object such as {\"kind\": \"relief\"}, not " +
                       fettle::quoted(text) + ".");
    View view;
    for (const auto& [name, value] : object.items())
        if (auto taken = take(view, name, value); !taken) return taken.failure();
    return view;
}

} // namespace fettle::relief
