// The plugin "thread": its description. The sheets describe themselves, see forms.h.
#include "describe.hpp"
#include "thread/forms.h"

namespace {

constexpr std::array<const fettle_sheet*, 3> kSheets = {
    &fettle::thread::kIdentifyForm, &fettle::thread::kEngagementForm, &fettle::thread::kRepairForm};

constexpr fettle_plugin kPlugin = {
    sizeof(fettle_plugin), FETTLE_ABI_VERSION, "thread", "Screw threads", "1.0.0",
    kSheets.size(),        kSheets.data()};

} // namespace

const fettle_plugin* fettle_plugin_describe(std::uint32_t abi_version) {
    return abi_version == FETTLE_ABI_VERSION ? &kPlugin : nullptr;
}
