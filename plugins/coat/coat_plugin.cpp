// The plugin "coat": its sheets, each described in a file of its own.
#include "coat/described.h"

#include <iterator>

namespace {

constexpr const fettle_sheet* kSheets[] = {&fettle::coat::kWeatherSheet, &fettle::coat::kFilmSheet,
                                           &fettle::coat::kCureSheet};

constexpr fettle_plugin kPlugin = {sizeof(fettle_plugin),
                                   FETTLE_ABI_VERSION,
                                   "coat",
                                   "Paint and weather",
                                   "1.0.0",
                                   std::size(kSheets),
                                   kSheets};

} // namespace

const fettle_plugin* fettle_plugin_describe(std::uint32_t abi_version) {
    return abi_version == FETTLE_ABI_VERSION ? &kPlugin : nullptr;
}
