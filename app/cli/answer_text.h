// Answers and descriptions of worked sheets as text for a terminal.
#pragma once

#include "calc/answer.h"

#include <string>

namespace fettle::cli {

// Outputs in metric and inch, tables, notes by their word, working and sources.
std::string answer_text(const calc::Answer& answer);
// What to type, and what comes out.
std::string sheet_text(const calc::Plugin& plugin, const calc::Sheet& sheet);

} // namespace fettle::cli
