// This plugin speaks of screw threads in every file: the names of plugins/screw_threads, bare.
#pragma once

#include "screw_threads/threads.h"

namespace fettle::torque {

using namespace screw;

} // namespace fettle::torque
