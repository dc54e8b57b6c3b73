// The descriptions of this plugin's sheets, each in its own file, and the caution they share.
#pragma once

#include "fettle_plugin.h"

namespace fettle::spring {

extern const fettle_sheet kPackForm;
extern const fettle_sheet kSagForm;

inline constexpr const char* kCaution =
    "A leaf spring under load holds enough to kill. Take the load off before any U-bolt, centre "
    "bolt or shackle is undone, clamp the pack before its centre bolt comes out, use a compressor "
    "rated for it, and stand clear of the line of travel. Springs are part of the vehicle's "
    "safety: "
    "the maker's figures, local codes and a licensed spring maker or engineer come first.";

} // namespace fettle::spring
