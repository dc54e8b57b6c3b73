// The search for shim stacks against brute force, which tries every way to deal out every shim.
#include "shim/stack_search.h"

#include <doctest/doctest.h>

#include <cstdlib>
#include <numeric>
#include <random>

using fettle::shim::best_stacks;
using fettle::shim::Cost;
using fettle::shim::Stacks;

namespace {

constexpr std::int64_t kPlentyOfWork = 2'000'000;

// Each shim goes to one of the targets or stays in the tin: all (targets + 1)^shims ways.
Cost brute_force(const std::vector<std::int64_t>& targets, const std::vector<std::int64_t>& tin,
                 int most) {
    std::vector<std::int64_t> sums(targets.size(), 0);
    std::vector<int> counts(targets.size(), 0);
    Cost best{INT64_MAX, 0};
    const auto deal = [&](const auto& again, std::size_t shim) -> void {
        if (shim == tin.size()) {
            Cost cost;
            for (std::size_t t = 0; t < targets.size(); ++t)
                cost = cost + Cost{std::abs(sums[t] - targets[t]), counts[t]};
            best = std::min(best, cost);
            return;
        }
        again(again, shim + 1);
        for (std::size_t t = 0; t < targets.size(); ++t) {
            if (counts[t] == most) continue;
            sums[t] += tin[shim];
            counts[t] += 1;
            again(again, shim + 1);
            sums[t] -= tin[shim];
            counts[t] -= 1;
        }
    };
    deal(deal, 0);
    return best;
}

// The cost counted afresh from the stacks themselves; errors when a shim is used twice.
Cost counted(const Stacks& stacks, const std::vector<std::int64_t>& targets,
             const std::vector<std::int64_t>& tin, int most) {
    std::vector<int> used(tin.size(), 0);
    Cost cost;
    REQUIRE(stacks.of_target.size() == targets.size());
    for (std::size_t t = 0; t < targets.size(); ++t) {
        std::int64_t sum = 0;
        for (const std::size_t shim : stacks.of_target[t]) {
            REQUIRE(shim < tin.size());
            CHECK(++used[shim] == 1);
            sum += tin[shim];
        }
        const int count = static_cast<int>(stacks.of_target[t].size());
        CHECK(count <= most);
        cost = cost + Cost{std::abs(sum - targets[t]), count};
    }
    return cost;
}

void check_against_brute_force(const std::vector<std::int64_t>& targets,
                               const std::vector<std::int64_t>& tin, int most) {
    CAPTURE(targets.size());
    CAPTURE(tin.size());
    CAPTURE(most);
    const Stacks found = best_stacks(targets, tin, most, kPlentyOfWork);
    const Cost expected = brute_force(targets, tin, most);
    CHECK(found.proven);
    CHECK(found.total.error == expected.error);
    CHECK(found.total.shims == expected.shims);
    CHECK(counted(found, targets, tin, most) == found.total);
}

struct Draw {
    std::mt19937 engine;
    std::int64_t between(std::int64_t low, std::int64_t high) {
        return std::uniform_int_distribution<std::int64_t>(low, high)(engine);
    }
    std::vector<std::int64_t> lengths(std::int64_t count, std::int64_t low, std::int64_t high) {
        std::vector<std::int64_t> all;
        for (std::int64_t i = 0; i < count; ++i)
            all.push_back(between(low, high));
        return all;
    }
};

} // namespace

TEST_CASE("one stack from a small tin is as near and as short as trying every choice") {
    Draw draw{std::mt19937(11)};
    for (int round = 0; round < 400; ++round) {
        const auto tin = draw.lengths(draw.between(1, 12), 1, round % 2 == 0 ? 30 : 2000);
        const auto target = draw.lengths(1, 1, round % 2 == 0 ? 120 : 6000);
        check_against_brute_force(target, tin, static_cast<int>(draw.between(1, 6)));
    }
}

TEST_CASE("two and three stacks from one small tin are as good as dealing out every shim") {
    Draw draw{std::mt19937(12)};
    for (int round = 0; round < 200; ++round) {
        const auto tin = draw.lengths(draw.between(2, 8), 1, round % 2 == 0 ? 12 : 300);
        const auto targets = draw.lengths(draw.between(2, 3), 1, round % 2 == 0 ? 40 : 900);
        check_against_brute_force(targets, tin, static_cast<int>(draw.between(1, 5)));
    }
}

TEST_CASE("equal targets share a tin of equal and nearly equal shims without using one twice") {
    Draw draw{std::mt19937(13)};
    for (int round = 0; round < 100; ++round) {
        const auto tin = draw.lengths(draw.between(3, 8), 5, 8);
        const std::vector<std::int64_t> targets(2 + static_cast<std::size_t>(round % 2),
                                                draw.between(5, 20));
        check_against_brute_force(targets, tin, 4);
    }
}

