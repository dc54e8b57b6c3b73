// The sheet shim.stack in words: checks what was typed, puts it into whole grains, searches, writes
// the working.
//
// Thin shims are precious: the last trial needs them. Those kept back are used only where no stacks
// come within the tolerance without them; then they are released one by one, the thickest first.
// Knows notes and refusals of the plugin contract, but no sink and no host. SI units.
#pragma once

#include "describe.hpp"
#include "shim/stack_search.h"

#include <optional>
#include <vector>

namespace fettle::shim {

struct StackTyped {
    std::vector<double> targets; // m
    std::vector<double> tin;     // m, as measured
    std::optional<double> tolerance;
    std::optional<double> most;      // shims in a stack; blank: 5
    std::optional<double> keep_back; // so many of the thinnest stay in the tin
    std::optional<double> keep_thin; // m; so do all thinner than this
};

struct StackAnswer {
    std::vector<Stack> stacks;  // for each target, indices into the tin
    std::vector<double> sums;   // m
    std::vector<double> errors; // m, sum - target
    double error_total;         // of their sizes
    double shims_used;
    double bound;     // m; the errors of all targets together cannot be less
    double kept_back; // thin shims left in the tin for a later trial
    plugin::Account account;
};

plugin::Outcome<StackAnswer> work_stack(const StackTyped& typed);

} // namespace fettle::shim
