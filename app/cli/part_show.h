// `part show`: one part with everything the notebook holds on it.
#pragma once

#include "cli/verb.h"

namespace fettle::cli {

void add_part_show(Line& line, CLI::App& group);

} // namespace fettle::cli