TEST_CASE("of two equally near stacks the one with fewer shims is taken") {
    // 7 and 13 both miss 10 by 3; 4 + 6 and 10 both hit it.
    const std::vector<std::int64_t> target{10};
    const Stacks found = best_stacks(target, std::vector<std::int64_t>{4, 6, 10}, 3, kPlentyOfWork);
    CHECK(found.total == Cost{0, 1});
    CHECK(found.of_target[0] == fettle::shim::Stack{2});
    const Stacks near = best_stacks(target, std::vector<std::int64_t>{3, 4, 13}, 3, kPlentyOfWork);
    CHECK(near.total == Cost{3, 1});
    CHECK(near.of_target[0] == fettle::shim::Stack{2});
}

TEST_CASE("a target that needs the shim of another is served so that both together miss least") {
    // Greedy would give 10 to the first target and leave 9 for the second: 0 + 1. Both need it.
    const std::vector<std::int64_t> targets{10, 10};
    const Stacks found = best_stacks(targets, std::vector<std::int64_t>{10, 9}, 2, kPlentyOfWork);
    CHECK(found.total == Cost{1, 2});
    CHECK(found.proven);
}

TEST_CASE("no shim at all is the answer when every shim is more than twice too thick") {
    const std::vector<std::int64_t> target{4};
    const Stacks found = best_stacks(target, std::vector<std::int64_t>{9, 20}, 3, kPlentyOfWork);
    CHECK(found.total == Cost{4, 0});
    CHECK(found.of_target[0].empty());
}

TEST_CASE("a tin that cannot reach the target is used up as far as the stack may grow") {
    const std::vector<std::int64_t> target{1000};
    const Stacks found =
        best_stacks(target, std::vector<std::int64_t>{9, 20, 7, 5}, 2, kPlentyOfWork);
    CHECK(found.total == Cost{971, 2});
}

TEST_CASE("when the work runs out the stacks are sound and the bound is no higher than the best") {
    Draw draw{std::mt19937(14)};
    int unproven = 0;
    for (int round = 0; round < 60; ++round) {
        const auto tin = draw.lengths(8, 1, 300);
        const auto targets = draw.lengths(3, 100, 900);
        const Stacks found = best_stacks(targets, tin, 5, 600);
        const Cost best = brute_force(targets, tin, 5);
        CHECK(counted(found, targets, tin, 5) == found.total);
        CHECK(found.total >= best);
        CHECK(found.bound <= best);
        if (found.proven) CHECK(found.total == best);
        unproven += found.proven ? 0 : 1;
    }
    CHECK(unproven > 0);
}

TEST_CASE("three stacks from sixty ordinary shims are proven best") {
    Draw draw{std::mt19937(15)};
    for (int round = 0; round < 20; ++round) {
        std::vector<std::int64_t> tin; // hundredths of a millimetre, 0.10 to 1.00 with wear
        for (int i = 0; i < 60; ++i)
            tin.push_back(10 * draw.between(1, 10) + draw.between(-1, 1));
        const auto targets = draw.lengths(3, 80, 260);
        const Stacks found = best_stacks(targets, tin, 5, 20'000'000);
        CHECK(found.proven);
        CHECK(counted(found, targets, tin, 5) == found.total);
    }
}

TEST_CASE("three stacks from sixty inch and metric shims measured finely are proven best") {
    // Inch shims to 0.0001 in and metric ones to 0.01 mm: whole multiples of 20 nm and no more.
    Draw draw{std::mt19937(16)};
    for (int round = 0; round < 20; ++round) {
        std::vector<std::int64_t> tin;
        for (int i = 0; i < 30; ++i) {
            tin.push_back(127 * draw.between(20, 300));
            tin.push_back(500 * draw.between(5, 80));
        }
        const std::vector<std::int64_t> targets{127 * draw.between(300, 700),
                                                500 * draw.between(80, 180),
                                                127 * draw.between(300, 700)};
        const Stacks found = best_stacks(targets, tin, 5, 2'000'000);
        CHECK(found.proven);
        CHECK(found.bound == found.total);
        CHECK(counted(found, targets, tin, 5) == found.total);
        CHECK(found.work < 2'000'000);
    }
}

TEST_CASE("a tin with hardly enough for three stacks is parted as well as trying every choice") {
    Draw draw{std::mt19937(17)};
    for (int round = 0; round < 60; ++round) {
        const auto tin = draw.lengths(9, 80, round % 3 == 0 ? 90 : 300);
        const std::int64_t all = std::accumulate(tin.begin(), tin.end(), std::int64_t{0});
        const std::vector<std::int64_t> targets{all / 3 - draw.between(0, 20), all / 3,
                                                all / 3 + draw.between(0, 20)};
        check_against_brute_force(targets, tin, static_cast<int>(draw.between(2, 4)));
    }
}
