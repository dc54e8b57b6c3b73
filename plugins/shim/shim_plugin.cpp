// The plugin "shim": its sheets, each described in a file of its own.
#include "shim/described.h"

namespace {

constexpr const fettle_sheet* kSheets[] = {
    &fettle::shim::kStackSheet,   &fettle::shim::kBacklashSheet, &fettle::shim::kPinionSheet,
    &fettle::shim::kCarrierSheet, &fettle::shim::kDragSheet,     &fettle::shim::kEndfloatSheet,
    &fettle::shim::kTrialSheet};

constexpr fettle_plugin kPlugin = {sizeof(fettle_plugin),
                                   FETTLE_ABI_VERSION,
                                   "shim",
                                   "Shims and backlash",
                                   "2.0.0",
                                   std::size(kSheets),
                                   kSheets};

} // namespace

const fettle_plugin* fettle_plugin_describe(std::uint32_t abi_version) {
    return abi_version == FETTLE_ABI_VERSION ? &kPlugin : nullptr;
}
