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
    for (const auto& number : json.at("numbers").get_ref<const nlohmann::json::array_t&>())
        value.numbers.push_back(
            optional_number(number).value_or(std::numeric_limits<double>::quiet_NaN()));
}

} // namespace fettle::calc
