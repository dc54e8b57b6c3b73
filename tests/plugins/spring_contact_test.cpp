// The pack solved with contact, against closed solutions, the textbooks where their picture is the
// true one, and an independent finite element account.
#include "plugins/published.h"
#include "plugins/spring_fem.h"
#include "spring/leaf_formulae.h"
#include "spring/pack_contact.h"
#include "spring/pack_work.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <random>

using namespace fettle::spring;
using namespace fettle::test;

namespace {

constexpr double kE = 207e9;
constexpr double kWidth = 0.05;

Pack empty_pack() {
    Pack pack{};
    pack.width = kWidth;
    pack.modulus = kE;
    return pack;
}

Pack even_pack(int leaves, double length, double thickness) {
    Pack pack = empty_pack();
    for (int i = 0; i < leaves; ++i)
        pack.leaves.push_back({length, thickness, std::nullopt});
    return pack;
}

// Leaves of L, L (n-1)/n ... L/n, each run to a point over its outer step: a triangle cut up.
Pack triangle(int leaves, double length, double thickness) {
    Pack pack = empty_pack();
    pack.tip_share = 0;
    for (int i = 0; i < leaves; ++i) {
        pack.leaves.push_back(
            {length * (leaves - i) / leaves, thickness, std::nullopt, length / 2 / leaves});
    }
    return pack;
}

PackState solved(const Pack& pack, double load, Branch branch = Branch::frictionless) {
    const auto state = solve_pack(pack, load, branch);
    REQUIRE(state.has_value());
    return *state;
}

double press_of(const PackState& state, std::size_t upper) {
    return state.leaves[upper + 1].press;
}

// Nothing pulls, nothing overlaps, and the moments at the clamp carry the whole load.
void check_contact(const Pack& pack, const PackState& state, double load) {
    double moments = 0;
    double deepest = 0;
    for (const LeafState& leaf : state.leaves) {
        moments += leaf.clamp_moment;
        for (const Place& gap : leaf.gap)
            deepest = std::max(deepest, -gap.value);
    }
    for (const Touch& touch : state.touches)
        CHECK(touch.force > 0);
    const double lever = working_length(pack, pack.leaves.front());
    CHECK(within(moments, load / 2 * lever, 1e-6));
    // Between stations leaves may overlap by next to nothing.
    CHECK(deepest <= 2e-3 * (1e-4 + std::fabs(state.eye.drop)));
}

struct Case { // the same pack for both accounts
    Pack pack;
    FemPack elements;
};

class RandomPacks {
  public:
    explicit RandomPacks(int elements) : elements_(elements) {}

    // Mixed thicknesses, free curvatures from too flat to strongly nipped, uneven steps; every tip
    // on a node.
    Case next() {
        const int leaves = 2 + static_cast<int>(between(0, 6));
        const double working = between(0.35, 0.7);
        Case each{empty_pack(), {working / elements_, {}}};
        each.pack.clamp = 0.08;
        int length = elements_;
        double radius = between(1, 4);
        double curvature = 0; // against the master's, faces lying on faces
        for (int i = 0; i < leaves; ++i) {
            const double t = between(0.006, 0.010);
            if (i > 0) {
                const double above = radius + each.pack.leaves.back().thickness;
                radius = 1 / (1 / radius + between(-0.05, 0.12));
                curvature += 1 / radius - 1 / above;
            }
            each.pack.leaves.push_back(
                {2 * length * each.elements.element + each.pack.clamp, t, 1 / radius});
            each.elements.leaves.push_back(
                {length, kE * kWidth * t * t * t / 12, curvature, t / 2});
            if (between(0, 1) > 0.25) length -= static_cast<int>(elements_ / (leaves + 1.0));
        }
        return each;
    }
    double between(double least, double most) {
        return std::uniform_real_distribution<double>(least, most)(engine_);
    }

  private:
    int elements_;
    std::mt19937 engine_{1936};
};

double stress_of(const Case& each, const FemAnswer& answer, std::size_t leaf) {
    const double t = each.pack.leaves[leaf].thickness;
    return answer.moment[leaf] * 6 / (kWidth * t * t);
}

} // namespace

