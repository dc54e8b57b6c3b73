#include "plugins/spring_fem.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace fettle::test {
namespace {

// Symmetric banded matrix, Cholesky.
class Band {
  public:
    Band(std::size_t size, std::size_t width)
        : size_(size), width_(width), cells_(size * (width + 1)) {}
    double& at(std::size_t row, std::size_t column) { // row >= column
        return cells_[row * (width_ + 1) + (row - column)];
    }
    void add(std::size_t row, std::size_t column, double value) {
        at(std::max(row, column), std::min(row, column)) += value;
    }
    std::vector<double> solved(std::vector<double> side) {
        for (std::size_t row = 0; row < size_; ++row) {
            const std::size_t first = row > width_ ? row - width_ : 0;
            for (std::size_t column = first; column <= row; ++column) {
                double sum = at(row, column);
                const std::size_t from =
                    std::max(first, column > width_ ? column - width_ : std::size_t{0});
                for (std::size_t k = from; k < column; ++k)
                    sum -= at(row, k) * at(column, k);
                at(row, column) = row == column ? std::sqrt(sum) : sum / at(column, column);
            }
        }
        for (std::size_t row = 0; row < size_; ++row) {
            for (std::size_t k = row > width_ ? row - width_ : 0; k < row; ++k)
                side[row] -= at(row, k) * side[k];
            side[row] /= at(row, row);
        }
        for (std::size_t row = size_; row-- > 0;) {
            side[row] /= at(row, row);
            for (std::size_t k = row > width_ ? row - width_ : 0; k < row; ++k)
                side[k] -= at(row, k) * side[row];
        }
        return side;
    }

  private:
    std::size_t size_, width_;
    std::vector<double> cells_;
};

class Model {
  public:
    explicit Model(const FemPack& pack) : pack_(pack), leaves_(pack.leaves.size()) {
        for (const FemLeaf& leaf : pack.leaves)
            nodes_ = std::max(nodes_, static_cast<std::size_t>(leaf.elements));
        const double h = pack.element;
        penalty_ = 1e5 * pack.leaves[0].stiffness / (h * h * h);
        pressed_.assign(leaves_ * nodes_, false);
        force_.assign(leaves_ * nodes_, 0.0);
        rubbing_ = force_;
    }

    // Contacts at this load, the couples of friction held as they are.
    bool settle(double half_load, double friction) {
        for (int sweep = 0; sweep < 200; ++sweep) {
            solve(half_load, friction);
            if (!switch_contacts()) return true;
        }
        return false;
    }

    // The couples brought up to the forces that make them, half the way at a time.
    bool settle_friction(double half_load, double friction) {
        for (int round = 0; round < 60; ++round) {
            double moved = 0, most = 0;
            for (std::size_t i = 0; i < force_.size(); ++i) {
                moved = std::max(moved, std::fabs(force_[i] - rubbing_[i]));
                most = std::max(most, force_[i]);
                rubbing_[i] += (force_[i] - rubbing_[i]) / 2;
            }
            if (moved <= 1e-7 * most) return true;
            if (!settle(half_load, friction)) return false;
        }
        return false;
    }

    FemAnswer answer(bool settled) const {
        FemAnswer answer{settled, 0, {}, {}};
        answer.eye = lift(0, static_cast<std::size_t>(pack_.leaves[0].elements));
        for (std::size_t leaf = 0; leaf < leaves_; ++leaf)
            answer.moment.push_back(greatest_moment(leaf));
        for (std::size_t leaf = 0; leaf + 1 < leaves_; ++leaf) {
            double sum = 0;
            for (std::size_t node = 1; node <= nodes_; ++node)
                sum += std::max(0.0, force_[place(leaf, node)]);
            answer.press.push_back(sum);
        }
        return answer;
    }

  private:
    // Nodes count from 1; node 0 is the clamp and has no unknowns.
    std::size_t unknown(std::size_t leaf, std::size_t node) const {
        return ((node - 1) * leaves_ + leaf) * 2;
    }
    std::size_t place(std::size_t leaf, std::size_t node) const { return leaf * nodes_ + node - 1; }
    double lift(std::size_t leaf, std::size_t node) const {
        return node == 0 ? 0 : found_[unknown(leaf, node)];
    }
    double slope(std::size_t leaf, std::size_t node) const {
        return node == 0 ? 0 : found_[unknown(leaf, node) + 1];
    }
    bool there(std::size_t leaf, std::size_t node) const {
        return node <= static_cast<std::size_t>(pack_.leaves[leaf].elements);
    }

