#include "shim/sum_table.h"

#include <algorithm>

namespace fettle::shim {

SumTable::SumTable(std::span<const std::int64_t> grains, std::int64_t highest, int most)
    : most_(most),
      width_(highest + 1),
      cells_((grains.size() + 1) * static_cast<std::size_t>(highest + 1), kNever) {
    const auto width = static_cast<std::size_t>(width_);
    cells_[grains.size() * width] = 0; // nothing makes a sum of nothing
    for (std::size_t i = grains.size(); i-- > 0;) {
        const std::uint8_t* without = &cells_[(i + 1) * width];
        std::uint8_t* here = &cells_[i * width];
        const std::size_t thick = std::min(static_cast<std::size_t>(grains[i]), width);
        std::copy_n(without, thick, here);
        // Two rows and bytes only, so that the compiler can take sixteen cells at a time.
        for (std::size_t s = thick; s < width; ++s) {
            const std::uint8_t rest = without[s - thick];
            const std::uint8_t one = rest != kNever;
            here[s] = std::min(without[s], static_cast<std::uint8_t>(rest + one));
        }
    }
}

} // namespace fettle::shim
