// Shim stacks from one tin for several targets at once, exactly.
//
// Best: the least sum of |stack - target| over all targets; among those the fewest shims in all. No
// shim is used twice. Pure and deterministic: the limit on the work counts steps, not time, so
// equal tins give equal stacks. Knows lengths as whole grains only, no unit, no words.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace fettle::shim {

struct Cost {
    std::int64_t error = 0; // grains
    int shims = 0;
    auto operator<=>(const Cost&) const = default; // error first
    Cost operator+(Cost other) const { return {error + other.error, shims + other.shims}; }
};

using Stack = std::vector<std::size_t>; // indices into the tin, thickest first

struct Stacks {
    std::vector<Stack> of_target; // in the order of the targets; a stack may be empty
    Cost total;
    Cost bound;            // no choice of stacks costs less; equals total when that was proven
    bool proven = true;    // the search ran to its end
    std::int64_t work = 0; // steps taken
};

// Targets and shims in grains, greater than nothing; `most` shims in a stack at most, 1 to 250.
// After about `work_limit` steps (sixteen additions each) the best found so far is returned.
// How: branch and bound over error and count, guided by tables of the sums the shims left over can
// make; all targets together, as one stack, bound what the parting of a scarce tin must cost.
Stacks best_stacks(std::span<const std::int64_t> targets, std::span<const std::int64_t> tin,
                   int most, std::int64_t work_limit);

} // namespace fettle::shim
