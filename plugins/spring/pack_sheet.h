// The sheet spring.pack in words: checks what was typed, calls the formulae, writes the working.
// Knows the notes and refusals of the plugin contract, but no sink and no host. SI units.
#pragma once

#include "describe.hpp"
#include "spring/leaf_pack.h"

#include <optional>

namespace fettle::spring {

struct PackTyped {
    Pack pack;   // leaves may hold anything; NaN where a cell was blank
    double load; // N, on the whole spring
    double friction = 0;
    std::optional<double> free_arch;
    std::optional<double> limit; // allowable stress, Pa
};

struct PackAnswer {
    PackUnderLoad under;
    double deflection;
    std::optional<double> loaded_arch;
    double stress_max; // the greater of both views over all leaves
    double frequency;
    plugin::Account account;
};

// Refuses leaves that cannot be a pack (field "leaves") or a load or width that is nothing.
plugin::Outcome<PackAnswer> work_pack(const PackTyped& typed);

} // namespace fettle::spring
