// A banded system of equations, solved by Gauss's elimination without exchange of rows: safe for
// matrices whose symmetric part is positive definite, as flexibilities are.
#pragma once

#include <cstddef>
#include <vector>

namespace fettle::spring {

class Banded {
  public:
    // `reach`: entries stand at most that far from the diagonal. Clears what was there before.
    void begin(std::size_t size, std::size_t reach);

    double& at(std::size_t row, std::size_t column) {
        return cells_[row * (2 * reach_ + 1) + column + reach_ - row];
    }

    // False when a pivot is nothing or no number.
    bool factor();

    // After factor(): the right side becomes the solution.
    void solve(std::vector<double>& side) const;

  private:
    double cell(std::size_t row, std::size_t column) const {
        return cells_[row * (2 * reach_ + 1) + column + reach_ - row];
    }

    std::size_t size_ = 0;
    std::size_t reach_ = 0;
    std::vector<double> cells_;
};

} // namespace fettle::spring