TEST_CASE("one leaf is a beam on two supports with the load in the middle") {
    // 48 E I / l³ and W l / (4 Z): any table of beams.
    const PackState state = solved(even_pack(1, 1.0, 0.01), 2000);
    CHECK(within(state.eye.rate, 48 * kE * kWidth * 1e-6 / 12, 1e-9));
    CHECK(within(state.eye.drop, 2000 / state.eye.rate, 1e-9));
    CHECK(within(state.leaves[0].stress, 2000 * 1.0 / 4 / (kWidth * 1e-4 / 6), 1e-9));
    CHECK(state.leaves[0].stress_at == 0);
}

TEST_CASE("equal leaves without friction are as stiff as their number and stressed alike") {
    const double one = solved(even_pack(1, 0.9, 0.008), 1000).eye.rate;
    for (const int leaves : {2, 3, 7, 20}) {
        CAPTURE(leaves);
        const PackState state = solved(even_pack(leaves, 0.9, 0.008), 1000);
        CHECK(within(state.eye.rate, leaves * one, 1e-8));
        const double alone = 1000 * 0.9 / 4 / (kWidth * 6.4e-5 / 6);
        for (const LeafState& leaf : state.leaves)
            CHECK(within(leaf.stress, alone / leaves, 1e-7));
        // Each tip hands on what the leaves below it carry.
        CHECK(within(press_of(state, 0), 500.0 * (leaves - 1) / leaves, 1e-7));
    }
}

TEST_CASE("a triangle cut into leaves is stressed alike everywhere, as the textbook has it") {
    for (const int leaves : {2, 5, 12}) {
        CAPTURE(leaves);
        const double load = 4000, length = 1.1, t = 0.009;
        const PackState state = solved(triangle(leaves, length, t), load);
        const BookPack book{load / 2, length / 2, kWidth, t, 0, leaves};
        CHECK(within(state.eye.rate, rate(book, kE), 1e-4)); // 12FL³/(E b t³ 2n)
        CHECK(within(state.eye.drop, deflection(book, kE), 1e-4));
        for (const LeafState& leaf : state.leaves) {
            for (const Place& place : leaf.stress_along) {
                if (place.value == 0) continue;                           // the very point
                CHECK(within(place.value, equalised_stress(book), 1e-3)); // 6FL/(n b t²)
            }
        }
        // L9a (seen), its own figures: 3Wl/(2nbt²) = 651.042 MPa.
        Pack seen = triangle(6, 1.0, 0.008);
        seen.width = 0.06;
        CHECK(within(solved(seen, 10000).leaves[0].stress, 651.042e6, 1e-4));
    }
}

TEST_CASE("full leaves over a pointed triangle close with the textbook's load and gap") {
    // L2b, L2c Khurmi & Gupta, ch. 23 (memory): 3 full, 15 graduated, nip 9.04 mm, closed by 4487
    // N. L5c Bhandari, ch. 10 (question seen), the like with 37.5 kN: 4807.69 N.
    struct Row {
        double half_load, half_length, width, thickness, modulus, closing;
    };
    for (const Row& row : {Row{35000, 0.45, 0.108, 0.012, 210e9, 4487},
                           Row{37500, 0.5, 0.108, 0.012, 207e9, 4807.69}}) {
        const BookPack book{row.half_load, row.half_length, row.width, row.thickness, 3, 15};
        Pack pack = triangle(15, 2 * row.half_length, row.thickness);
        pack.width = row.width;
        pack.modulus = row.modulus;
        pack.leaves.insert(pack.leaves.begin(), 3,
                           Leaf{2 * row.half_length, row.thickness, std::nullopt});
        for (Leaf& leaf : pack.leaves)
            leaf.curvature = 0;
        // Graduated leaves curved so that the gap at the middle is the nip.
        const double curvature = 2 * nip(book, row.modulus) / (row.half_length * row.half_length);
        for (std::size_t i = 3; i < pack.leaves.size(); ++i)
            pack.leaves[i].curvature = curvature;
        // Their own thickness adds a little nip between them: take it out again.
        for (std::size_t i = 4; i < pack.leaves.size(); ++i) {
            const double above = *pack.leaves[i - 1].curvature;
            pack.leaves[i].curvature = above / (1 + above * row.thickness);
        }
        const auto work = work_out(pack, 2 * row.half_load, 0);
        REQUIRE(work.has_value());
        CHECK(within(work->closing, row.closing, 0.001));
    }
}

