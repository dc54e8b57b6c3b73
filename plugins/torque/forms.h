// The descriptions of this plugin's sheets, each in its own file.
#pragma once

#include "fettle_plugin.h"

namespace fettle::torque {

extern const fettle_sheet kTightenForm;
extern const fettle_sheet kSubstituteForm;

} // namespace fettle::torque
