// How far the last decimals typed leave an answer open: the sheet is asked again with each measured
// input moved by half its last decimal, and the changes are added as independent ones are (root of
// the sum of squares, JCGM 100:2008, 5.1.2). One thread.
#pragma once

#include "calc/typed_inputs.h"
#include "calc/worker/plugin_library.h"

#include <nlohmann/json.hpp>

#include <vector>

namespace fettle::calc {

// {output id: half width in SI}; outputs that nothing typed moves are left out. `outputs` are those
// of the answer itself. A move that the sheet refuses counts for nothing. Precondition: the sheet
// is smooth.
nlohmann::json spreads(const PluginLibrary::Pair& found, const std::vector<SiValue>& values,
                       const nlohmann::json& outputs);

} // namespace fettle::calc