TEST_CASE("real packs of the textbook examples are about as stiff as the textbook says") {
    // Its graduated leaves, pointed, under its full ones. The books let both touch at the eye
    // alone; a full leaf bends less near the clamp than a triangle would and presses on it there
    // too, which stiffens the pack by some hundredths: found by finite elements as well.
    struct Row {
        const char* name;
        int full, graduated;
        double half_load, half_length, width, thickness, modulus, deflection;
    };
    const Row rows[] = {{"L1b (memory)", 2, 10, 2700, 0.4825, 0.040, 0.010, 210e9, 0.0167},
                        {"L6b (question seen)", 2, 10, 15000, 0.6, 0.060, 0.012, 207e9, 0.06968},
                        {"L7b (question seen)", 2, 8, 5000, 0.5, 0.050, 0.010, 207e9, 0.03294}};
    for (const Row& row : rows) {
        CAPTURE(std::string(row.name));
        Pack pack = triangle(row.graduated, 2 * row.half_length, row.thickness);
        pack.width = row.width;
        pack.modulus = row.modulus;
        pack.leaves.insert(pack.leaves.begin(), static_cast<std::size_t>(row.full),
                           Leaf{2 * row.half_length, row.thickness, std::nullopt});
        const double drop = solved(pack, 2 * row.half_load).eye.drop;
        CHECK(drop < row.deflection * 1.002);
        CHECK(drop > row.deflection * 0.95);
        // Stress between what the books give the graduated and the full-length leaves.
        const BookPack book{row.half_load, row.half_length, row.width,
                            row.thickness, row.full,        row.graduated};
        const PackState state = solved(pack, 2 * row.half_load);
        for (const LeafState& leaf : state.leaves) {
            CHECK(leaf.stress > graduated_leaf_stress(book));
            CHECK(leaf.stress < full_leaf_stress(book));
        }
    }
}

TEST_CASE("a thicker leaf takes its share by the cube of its thickness") {
    Pack pack = even_pack(2, 1.0, 0.008);
    pack.leaves[0].thickness = 0.016;
    const PackState state = solved(pack, 1000);
    CHECK(within(state.leaves[0].clamp_moment / state.leaves[1].clamp_moment, 8, 1e-6));
    CHECK(within(state.leaves[0].stress, 2 * state.leaves[1].stress, 1e-6));
}

TEST_CASE("where a leaf ends too soon the steel outside it is worked harder than at the clamp") {
    // Outside the stub's tip one leaf carries all: 1000 N x 0.4 m over b t²/6.
    Pack stub = even_pack(2, 1.0, 0.01);
    stub.leaves[1].length = 0.2;
    const PackState state = solved(stub, 2000);
    CHECK(within(state.leaves[0].stress, 1000 * 0.4 / (kWidth * 1e-4 / 6), 1e-6));
    CHECK(within(state.leaves[0].stress_at, 0.1, 1e-9));
}

TEST_CASE("two leaves nipped at their tips press with what their flexibilities ask for") {
    // Equal leaves, the lower curved more by k: tips apart k L²/2, each gives L³/(3 E I).
    Pack pack = even_pack(2, 1.0, 0.01);
    pack.leaves[0].curvature = 0;
    pack.leaves[1].curvature = 0.04;
    const double inertia = kWidth * 1e-6 / 12;
    const double press = 0.04 * 0.25 / 2 / (2 * 0.125 / (3 * kE * inertia));
    const PackState state = solved(pack, 0);
    CHECK(within(press_of(state, 0), press, 1e-6));
    CHECK(within(state.eye.drop, -0.04 * 0.25 / 4, 1e-6)); // meets half way
    CHECK(within(state.leaves[1].stress, press * 0.5 / (kWidth * 1e-4 / 6), 1e-6));
    CHECK(within(state.leaves[0].stress, -state.leaves[1].stress, 1e-6));
}

TEST_CASE("a leaf too flat stands clear until the load brings the one above down on it") {
    Pack pack = even_pack(2, 1.0, 0.01);
    pack.leaves[0].curvature = 0.04;
    pack.leaves[1].curvature = 0;
    const double one = solved(even_pack(1, 1.0, 0.01), 100).eye.rate;
    const PackState light = solved(pack, 20);
    CHECK(light.eye.rate < 1.1 * one);
    const PackState heavy = solved(pack, 20000);
    CHECK(within(heavy.eye.rate, 2 * one, 0.02));
    CHECK(press_of(heavy, 0) > 0.3 * 10000);
}

