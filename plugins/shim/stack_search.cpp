#include "shim/stack_search.h"

#include "shim/sum_table.h"

#include <algorithm>
#include <numeric>

namespace fettle::shim {
namespace {

// The shims not yet used, thickest first, with their table of sums.
struct Tray {
    std::vector<std::size_t> shims; // indices into the tin
    std::vector<std::int64_t> grains;
    SumTable sums;
};

class Search {
  public:
    Search(std::span<const std::int64_t> targets, std::span<const std::int64_t> tin, int most,
           std::int64_t work_limit)
        : targets_(targets), tin_(tin), most_(most), work_left_(work_limit) {
        order_.resize(targets.size());
        std::iota(order_.begin(), order_.end(), std::size_t{0});
        // Greatest first: it has the fewest ways to be made. Equal targets come to lie together.
        std::stable_sort(order_.begin(), order_.end(),
                         [&](std::size_t a, std::size_t b) { return targets[a] > targets[b]; });
        // A stack that overshoots by more than half its thinnest shim is better without that shim.
        const std::int64_t thickest = tin.empty() ? 0 : *std::max_element(tin.begin(), tin.end());
        const std::int64_t all = std::accumulate(tin.begin(), tin.end(), std::int64_t{0});
        highest_ = std::min(all, targets[order_.front()] + thickest / 2);
        best_.of_target.resize(targets.size());
        chosen_.resize(targets.size());
    }

    Stacks run() {
        std::vector<std::size_t> all(tin_.size());
        std::iota(all.begin(), all.end(), std::size_t{0});
        std::stable_sort(all.begin(), all.end(),
                         [&](std::size_t a, std::size_t b) { return tin_[a] > tin_[b]; });
        take_one_by_one(all);
        place(0, std::move(all), Cost{}, Cost{});
        best_.proven = work_left_ > 0 || root_bound_ >= best_.total;
        best_.bound = best_.proven ? best_.total : root_bound_;
        return best_;
    }

  private:
    std::int64_t target(std::size_t depth) const { return targets_[order_[depth]]; }

    bool out_of_work() const { return work_left_ <= 0; }

    Tray tray_of(std::vector<std::size_t> shims) {
        std::vector<std::int64_t> grains;
        for (const std::size_t shim : shims)
            grains.push_back(tin_[shim]);
        work_left_ -= SumTable::effort(shims.size(), highest_);
        SumTable sums(grains, highest_, most_);
        return {std::move(shims), std::move(grains), std::move(sums)};
    }

    // The least a stack for this target can cost from this tray, had it the tray to itself.
    Cost alone(const Tray& tray, std::int64_t wanted) {
        for (std::int64_t error = std::max<std::int64_t>(0, wanted - highest_);; ++error) {
            const int under = tray.sums.fewest(0, wanted - error);
            const int over = tray.sums.fewest(0, wanted + error);
            if (std::min(under, over) != SumTable::kNever) return {error, std::min(under, over)};
        }
    }

    // A first answer to beat: the best stack for each target from what the ones before it left.
    void take_one_by_one(std::vector<std::size_t> shims) {
        for (std::size_t depth = 0; depth < targets_.size(); ++depth) {
            const Tray tray = tray_of(std::move(shims));
            const Cost cost = alone(tray, target(depth));
            const std::int64_t under = target(depth) - cost.error;
            const bool from_below = tray.sums.fewest(0, under) == cost.shims;
            std::int64_t sum = from_below ? under : target(depth) + cost.error;
            shims.clear();
            for (std::size_t i = 0; i < tray.shims.size(); ++i) {
                const bool needed = tray.sums.fewest(i, sum) != tray.sums.fewest(i + 1, sum);
                (needed ? best_.of_target[order_[depth]] : shims).push_back(tray.shims[i]);
                if (needed) sum -= tray.grains[i];
            }
            best_.total = best_.total + cost;
        }
    }

    // Fills targets depth, depth + 1, ... from these shims. `spent`: cost of the stacks above;
    // `floor`: cost of the stack just above, for an equal target.
    void place(std::size_t depth, std::vector<std::size_t> shims, Cost spent, Cost floor) {
        const Tray tray = tray_of(std::move(shims));
        std::vector<Cost> least;
        Cost lower = spent;
        for (std::size_t d = depth; d < targets_.size(); ++d) {
            least.push_back(alone(tray, target(d)));
            lower = lower + least.back();
        }
        lower = std::max(lower, spent + shortage(depth, tray));
        if (depth == 0) root_bound_ = lower;
        if (lower >= best_.total) return;
        const bool equals_above = depth > 0 && target(depth - 1) == target(depth);
        const Cost from = equals_above ? std::max(floor, least[0]) : least[0];
        for (std::int64_t error = from.error; !out_of_work(); ++error) {
            const Cost cheapest{error, error == from.error ? from.shims : 0};
            if (spent + cheapest + rest(depth, least, cheapest) >= best_.total) return;
            if (error > target(depth)) return;
            place_with_error(depth, tray, spent, least, cheapest);
        }
    }

