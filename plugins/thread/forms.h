// The descriptions of this plugin's sheets, each in its own file.
#pragma once

#include "fettle_plugin.h"

namespace fettle::thread {

extern const fettle_sheet kIdentifyForm;
extern const fettle_sheet kEngagementForm;
extern const fettle_sheet kRepairForm;

} // namespace fettle::thread
