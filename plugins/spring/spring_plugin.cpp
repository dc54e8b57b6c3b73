// The plugin "spring": its description. The sheets describe themselves, see forms.h.
#include "describe.hpp"
#include "spring/forms.h"

namespace {

constexpr std::array<const fettle_sheet*, 2> kSheets = {&fettle::spring::kPackForm,
                                                        &fettle::spring::kSagForm};

constexpr fettle_plugin kPlugin = {
    sizeof(fettle_plugin), FETTLE_ABI_VERSION, "spring", "Leaf springs", "2.0.0",
    kSheets.size(),        kSheets.data()};

} // namespace

const fettle_plugin* fettle_plugin_describe(std::uint32_t abi_version) {
    return abi_version == FETTLE_ABI_VERSION ? &kPlugin : nullptr;
}
