#include "calc/description_json.h"

namespace fettle::calc {

void to_json(nlohmann::json& json, const Input& input) {
    json = {{"id", input.id},
            {"label", input.label},
            {"help", input.help},
            {"shape", input.shape},
            {"quantity", input.quantity},
            {"unit", input.unit},
            {"preset", input.preset},
            {"least", number_or_null(input.least)},
            {"greatest", number_or_null(input.greatest)},
            {"required", input.required},
            {"choices", input.choices},
            {"columns", input.columns}};
}

void from_json(const nlohmann::json& json, Input& input) {
    json.at("id").get_to(input.id);
    json.at("label").get_to(input.label);
    json.at("help").get_to(input.help);
    json.at("shape").get_to(input.shape);
    json.at("quantity").get_to(input.quantity);
    json.at("unit").get_to(input.unit);
    json.at("preset").get_to(input.preset);
    input.least = optional_number(json.at("least"));
    input.greatest = optional_number(json.at("greatest"));
    json.at("required").get_to(input.required);
    json.at("choices").get_to(input.choices);
    json.at("columns").get_to(input.columns);
}

} // namespace fettle::calc
