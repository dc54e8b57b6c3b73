// Descriptions as JSON: how they travel from the worker process and how they are stored with an
// answer. Reading throws nlohmann::json::exception on a missing or foreign member; callers catch it
// at their edge. Any thread.
#pragma once

#include "calc/sheet.h"

#include <nlohmann/json.hpp>

namespace fettle::calc {

NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Column, id, label, shape, quantity, unit, required, digits)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Output, id, label, shape, quantity, unit, inch, digits, source)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Table, id, label, columns)

// null stands for "no number", since JSON has neither NaN nor infinity.
inline nlohmann::json number_or_null(const std::optional<double>& number) {
    return number ? nlohmann::json(*number) : nlohmann::json();
}
inline std::optional<double> optional_number(const nlohmann::json& json) {
    return json.is_null() ? std::nullopt : std::optional(json.get<double>());
}

void to_json(nlohmann::json& json, const Input& input);
void from_json(const nlohmann::json& json, Input& input);

NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Sheet, id, title, answers, caution, revision, inputs, outputs,
                                   tables, sources)
// `library` stays out: the reader knows where it found the file.
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Plugin, id, name, version, sheets)

} // namespace fettle::calc
