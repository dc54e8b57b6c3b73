// Charts of an answer as JSON: how they travel from the worker process, how they are kept, and what
// the command line prints. Reading throws nlohmann::json::exception. Any thread.
#pragma once

#include "calc/answer.h"

#include <nlohmann/json.hpp>

namespace fettle::calc {

// {"series":[{"name","look","points":[x, y, x, y ...]}],"labels":[{"x","y","text"}]}; values in SI.
nlohmann::json drawn_json(const AnsweredChart& chart);
// Fills in everything but the declaration.
void read_drawn(const nlohmann::json& json, AnsweredChart& chart);

} // namespace fettle::calc
