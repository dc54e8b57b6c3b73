// The sheet spring.pack in words: checks what was typed, has the pack worked out, writes the
// working, the reasons and the notes. Knows the notes and refusals of the plugin contract, but no
// sink and no host. SI units.
#pragma once

#include "describe.hpp"
#include "spring/pack_typed.h"
#include "spring/pack_work.h"

#include <optional>
#include <string>

namespace fettle::spring {

struct PackAnswer {
    Pack pack;
    PackWork work;
    std::optional<double> loaded_arch;
    std::string why; // how the textbook's rate and the solved one differ, and why
    plugin::Account account;
};

// Refuses leaves that cannot be a pack (field "leaves") or a load or width that is nothing.
plugin::Outcome<PackAnswer> work_pack(const PackTyped& typed);

// Leaves that no contact force holds to the leaf above at this load; indices.
std::vector<std::size_t> idle_leaves(const PackState& state);

// Where a leaf presses on the one above: "at 230 mm from the middle"; or how far it stands clear.
std::string where_it_touches(const PackAnswer& answer, std::size_t leaf);

} // namespace fettle::spring
