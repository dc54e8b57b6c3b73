// Reads a thread's designation, as it is stamped on the bolt or stands on a drawing.
#pragma once

#include "describe.hpp"
#include "screw_threads/threads.h"

#include <string_view>

namespace fettle::screw {

// Reads `5/16-24 UNF`, `1/4-20 UNC`, `#10-32`, `1 1/8-8 UN`, `3/8 BSF`, `1/2-12 BSW`, `1/4-26 BSC`
// (or CEI), `M10x1.5`, `M8`, `3/8-26 BSB`, `2BA`. Without a series an inch thread is taken only if
// one series alone has that pitch; otherwise the refusal (field `field`) names the candidates.
// Specials are read with UNS or UN (60°) or WHIT (55°). Tolerance classes (-2A, -6g) are passed
// over.
plugin::Outcome<Thread> read_thread(std::string_view designation, const char* field = "thread");

} // namespace fettle::screw
