#include "calc/description_json.h"

namespace fettle::calc {

void to_json(nlohmann::json& json, const Column& column) {
    json = {{"id", column.id},         {"label", column.label},
            {"shape", column.shape},   {"quantity", column.quantity},
            {"unit", column.unit},     {"required", column.required},
            {"digits", column.digits}, {"choices", column.choices}};
}

void from_json(const nlohmann::json& json, Column& column) {
    json.at("id").get_to(column.id);
    json.at("label").get_to(column.label);
    json.at("shape").get_to(column.shape);
    json.at("quantity").get_to(column.quantity);
    json.at("unit").get_to(column.unit);
    json.at("required").get_to(column.required);
    json.at("digits").get_to(column.digits);
    column.choices = json.value("choices", std::vector<std::string>());
}

void to_json(nlohmann::json& json, const Output& output) {
    json = {{"id", output.id},
            {"label", output.label},
            {"shape", output.shape},
            {"quantity", output.quantity},
            {"unit", output.unit},
            {"inch", output.inch},
            {"digits", output.digits},
            {"source", output.source},
            {"hands_to", output.hands_to}};
}

void from_json(const nlohmann::json& json, Output& output) {
    json.at("id").get_to(output.id);
    json.at("label").get_to(output.label);
    json.at("shape").get_to(output.shape);
    json.at("quantity").get_to(output.quantity);
    json.at("unit").get_to(output.unit);
    json.at("inch").get_to(output.inch);
    json.at("digits").get_to(output.digits);
    json.at("source").get_to(output.source);
    output.hands_to = json.value("hands_to", "");
}

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
            {"columns", input.columns},
            {"when", input.when},
            {"continues", input.continues},
            {"day", input.day}};
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
    input.when = json.value("when", When());
    input.continues = json.value("continues", "");
    input.day = json.value("day", "");
}

} // namespace fettle::calc
