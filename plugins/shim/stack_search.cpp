#include "shim/stack_search.h"

#include "shim/sum_table.h"

#include <algorithm>
#include <numeric>

namespace fettle::shim {
namespace {

// What is left of each kind, with a table of the sums of these shims or of more.
struct Tray {
    std::vector<int> left;
    const SumTable* sums;
};

class Search {
  public:
    Search(std::span<const std::int64_t> targets, std::span<const std::int64_t> tin, int most,
           std::int64_t work_limit)
        : targets_(targets), most_(most), work_limit_(work_limit), work_left_(work_limit) {
        order_.resize(targets.size());
        std::iota(order_.begin(), order_.end(), std::size_t{0});
        // Greatest first: it has the fewest ways to be made. Equal targets come to lie together.
        std::stable_sort(order_.begin(), order_.end(),
                         [&](std::size_t a, std::size_t b) { return targets[a] > targets[b]; });
        sort_into_kinds(tin);
        // A stack that overshoots by more than half its thinnest shim is better without that shim.
        const std::int64_t thickest = kinds_.empty() ? 0 : kinds_.front().grains;
        const std::int64_t all = std::accumulate(tin.begin(), tin.end(), std::int64_t{0});
        highest_ = std::min(all, targets[order_.front()] + thickest / 2);
        tables_.resize(targets.size());
        best_.of_target.resize(targets.size());
        chosen_.resize(targets.size());
    }

    Stacks run() {
        Tray whole{{}, nullptr};
        for (const Kind& kind : kinds_)
            whole.left.push_back(kind.held);
        for (const std::int64_t each : targets_)
            best_.total.error += each; // no shim at all, to begin with
        build_table(0, whole);
        place(0, whole, Cost{}, Cost{});
        best_.proven = work_left_ > 0 || root_bound_ >= best_.total;
        if (!best_.proven) take_one_by_one(whole);
        best_.bound = best_.proven ? best_.total : std::min(root_bound_, best_.total);
        best_.work = work_limit_ - work_left_;
        name_the_shims();
        return best_;
    }

  private:
    // Equal shims are one kind, thickest first; places_ keeps which ones they are.
    void sort_into_kinds(std::span<const std::int64_t> tin) {
        std::vector<std::size_t> all(tin.size());
        std::iota(all.begin(), all.end(), std::size_t{0});
        std::stable_sort(all.begin(), all.end(),
                         [&](std::size_t a, std::size_t b) { return tin[a] > tin[b]; });
        for (const std::size_t shim : all) {
            if (kinds_.empty() || kinds_.back().grains != tin[shim]) {
                kinds_.push_back({tin[shim], 0});
                places_.emplace_back();
            }
            ++kinds_.back().held;
            places_.back().push_back(shim);
        }
    }

    std::int64_t target(std::size_t depth) const { return targets_[order_[depth]]; }

    bool out_of_work() const { return work_left_ <= 0; }

    // Costly, but its bounds are sharp: a table of what is left, in place of one of more shims.
    void build_table(std::size_t depth, Tray& tray) {
        const std::vector<Kind> kinds = kinds_left(tray);
        work_left_ -= SumTable::effort(kinds, highest_);
        tables_[depth].build(kinds, highest_, most_);
        tray.sums = &tables_[depth];
    }

    std::vector<Kind> kinds_left(const Tray& tray) const {
        std::vector<Kind> kinds = kinds_;
        for (std::size_t i = 0; i < kinds.size(); ++i)
            kinds[i].held = tray.left[i];
        return kinds;
    }

    // The least a stack for this target can cost from this tray, had it the tray to itself.
    Cost alone(const Tray& tray, std::int64_t wanted) {
        for (std::int64_t error = std::max<std::int64_t>(0, wanted - highest_);; ++error) {
            const int under = tray.sums->fewest(0, wanted - error);
            const int over = tray.sums->fewest(0, wanted + error);
            if (std::min(under, over) == SumTable::kNever) continue;
            work_left_ -= error / 8;
            return {error, std::min(under, over)};
        }
    }

