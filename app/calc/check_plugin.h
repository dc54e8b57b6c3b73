// Whether a plugin's description makes sense: ids, units, presets, bounds, counts.
//
// The worker has read the C structs into plain values; what came back through its pipe is still
// foreign, so it is judged on this side. Any thread.
#pragma once

#include "base/result.h"
#include "calc/sheet.h"

#include <cstddef>
#include <string_view>

namespace fettle::calc {

// Bounds that both the worker and the check keep to.
inline constexpr std::size_t kMostSheets = 64;
inline constexpr std::size_t kMostInputs = 200; // also outputs, tables, columns, choices, sources

// `file_name`: the library's name without ending, which the plugin's id must equal. Fails with
// plugin; the sentence names what is wrong, without naming the plugin.
Done check_plugin(const Plugin& plugin, std::string_view file_name);

} // namespace fettle::calc