    // What all targets from this one on miss because the tray holds no more.
    Cost shortage(std::size_t depth, const Tray& tray) const {
        std::int64_t wanted = 0;
        for (std::size_t d = depth; d < targets_.size(); ++d)
            wanted += target(d);
        const auto held = std::accumulate(tray.grains.begin(), tray.grains.end(), std::int64_t{0});
        return {std::max<std::int64_t>(0, wanted - held), 0};
    }

    // What the targets after this one cost at least. Equal targets may be taken in order of cost,
    // so none of them costs less than this one's `cost`.
    Cost rest(std::size_t depth, const std::vector<Cost>& least, Cost cost) const {
        Cost sum;
        for (std::size_t d = depth + 1; d < targets_.size(); ++d) {
            const Cost each = least[d - depth];
            sum = sum + (target(d) == target(depth) ? std::max(each, cost) : each);
        }
        return sum;
    }

    // Every stack for this target that misses by exactly from.error, fewest shims first.
    void place_with_error(std::size_t depth, const Tray& tray, Cost spent,
                          const std::vector<Cost>& least, Cost from) {
        const std::int64_t under = target(depth) - from.error;
        const std::int64_t over = target(depth) + from.error;
        for (int count = from.shims; count <= most_; ++count) {
            --work_left_;
            const Cost cost{from.error, count};
            const Cost lower = spent + cost + rest(depth, least, cost);
            if (depth == 0 && !out_of_work()) root_bound_ = std::max(root_bound_, lower);
            if (lower >= best_.total || out_of_work()) return;
            Level level{depth, tray, spent, cost, lower, {}};
            pick(level, 0, under, count);
            if (over != under) pick(level, 0, over, count);
        }
    }

    struct Level {
        std::size_t depth;
        const Tray& tray;
        Cost spent;
        Cost cost;                       // of each stack picked here
        Cost lower;                      // with all targets below
        std::vector<std::size_t> picked; // places in the tray
    };

    // Every choice of exactly `count` shims from place `first` on that makes `sum`; equal shims are
    // not told apart.
    void pick(Level& level, std::size_t first, std::int64_t sum, int count) {
        if (count == 0) {
            if (sum == 0) descend(level);
            return;
        }
        const Tray& tray = level.tray;
        for (std::size_t i = first; i < tray.shims.size(); ++i) {
            if (tray.sums.fewest(i, sum) > count) return;
            --work_left_;
            if (level.lower >= best_.total || out_of_work()) return;
            if (i > first && tray.grains[i] == tray.grains[i - 1]) continue;
            if (tray.sums.fewest(i + 1, sum - tray.grains[i]) > count - 1) continue;
            level.picked.push_back(i);
            pick(level, i + 1, sum - tray.grains[i], count - 1);
            level.picked.pop_back();
        }
    }

    void descend(const Level& level) {
        Stack& stack = chosen_[order_[level.depth]];
        stack.clear();
        for (const std::size_t place : level.picked)
            stack.push_back(level.tray.shims[place]);
        const Cost spent = level.spent + level.cost;
        if (level.depth + 1 == targets_.size()) {
            if (spent < best_.total) {
                best_.total = spent;
                best_.of_target = chosen_;
            }
            return;
        }
        std::vector<std::size_t> left;
        for (std::size_t i = 0, next = 0; i < level.tray.shims.size(); ++i) {
            const bool used = next < level.picked.size() && level.picked[next] == i;
            if (used) ++next;
            if (!used) left.push_back(level.tray.shims[i]);
        }
        place(level.depth + 1, std::move(left), spent, level.cost);
    }

    std::span<const std::int64_t> targets_;
    std::span<const std::int64_t> tin_;
    int most_;
    std::int64_t work_left_;
    std::vector<std::size_t> order_;
    std::int64_t highest_ = 0;
    std::vector<Stack> chosen_;
    Stacks best_;
    Cost root_bound_;
};

} // namespace

Stacks best_stacks(std::span<const std::int64_t> targets, std::span<const std::int64_t> tin,
                   int most, std::int64_t work_limit) {
    if (targets.empty()) return {{}, {}, {}, true};
    return Search(targets, tin, most, work_limit).run();
}

} // namespace fettle::shim
