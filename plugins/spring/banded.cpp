#include "spring/banded.h"

#include <algorithm>
#include <cmath>

namespace fettle::spring {

void Banded::begin(std::size_t size, std::size_t reach) {
    size_ = size;
    reach_ = reach;
    cells_.assign(size * (2 * reach + 1), 0.0);
}

bool Banded::factor() {
    for (std::size_t pivot = 0; pivot < size_; ++pivot) {
        const double divisor = at(pivot, pivot);
        if (!(std::fabs(divisor) > 0) || !std::isfinite(divisor)) return false;
        const std::size_t end = std::min(size_, pivot + reach_ + 1);
        for (std::size_t row = pivot + 1; row < end; ++row) {
            const double factor = at(row, pivot) / divisor;
            at(row, pivot) = factor;
            if (factor == 0) continue;
            for (std::size_t column = pivot + 1; column < end; ++column)
                at(row, column) -= factor * at(pivot, column);
        }
    }
    return true;
}

void Banded::solve(std::vector<double>& side) const {
    for (std::size_t row = 0; row < size_; ++row) {
        const std::size_t from = row > reach_ ? row - reach_ : 0;
        for (std::size_t column = from; column < row; ++column)
            side[row] -= cell(row, column) * side[column];
    }
    for (std::size_t row = size_; row-- > 0;) {
        const std::size_t end = std::min(size_, row + reach_ + 1);
        for (std::size_t column = row + 1; column < end; ++column)
            side[row] -= cell(row, column) * side[column];
        side[row] /= cell(row, row);
    }
}

} // namespace fettle::spring
