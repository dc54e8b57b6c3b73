// A plugin's C description copied into plain values, trusting no pointer, size or length further
// than it can be checked. What the values mean is judged by calc/check_plugin.h.
#pragma once

#include "base/result.h"
#include "calc/sheet.h"

#include <fettle_plugin.h>

namespace fettle::calc {

// Precondition: struct_size and abi_version can be read, and abi_version is ours. Fails with
// plugin.
Result<Plugin> read_plugin(const fettle_plugin& declared);

} // namespace fettle::calc
