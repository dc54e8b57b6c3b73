// The sheets of the plugin "coat", each described in a file of its own. Part of the adapter: the
// calculations know nothing of it.
#pragma once

#include "fettle_plugin.h"

namespace fettle::coat {

extern const fettle_sheet kWeatherSheet;
extern const fettle_sheet kFilmSheet;
extern const fettle_sheet kCureSheet;

} // namespace fettle::coat