    // The best stack for each target from what the ones before it left, kept if it is better.
    void take_one_by_one(Tray tray) {
        Stacks found;
        found.of_target.resize(targets_.size());
        for (std::size_t depth = 0; depth < targets_.size(); ++depth) {
            build_table(depth, tray);
            const Cost cost = alone(tray, target(depth));
            const std::int64_t under = target(depth) - cost.error;
            const bool from_below = tray.sums->fewest(0, under) == cost.shims;
            std::int64_t sum = from_below ? under : target(depth) + cost.error;
            for (std::size_t i = 0; i < kinds_.size(); ++i) {
                const int copies = needed(tray, i, sum);
                tray.left[i] -= copies;
                sum -= copies * kinds_[i].grains;
                found.of_target[order_[depth]].insert(found.of_target[order_[depth]].end(),
                                                      static_cast<std::size_t>(copies), i);
            }
            found.total = found.total + cost;
        }
        if (found.total >= best_.total) return;
        best_.total = found.total;
        best_.of_target = found.of_target;
    }

    // How many of kind i a shortest stack of this sum from kind i on takes.
    int needed(const Tray& tray, std::size_t i, std::int64_t sum) const {
        const int shims = tray.sums->fewest(i, sum);
        int copies = 0;
        while (tray.sums->fewest(i + 1, sum - copies * kinds_[i].grains) != shims - copies)
            ++copies;
        return copies;
    }

    // The least each target from `depth` on costs, had it the tray to itself.
    std::vector<Cost> least_costs(std::size_t depth, const Tray& tray) {
        std::vector<Cost> least;
        for (std::size_t d = depth; d < targets_.size(); ++d)
            least.push_back(alone(tray, target(d)));
        return least;
    }

    // What the search knows of the targets from one on, before it looks closer.
    struct Outlook {
        std::vector<Cost> least; // of each target, had it the tray to itself
        Cost together;           // of all, had they not to part the sum among them
        Cost others;             // of all but the first
        bool sharp = false;
    };

    Cost rest(std::size_t depth, const Outlook& outlook, Cost cost) const {
        return std::max(outlook.others, rest_alone(depth, outlook.least, cost));
    }

    // Costly bounds, worth having once the search below has cost as much as they would.
    void sharpen(std::size_t depth, Tray& tray, Outlook& outlook) {
        outlook.sharp = true;
        if (SumTable::effort(kinds_left(tray), highest_) > work_left_ / 2) return;
        if (tray.sums != &tables_[depth]) {
            build_table(depth, tray);
            outlook.least = least_costs(depth, tray);
        }
        outlook.together = together(depth, tray);
        outlook.others = together(depth + 1, tray);
        if (depth == 0) root_bound_ = std::max(root_bound_, outlook.together);
    }

    // The least the targets from `depth` on can cost together: one stack as thick as all of them,
    // parted at will.
    Cost together(std::size_t depth, const Tray& tray) {
        if (depth + 1 >= targets_.size() || kinds_.empty()) return {};
        const auto count = static_cast<int>(targets_.size() - depth);
        std::int64_t wanted = 0;
        for (std::size_t d = depth; d < targets_.size(); ++d)
            wanted += target(d);
        const std::vector<Kind> kinds = kinds_left(tray);
        std::int64_t held = 0;
        for (const Kind& kind : kinds)
            held += kind.held * kind.grains;
        const std::int64_t highest = std::min(held, wanted + kinds_.front().grains / 2);
        const std::int64_t effort = SumTable::effort(kinds, highest);
        if (effort > work_left_ / 4) return {}; // more than it is worth
        work_left_ -= effort;
        const SumRow row(kinds, highest, most_ * count);
        for (std::int64_t error = 0;; ++error) {
            const int shims = std::min(row.fewest(wanted - error), row.fewest(wanted + error));
            if (shims != SumTable::kNever) return {error, shims};
        }
    }

    // Fills targets depth, depth + 1, ... from this tray. `spent`: cost of the stacks above;
    // `floor`: cost of the stack just above, for an equal target.
    void place(std::size_t depth, Tray tray, Cost spent, Cost floor) {
        Outlook outlook{least_costs(depth, tray), {}, {}};
        const Cost lower =
            std::max(std::accumulate(outlook.least.begin(), outlook.least.end(), spent),
                     spent + shortage(depth, tray));
        if (depth == 0) root_bound_ = lower;
        if (lower >= best_.total) return;
        const bool equals_above = depth > 0 && target(depth - 1) == target(depth);
        if (!equals_above) floor = Cost{};
        const std::int64_t patience = work_left_ - SumTable::effort(kinds_left(tray), highest_);
        Cost from = std::max(floor, outlook.least[0]);
        while (!out_of_work() && from.error <= target(depth)) {
            if (spent + from + rest(depth, outlook, from) >= best_.total) return;
            if (spent + outlook.together >= best_.total) return;
            place_with_error(depth, tray, spent, outlook, from);
            if (work_left_ < patience && !outlook.sharp) sharpen(depth, tray, outlook);
            from = std::max(outlook.least[0], Cost{from.error + 1, 0});
        }
    }