    void add_element(Band& band, std::vector<double>& side, std::size_t leaf, std::size_t node) {
        const FemLeaf& own = pack_.leaves[leaf];
        const double h = pack_.element;
        const double k = own.stiffness / (h * h * h);
        const double cells[4][4] = {{12, 6 * h, -12, 6 * h},
                                    {6 * h, 4 * h * h, -6 * h, 2 * h * h},
                                    {-12, -6 * h, 12, -6 * h},
                                    {6 * h, 2 * h * h, -6 * h, 4 * h * h}};
        const std::size_t right = unknown(leaf, node);
        const std::size_t left = node > 1 ? unknown(leaf, node - 1) : 0;
        const std::size_t at[4] = {left, left + 1, right, right + 1};
        for (int i = node > 1 ? 0 : 2; i < 4; ++i) {
            for (int j = node > 1 ? 0 : 2; j <= i; ++j)
                band.add(at[i], at[j], k * cells[i][j]);
        }
        side[right + 1] += own.stiffness * own.curvature;
        if (node > 1) side[left + 1] -= own.stiffness * own.curvature;
    }

    void solve(double half_load, double friction) {
        Band band(2 * leaves_ * nodes_, 4 * leaves_);
        std::vector<double> side(2 * leaves_ * nodes_, 0.0);
        for (std::size_t leaf = 0; leaf < leaves_; ++leaf) {
            for (std::size_t node = 1; node <= nodes_; ++node) {
                if (there(leaf, node)) {
                    add_element(band, side, leaf, node);
                } else { // an idle unknown
                    band.add(unknown(leaf, node), unknown(leaf, node), 1);
                    band.add(unknown(leaf, node) + 1, unknown(leaf, node) + 1, 1);
                }
                if (leaf + 1 == leaves_ || !there(leaf + 1, node)) continue;
                const std::size_t upper = unknown(leaf, node), lower = unknown(leaf + 1, node);
                if (pressed_[place(leaf, node)]) {
                    band.add(upper, upper, penalty_);
                    band.add(lower, lower, penalty_);
                    band.add(lower, upper, -penalty_);
                }
                const double rub = friction * rubbing_[place(leaf, node)];
                side[upper + 1] += rub * pack_.leaves[leaf].half_depth;
                side[lower + 1] += rub * pack_.leaves[leaf + 1].half_depth;
            }
        }
        side[unknown(0, static_cast<std::size_t>(pack_.leaves[0].elements))] -= half_load;
        found_ = band.solved(std::move(side));
    }

    bool switch_contacts() {
        bool changed = false;
        for (std::size_t leaf = 0; leaf + 1 < leaves_; ++leaf) {
            for (std::size_t node = 1; node <= nodes_; ++node) {
                if (!there(leaf, node) || !there(leaf + 1, node)) continue;
                const double overlap = lift(leaf + 1, node) - lift(leaf, node);
                const bool pressed = overlap > 0;
                changed = changed || pressed != pressed_[place(leaf, node)];
                pressed_[place(leaf, node)] = pressed;
                force_[place(leaf, node)] = pressed ? penalty_ * overlap : 0;
            }
        }
        return changed;
    }

    double greatest_moment(std::size_t leaf) const {
        const FemLeaf& own = pack_.leaves[leaf];
        const double h = pack_.element;
        double most = 0;
        for (std::size_t node = 1; there(leaf, node) && node <= nodes_; ++node) {
            const double rise = (lift(leaf, node) - lift(leaf, node - 1)) / h;
            const double a = slope(leaf, node - 1), b = slope(leaf, node);
            const double left = (6 * rise - 4 * a - 2 * b) / h;
            const double right = (-6 * rise + 2 * a + 4 * b) / h;
            for (const double bent : {left, right})
                most = std::max(most, own.stiffness * std::fabs(bent - own.curvature));
        }
        return most;
    }

    const FemPack& pack_;
    std::size_t leaves_;
    std::size_t nodes_ = 0;
    double penalty_ = 0;
    std::vector<char> pressed_;
    std::vector<double> force_;
    std::vector<double> rubbing_; // the forces that friction is reckoned from
    std::vector<double> found_;
};

} // namespace

FemAnswer solve_by_elements(const FemPack& pack, double half_load, double friction) {
    Model model(pack);
    // In steps, so that contacts change a few at a time; friction once they stand.
    bool settled = true;
    for (int step = 1; step <= 8; ++step)
        settled = model.settle(half_load * step / 8, 0);
    if (friction != 0) settled = settled && model.settle_friction(half_load, friction);
    return model.answer(settled);
}

} // namespace fettle::test
