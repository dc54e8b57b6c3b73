// Descriptions as JSON: how they travel from the worker process and how they are stored with an
// answer. Reading throws nlohmann::json::exception on a missing or foreign member; callers catch it
// at their edge. Any thread.
#pragma once

#include "calc/sheet.h"

#include <nlohmann/json.hpp>

namespace fettle::calc {

// Members that came with the second edition of the contract may miss in results kept before it.
void to_json(nlohmann::json& json, const Column& column);
void from_json(const nlohmann::json& json, Column& column);
void to_json(nlohmann::json& json, const Output& output);
void from_json(const nlohmann::json& json, Output& output);
void to_json(nlohmann::json& json, const Input& input);
void from_json(const nlohmann::json& json, Input& input);

NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(When, input, choices)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Table, id, label, columns)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Axis, label, quantity, unit, inch)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Chart, id, label, to_scale, x, y)

// null stands for "no number", since JSON has neither NaN nor infinity.
inline nlohmann::json number_or_null(const std::optional<double>& number) {
    return number ? nlohmann::json(*number) : nlohmann::json();
}
inline std::optional<double> optional_number(const nlohmann::json& json) {
    return json.is_null() ? std::nullopt : std::optional(json.get<double>());
}

NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Sheet, id, title, answers, caution, revision, inputs, outputs,
                                   tables, sources, charts, smooth)
// `library` stays out: the reader knows where it found the file.
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Plugin, id, name, version, sheets)

} // namespace fettle::calc
