#include "shim/sum_table.h"

#include <algorithm>

namespace fettle::shim {
namespace {

// One shim more that may be taken or left: here = the better of `without` and one on top of it.
// Two rows and bytes only, so that the compiler can take sixteen cells at a time.
void add_one(const std::uint8_t* without, std::uint8_t* here, std::size_t width,
             std::int64_t grains) {
    const std::size_t thick = std::min(static_cast<std::size_t>(grains), width);
    std::copy_n(without, thick, here);
    for (std::size_t s = thick; s < width; ++s) {
        const std::uint8_t rest = without[s - thick];
        const std::uint8_t one = rest != SumTable::kNever;
        here[s] = std::min(without[s], static_cast<std::uint8_t>(rest + one));
    }
}

} // namespace

void SumTable::build(std::span<const Kind> kinds, std::int64_t highest, int most) {
    most_ = most;
    width_ = highest + 1;
    const auto width = static_cast<std::size_t>(width_);
    const std::size_t needed = (kinds.size() + 1) * width;
    if (needed > room_) { // left as it comes: every row below is written in full
        cells_ = std::make_unique_for_overwrite<std::uint8_t[]>(needed);
        room_ = needed;
    }
    std::uint8_t* last = &cells_[kinds.size() * width];
    std::fill_n(last, width, kNever);
    *last = 0; // nothing makes a sum of nothing
    std::vector<std::uint8_t> between;
    for (std::size_t i = kinds.size(); i-- > 0;) {
        std::uint8_t* here = &cells_[i * width];
        const std::uint8_t* without = here + width;
        if (kinds[i].held == 0) std::copy_n(without, width, here);
        for (int taken = 0; taken < std::min(kinds[i].held, most); ++taken) {
            if (taken > 0) {
                between.assign(here, here + width);
                without = between.data();
            }
            add_one(without, here, width, kinds[i].grains);
        }
    }
}

SumRow::SumRow(std::span<const Kind> kinds, std::int64_t highest, int most)
    : most_(most), cells_(static_cast<std::size_t>(highest + 1), SumTable::kNever) {
    cells_[0] = 0;
    std::vector<std::uint8_t> without;
    for (const Kind& kind : kinds) {
        for (int taken = 0; taken < std::min(kind.held, most); ++taken) {
            without.swap(cells_);
            cells_.resize(without.size());
            add_one(without.data(), cells_.data(), cells_.size(), kind.grains);
        }
    }
}

std::int64_t SumTable::effort(std::span<const Kind> kinds, std::int64_t highest) {
    std::int64_t rows = 1;
    for (const Kind& kind : kinds)
        rows += std::max(1, kind.held);
    return rows * (highest / 16 + 8);
}

} // namespace fettle::shim