TEST_CASE("a clip draws a gaping pack together with the force its leaves ask for") {
    // Lower leaf flat under a curved one: a clip at the tips takes the upper down and the lower up
    // by what the gap k L²/2 less the play asks, each by P L³/(3 E I). With more than a third of
    // the gap left they touch nowhere else.
    Pack pack = even_pack(2, 1.0, 0.01);
    pack.leaves[0].curvature = 0.04;
    pack.leaves[1].curvature = 0;
    pack.clips = {0.5};
    pack.clip_play = 0.002;
    const double face = 0.04 / (1 + 0.04 * 0.01);
    const double give = 2 * 0.125 / (3 * kE * kWidth * 1e-6 / 12);
    const PackState state = solved(pack, 0);
    REQUIRE(state.clips.size() == 1);
    CHECK(within(state.clips[0], (face * 0.25 / 2 - 0.002) / give, 1e-6));
    CHECK(within(state.leaves[1].gap.back().value, 0.002, 1e-6));
    pack.clip_play = 0.006;
    CHECK(solved(pack, 0).clips[0] == 0); // the gap is 5 mm: it has play left
}

TEST_CASE("contact answers agree with finite elements over random packs") {
    RandomPacks packs(72);
    for (int round = 0; round < 20; ++round) {
        CAPTURE(round);
        const Case each = packs.next();
        const double load = packs.between(1000, 8000);
        const PackState state = solved(each.pack, load);
        check_contact(each.pack, state, load);
        const FemAnswer loaded = solve_by_elements(each.elements, load / 2, 0);
        const FemAnswer free = solve_by_elements(each.elements, 0, 0);
        REQUIRE(loaded.settled);
        REQUIRE(free.settled);
        CHECK(within(state.eye.drop, -loaded.eye, 5e-4));
        CHECK(within(solved(each.pack, 0).eye.drop, -free.eye, 2e-3));
        for (std::size_t leaf = 0; leaf < each.pack.leaves.size(); ++leaf) {
            // Nodes stand closer than stations: a peak between them may differ.
            CHECK(
                within(std::fabs(state.leaves[leaf].stress), stress_of(each, loaded, leaf), 0.03));
            if (leaf == 0) continue;
            CHECK(std::fabs(state.leaves[leaf].press - loaded.press[leaf - 1]) < 0.02 * load / 2);
        }
    }
}

TEST_CASE("both branches of friction agree with finite elements over random packs") {
    RandomPacks packs(24);
    for (int round = 0; round < 25; ++round) {
        CAPTURE(round);
        Case each = packs.next();
        const double load = packs.between(1000, 8000);
        each.pack.friction = packs.between(0.05, 0.25);
        const PackState down = solved(each.pack, load, Branch::loading);
        const PackState up = solved(each.pack, load, Branch::unloading);
        const FemAnswer pressed = solve_by_elements(each.elements, load / 2, each.pack.friction);
        const FemAnswer let_up = solve_by_elements(each.elements, load / 2, -each.pack.friction);
        REQUIRE(pressed.settled);
        REQUIRE(let_up.settled);
        CHECK(within(down.eye.drop, -pressed.eye, 1e-4));
        CHECK(within(up.eye.drop, -let_up.eye, 1e-4));
        CHECK(within(up.eye.drop - down.eye.drop, pressed.eye - let_up.eye, 1e-3));
    }
}

TEST_CASE("friction between two equal leaves widens the loop by what their couples do") {
    // One contact at the tip: couples mu P t/2 on both leaves, each gives L²/(2 E I). By hand:
    // P = F (1/2) to first order, eye moved by mu P t/2 x L²/(2 E I).
    Pack pack = even_pack(2, 1.0, 0.01);
    pack.friction = 0.1;
    const double load = 2000, inertia = kWidth * 1e-6 / 12;
    const double half_loop = 0.1 * 500 * 0.005 * 0.25 / (2 * kE * inertia);
    const double middle = solved(pack, load).eye.drop;
    CHECK(within(middle - solved(pack, load, Branch::loading).eye.drop, half_loop, 0.02));
    CHECK(within(solved(pack, load, Branch::unloading).eye.drop - middle, half_loop, 0.02));
}

