#include "calc/value_json.h"

#include "calc/description_json.h"

#include <cmath>
#include <limits>

namespace fettle::calc {

void to_json(nlohmann::json& json, const SiValue& value) {
    json = {{"given", value.given}};
    if (!value.given) return;
    json["number"] = value.number;
    json["text"] = value.text;
    json["rows"] = value.rows;
    json["columns"] = value.columns;
    json["unit"] = value.typed_unit;
    json["half_step"] = value.half_step;
    json["half_steps"] = value.half_steps;
    auto& numbers = json["numbers"] = nlohmann::json::array();
    for (double number : value.numbers)
        numbers.push_back(std::isnan(number) ? nlohmann::json() : nlohmann::json(number));
}

void from_json(const nlohmann::json& json, SiValue& value) {
    value = {};
    json.at("given").get_to(value.given);
    if (!value.given) return;
    json.at("number").get_to(value.number);
    json.at("text").get_to(value.text);
    json.at("rows").get_to(value.rows);
    json.at("columns").get_to(value.columns);
    json.at("unit").get_to(value.typed_unit);
    value.half_step = json.value("half_step", 0.0); // results kept earlier have none
    value.half_steps = json.value("half_steps", std::vector<double>());
    if (!value.half_steps.empty() && value.half_steps.size() != json.at("numbers").size())
        throw nlohmann::json::other_error::create(500, "half steps do not match numbers", &json);
    for (const auto& number : json.at("numbers").get_ref<const nlohmann::json::array_t&>())
        value.numbers.push_back(
            optional_number(number).value_or(std::numeric_limits<double>::quiet_NaN()));
}

} // namespace fettle::calc
