// SI values as JSON, for the request to a worker and for a stored answer alike; a blank cell is
// null. Reading throws nlohmann::json::exception. Any thread.
#pragma once

#include "calc/typed_inputs.h"

#include <nlohmann/json.hpp>

namespace fettle::calc {

void to_json(nlohmann::json& json, const SiValue& value);
void from_json(const nlohmann::json& json, SiValue& value);

} // namespace fettle::calc
