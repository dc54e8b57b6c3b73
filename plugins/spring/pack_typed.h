// What a person types about a pack, and the pack made of it or the sentence why it is none.
#pragma once

#include "describe.hpp"
#include "spring/leaf_pack.h"

#include <optional>
#include <vector>

namespace fettle::spring {

struct LeafTyped { // anything may stand here; NaN where a cell was blank
    double length;
    double thickness;
    std::optional<double> radius;   // of the hollow face, free
    std::optional<double> rise;     // free, of the hollow face over the leaf's whole length
    std::optional<double> narrowed; // at each end
};

struct PackTyped {
    std::vector<LeafTyped> leaves;
    double width;
    double clamp = 0;
    bool two_thirds = false; // of the clamp only are taken off
    double load;             // N, on the whole spring
    std::optional<double> free_arch;
    double modulus;
    double friction = 0;
    std::optional<double> limit;     // allowable stress, Pa
    std::optional<double> tip_width; // of narrowed ends; half the width where none is typed
    std::vector<double> clips;
    std::optional<double> clip_play;
    bool master_apart = false; // the master counts with the graduated leaves
};

inline constexpr std::size_t kMostLeaves = 40;

// Refuses what cannot be a pack, naming the field; sentences begin with the field's id.
plugin::Outcome<Pack> pack_from(const PackTyped& typed);

} // namespace fettle::spring
