// Which sums a set of shims can make, and with how few of them.
//
// Row i, column s: the least number of shims from i, i+1, ... that add up to exactly s grains, or
// kNever. Built once for a set, then asked for any target. Thicknesses in whole grains.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace fettle::shim {

class SumTable {
  public:
    static constexpr std::uint8_t kNever = 255;

    // Sums up to `highest`, with at most `most` shims, of fewer than kNever shims in all.
    SumTable(std::span<const std::int64_t> grains, std::int64_t highest, int most);

    // Fewest shims from `first` on that make `sum`; kNever when none do. Any sum may be asked.
    std::uint8_t fewest(std::size_t first, std::int64_t sum) const {
        if (sum < 0 || sum >= width_) return kNever;
        const std::size_t row = first * static_cast<std::size_t>(width_);
        const std::uint8_t count = cells_[row + static_cast<std::size_t>(sum)];
        return count > most_ ? kNever : count;
    }

    // How much work building one takes, in the units of a search's limit.
    static std::int64_t effort(std::size_t shims, std::int64_t highest) {
        return static_cast<std::int64_t>(shims + 1) * (highest / 16 + 8);
    }

  private:
    int most_;
    std::int64_t width_;
    std::vector<std::uint8_t> cells_;
};

} // namespace fettle::shim
