// The descriptions of this plugin's sheets, each in its own file.
#pragma once

#include "fettle_plugin.h"

#include <array>
#include <cstddef>
#include <tuple>

namespace fettle::torque {

// The names of a constant list of rows, as a choice wants them.
template <class Rows>
constexpr auto named(const Rows& rows) {
    std::array<const char*, std::tuple_size_v<Rows>> names{};
    for (std::size_t i = 0; i < names.size(); ++i)
        names[i] = rows[i].name;
    return names;
}

extern const fettle_sheet kTightenForm;
extern const fettle_sheet kSubstituteForm;

} // namespace fettle::torque