TEST_CASE("the rate is the slope of load over deflection on every branch") {
    RandomPacks packs(24);
    for (int round = 0; round < 10; ++round) {
        CAPTURE(round);
        Pack pack = packs.next().pack;
        pack.friction = 0.2;
        PackSolver solver(pack);
        for (const Branch branch : {Branch::frictionless, Branch::loading, Branch::unloading}) {
            const auto here = solver.eye(3000, branch);
            const auto there = solver.eye(3000.01, branch);
            REQUIRE(here.has_value());
            REQUIRE(there.has_value());
            CHECK(within((0.01) / (there->drop - here->drop), here->rate, 1e-3));
        }
    }
}

TEST_CASE("no pack is stiffer than its leaves bent alike nor softer than its master alone") {
    RandomPacks packs(24);
    for (int round = 0; round < 50; ++round) {
        CAPTURE(round);
        const Pack pack = packs.next().pack;
        Pack master = pack;
        master.leaves.resize(1);
        const double rate = solved(pack, 4000).eye.rate;
        CHECK(rate <= common_curvature_rate(pack) * 1.0001);
        CHECK(rate >= solved(master, 4000).eye.rate * 0.9999);
    }
}

TEST_CASE("every leaf turns one way as the load grows, as friction takes for granted") {
    RandomPacks packs(24);
    for (int round = 0; round < 20; ++round) {
        CAPTURE(round);
        const Pack pack = packs.next().pack;
        PackSolver solver(pack);
        std::vector<Place> before;
        for (double load = 500; load <= 8000; load += 500) {
            const auto state = solver.state(load, Branch::frictionless);
            REQUIRE(state.has_value());
            double turned = 0;
            for (std::size_t i = 0; i < before.size(); ++i) {
                const double moved = state->master[i].value - before[i].value;
                CHECK(moved >= turned - 1e-9); // outer stations sink more
                turned = moved;
            }
            before = state->master;
        }
    }
}

TEST_CASE("rate and stress scale as beams do") {
    const auto scaled = [](double length, double thickness, double width) {
        Pack pack = empty_pack();
        pack.width *= width;
        pack.clamp = 0.1 * length;
        for (const double each : {1.0, 1.0, 0.8, 0.6, 0.4})
            pack.leaves.push_back({each * length, 0.008 * thickness, std::nullopt});
        return solved(pack, 5000);
    };
    const PackState base = scaled(1, 1, 1);
    CHECK(within(scaled(2, 1, 1).eye.rate, base.eye.rate / 8, 1e-6));
    CHECK(within(scaled(1, 2, 1).eye.rate, base.eye.rate * 8, 1e-6));
    CHECK(within(scaled(1, 1, 2).eye.rate, base.eye.rate * 2, 1e-6));
    CHECK(within(scaled(2, 2, 2).eye.rate, base.eye.rate * 2, 1e-6));
    CHECK(within(scaled(2, 1, 1).leaves[2].stress, base.leaves[2].stress * 2, 1e-6));
    CHECK(within(scaled(1, 2, 1).leaves[0].stress, base.leaves[0].stress / 4, 1e-6));
}

TEST_CASE("twenty mixed leaves and forty are solved on every branch, from any load before") {
    std::mt19937 engine(20);
    const auto between = [&](double least, double most) {
        return std::uniform_real_distribution<double>(least, most)(engine);
    };
    for (const int leaves : {20, 40}) {
        Pack pack = empty_pack();
        pack.clamp = 0.1;
        pack.friction = 0.2;
        for (int i = 0; i < leaves; ++i) {
            const double curvature = 0.6 + 0.01 * i + between(-0.01, 0.03);
            pack.leaves.push_back({1.4 - 1.2 * i / leaves, between(0.006, 0.009), curvature});
        }
        PackSolver solver(pack);
        for (int round = 0; round < 30; ++round) {
            const double load = between(0, 60000);
            for (const Branch branch : {Branch::frictionless, Branch::loading, Branch::unloading}) {
                const auto warm = solver.eye(load, branch);
                const auto fresh = PackSolver(pack).eye(load, branch);
                REQUIRE(warm.has_value());
                REQUIRE(fresh.has_value());
                CHECK(std::fabs(warm->drop - fresh->drop) < 1e-6 * (std::fabs(fresh->drop) + 0.01));
            }
        }
    }
}
