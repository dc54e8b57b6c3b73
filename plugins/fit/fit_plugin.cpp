// The plugin "fit": its description. The sheets describe themselves, see described.h.
#include "fit/described.h"

namespace {

constexpr std::array<const fettle_sheet*, 5> kSheets = {
    &fettle::fit::kLimitsSheet, &fettle::fit::kPressSheet, &fettle::fit::kShrinkSheet,
    &fettle::fit::kFreeSheet, &fettle::fit::kWearSheet};

constexpr fettle_plugin kPlugin = {
    sizeof(fettle_plugin), FETTLE_ABI_VERSION, "fit", "Fits, wear and heat", "1.0.0",
    kSheets.size(),        kSheets.data()};

} // namespace

const fettle_plugin* fettle_plugin_describe(std::uint32_t abi_version) {
    return abi_version == FETTLE_ABI_VERSION ? &kPlugin : nullptr;
}
