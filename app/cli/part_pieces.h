// `part use`, `divide`, `split`, `join`, `take-out`: lots and assemblies.
#pragma once

#include "cli/verb.h"

namespace fettle::cli {

void add_part_pieces(Line& line, CLI::App& group);

} // namespace fettle::cli
