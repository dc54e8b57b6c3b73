// The sheet shim.stack in words: checks what was typed, puts it into whole grains, searches, writes
// the working. Knows notes and refusals of the plugin contract, but no sink and no host. SI units.
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
    std::optional<double> most; // shims in a stack; blank: 5
};

struct StackAnswer {
    std::vector<Stack> stacks;  // for each target, indices into the tin
    std::vector<double> sums;   // m
    std::vector<double> errors; // m, sum - target
    double error_total;         // of their sizes
    double shims_used;
    plugin::Account account;
};

plugin::Outcome<StackAnswer> work_stack(const StackTyped& typed);

} // namespace fettle::shim
