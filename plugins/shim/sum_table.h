// Which sums a set of shims can make, and with how few of them.
//
// Shims come as kinds: a thickness in whole grains and how many there are of it. Row i, column s:
// the least number of shims of the kinds i, i+1, ... that add up to exactly s grains, or kNever.
// Built once for a set, then asked for any target. For a smaller set the answers are still lower
// bounds: taking shims away never makes a sum with fewer.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <span>
#include <vector>

namespace fettle::shim {

struct Kind {
    std::int64_t grains;
    int held;
};

class SumTable {
  public:
    static constexpr std::uint8_t kNever = 255;

    // Sums up to `highest`, with at most `most` shims, of fewer than kNever shims in all. Built
    // again in the memory of the table before, whose answers are then gone.
    void build(std::span<const Kind> kinds, std::int64_t highest, int most);

    // Fewest shims of the kinds from `first` on that make `sum`; kNever when none do. Any sum may
    // be asked.
    std::uint8_t fewest(std::size_t first, std::int64_t sum) const {
        if (sum < 0 || sum >= width_) return kNever;
        const std::size_t row = first * static_cast<std::size_t>(width_);
        const std::uint8_t count = cells_[row + static_cast<std::size_t>(sum)];
        return count > most_ ? kNever : count;
    }

    // How much work building one takes, in the units of a search's limit.
    static std::int64_t effort(std::span<const Kind> kinds, std::int64_t highest);

  private:
    int most_ = 0;
    std::int64_t width_ = 0;
    std::size_t room_ = 0;
    std::unique_ptr<std::uint8_t[]> cells_;
};

// The first row of such a table alone, in little memory.
class SumRow {
  public:
    SumRow(std::span<const Kind> kinds, std::int64_t highest, int most);

    int fewest(std::int64_t sum) const {
        if (sum < 0 || sum >= static_cast<std::int64_t>(cells_.size())) return SumTable::kNever;
        const std::uint8_t count = cells_[static_cast<std::size_t>(sum)];
        return count > most_ ? SumTable::kNever : count;
    }

  private:
    int most_;
    std::vector<std::uint8_t> cells_;
};

} // namespace fettle::shim