    // What all targets from this one on miss because the tray holds no more.
    Cost shortage(std::size_t depth, const Tray& tray) const {
        std::int64_t missing = 0;
        for (std::size_t d = depth; d < targets_.size(); ++d)
            missing += target(d);
        for (std::size_t i = 0; i < kinds_.size(); ++i)
            missing -= tray.left[i] * kinds_[i].grains;
        return {std::max<std::int64_t>(0, missing), 0};
    }

    // What the targets after this one cost at least. Equal targets may be taken in order of cost,
    // so none of them costs less than this one's `cost`.
    Cost rest_alone(std::size_t depth, const std::vector<Cost>& least, Cost cost) const {
        Cost sum;
        for (std::size_t d = depth + 1; d < targets_.size(); ++d) {
            const Cost each = least[d - depth];
            sum = sum + (target(d) == target(depth) ? std::max(each, cost) : each);
        }
        return sum;
    }

    // Every stack for this target that misses by exactly from.error, fewest shims first.
    void place_with_error(std::size_t depth, const Tray& tray, Cost spent, const Outlook& outlook,
                          Cost from) {
        const std::int64_t under = target(depth) - from.error;
        const std::int64_t over = target(depth) + from.error;
        const int fewest = std::min(tray.sums->fewest(0, under), tray.sums->fewest(0, over));
        --work_left_;
        for (int count = std::max(from.shims, fewest); count <= most_; ++count) {
            --work_left_;
            const Cost cost{from.error, count};
            const Cost lower =
                spent + std::max(outlook.together, cost + rest(depth, outlook, cost));
            if (depth == 0 && !out_of_work()) root_bound_ = std::max(root_bound_, lower);
            if (lower >= best_.total || out_of_work()) return;
            Level level{depth, tray.sums, tray.left, spent, cost, lower, {}};
            pick(level, 0, under, count);
            if (over != under) pick(level, 0, over, count);
        }
    }

    struct Level {
        std::size_t depth;
        const SumTable* sums;
        std::vector<int> left;
        Cost spent;
        Cost cost;                       // of each stack picked here
        Cost lower;                      // with all targets below
        std::vector<std::size_t> picked; // kinds, one a shim
    };

    // Every choice of exactly `count` shims of the kinds from `first` on that makes `sum`.
    void pick(Level& level, std::size_t first, std::int64_t sum, int count) {
        if (count == 0) {
            if (sum == 0) descend(level);
            return;
        }
        for (std::size_t i = first; i < kinds_.size(); ++i) {
            if (level.sums->fewest(i, sum) > count) return;
            --work_left_;
            if (level.lower >= best_.total || out_of_work()) return;
            if (level.left[i] == 0) continue;
            --level.left[i];
            level.picked.push_back(i);
            pick(level, i, sum - kinds_[i].grains, count - 1);
            level.picked.pop_back();
            ++level.left[i];
        }
    }

    void descend(const Level& level) {
        chosen_[order_[level.depth]] = level.picked;
        const Cost spent = level.spent + level.cost;
        if (level.depth + 1 == targets_.size()) {
            if (spent < best_.total) {
                best_.total = spent;
                best_.of_target = chosen_;
            }
            return;
        }
        place(level.depth + 1, {level.left, level.sums}, spent, level.cost);
    }

    // Kinds become places in the tin, each once.
    void name_the_shims() {
        std::vector<std::size_t> next(kinds_.size(), 0);
        for (Stack& stack : best_.of_target) {
            for (std::size_t& shim : stack) {
                const std::size_t kind = shim;
                shim = places_[kind][next[kind]++];
            }
        }
    }

    std::span<const std::int64_t> targets_;
    int most_;
    std::int64_t work_limit_;
    std::int64_t work_left_;
    std::vector<std::size_t> order_;
    std::vector<Kind> kinds_;
    std::vector<std::vector<std::size_t>> places_; // of each kind in the tin
    std::int64_t highest_ = 0;
    std::vector<SumTable> tables_; // of each depth
    std::vector<Stack> chosen_;    // kinds, until name_the_shims
    Stacks best_;
    Cost root_bound_;
};

} // namespace

Stacks best_stacks(std::span<const std::int64_t> targets, std::span<const std::int64_t> tin,
                   int most, std::int64_t work_limit) {
    if (targets.empty()) return {};
    return Search(targets, tin, most, work_limit).run();
}

} // namespace fettle::shim
