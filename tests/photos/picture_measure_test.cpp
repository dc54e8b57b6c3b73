#include "photos/picture_measure.h"

#include <doctest/doctest.h>

#include <cmath>
#include <random>

using namespace fettle;
using namespace fettle::photos;

namespace {

// A camera without lens errors over the plane z = 0, by its own equations (Hartley and Zisserman,
// Multiple View Geometry, 2nd ed., section 6.1): turned about x by `tilt` and about z by `turn`, at
// a distance, 3000 pixels of focal length, 4000 by 3000 pixels.
struct Camera {
    double tilt = 0, turn = 0, distance = 0.5;

    ClickedPoint see(double x, double y, double sure = 1) const {
        const double turned_x = std::cos(turn) * x - std::sin(turn) * y;
        const double turned_y = std::sin(turn) * x + std::cos(turn) * y;
        const double down = std::cos(tilt) * turned_y, depth = distance + std::sin(tilt) * turned_y;
        return {2000 + 3000 * turned_x / depth, 1500 + 3000 * down / depth, sure};
    }
};

KnownSize size(double metres, double within = 0) {
    return {"", metres, within};
}

// An 85.6 by 53.98 mm card, as ISO/IEC 7810 gives it (memory), round its corners.
constexpr double kWide = 0.0856, kHigh = 0.05398;
KnownRectangle card(const Camera& camera, double sure = 1) {
    return {{camera.see(0, 0, sure), camera.see(kWide, 0, sure), camera.see(kWide, kHigh, sure),
             camera.see(0, kHigh, sure)},
            size(kWide),
            size(kHigh)};
}

MeasuredDistance measured(const KnownInPicture& known, const Distance& distance) {
    const auto result = measure(known, distance);
    if (!result) FAIL(result.failure().sentence);
    return *result;
}

std::string refusal(const KnownInPicture& known, const Distance& distance) {
    const auto result = measure(known, distance);
    REQUIRE_FALSE(result.ok());
    return result.failure().sentence;
}

ClickedPoint clicked(ClickedPoint truth, std::mt19937& random) {
    std::normal_distribution<double> off(0, truth.sure);
    truth.x += off(random);
    truth.y += off(random);
    return truth;
}

// Of 2000 measurements with every point clicked and every size chosen at random within what it is
// sure to, how many hold the truth in figure ± U.
template <class Known>
double share_covered(const Known& known, const Distance& distance, double truth) {
    std::mt19937 random(7);
    std::uniform_real_distribution<double> within(-1, 1);
    int covered = 0;
    constexpr int kTrials = 2000;
    for (int trial = 0; trial < kTrials; ++trial) {
        Known seen = known;
        const auto typed = [&](KnownSize& of) { of.metres += of.within * within(random); };
        if constexpr (std::is_same_v<Known, KnownLength>) {
            for (auto& end : seen.ends)
                end = clicked(end, random);
            typed(seen.length);
        } else {
            for (auto& corner : seen.corners)
                corner = clicked(corner, random);
            typed(seen.width);
            typed(seen.height);
        }
        const auto figure =
            measured(seen, {clicked(distance[0], random), clicked(distance[1], random)});
        covered += std::abs(figure.metres - truth) <= figure.expanded() ? 1 : 0;
    }
    return double(covered) / kTrials;
}

// Two standard deviations of a normal distribution hold 95.45 of 100; of 2000 trials that is known
// to 1.4 of 100 (three binomial deviations).
void check_coverage(double share) {
    CHECK(share > 0.9545 - 0.014);
    CHECK(share < 0.9545 + 0.014);
}

} // namespace

TEST_CASE("a distance square to the camera is the known length by the ratio of pixels") {
    const KnownLength inch{{ClickedPoint{100, 100, 1}, {600, 100, 1}}, size(0.0254, 0.0001)};
    const auto figure = measured(inch, {ClickedPoint{0, 0, 2}, {300, 400, 2}});
    CHECK(figure.metres == doctest::Approx(0.0254)); // 500 pixels as well
    // (u/L)² is the sum of 2 (u/d)² for the ends of each and (u/L)² of the known length: the same
    // by hand, JCGM 100:2008, formula (12).
    const double expected =
        0.0254 * std::sqrt(2 * 2 * 2 / 25e4 + 2 / 25e4 + std::pow(0.0001 / 0.0254, 2) / 3);
    CHECK(figure.standard == doctest::Approx(expected).epsilon(1e-4));
    CHECK(figure.expanded() == doctest::Approx(2 * expected).epsilon(1e-4));
}

TEST_CASE("seen aslant, four corners of a card give true distances anywhere in its plane") {
    for (double tilt : {0.0, 0.5, 0.9, 1.15})
        for (double turn : {0.0, 0.7, 3.5}) {
            CAPTURE(tilt);
            CAPTURE(turn);
            const Camera camera{tilt, turn};
            const auto known = card(camera);
            const auto across = measured(known, {camera.see(-0.02, 0.01), camera.see(0.1, 0.06)});
            CHECK(across.metres == doctest::Approx(0.13).epsilon(1e-9)); // 120 and 50 mm
            KnownRectangle back = known; // set the other way round, from another corner
            std::swap(back.corners[0], back.corners[1]);
            std::swap(back.corners[2], back.corners[3]);
            CHECK(measured(back, {camera.see(-0.02, 0.01), camera.see(0.1, 0.06)}).metres ==
                  doctest::Approx(0.13).epsilon(1e-9));
        }
    // Taken for square to the camera, the same distance would come out wrong by more than its ±.
    const Camera camera{0.9};
    const KnownLength side{{camera.see(0, 0), camera.see(kWide, 0)}, size(kWide)};
    const auto wrong = measured(side, {camera.see(0, 0.1), camera.see(0, 0.15)});
    CHECK(std::abs(wrong.metres - 0.05) > wrong.expanded());
}

TEST_CASE("what is stated covers 95 of 100 measurements with clicks that miss at random") {
    const Camera camera{0.6, 0.3};
    const Camera above{};
    const double known_within = 0.0005;
    SUBCASE("by a known length") {
        const KnownLength known{{above.see(0, 0), above.see(0.05, 0)}, size(0.05, known_within)};
        check_coverage(share_covered(known, {above.see(0, 0.02), above.see(0.08, 0.05)},
                                     std::hypot(0.08, 0.03)));
    }
    SUBCASE("within a slanted card") {
        const auto known = card(camera, 3);
        check_coverage(share_covered(known, {camera.see(0.01, 0.01, 3), camera.see(0.07, 0.04, 3)},
                                     std::hypot(0.06, 0.03)));
    }
    SUBCASE("beside a slanted card whose sizes are not sure") {
        auto known = card(camera, 2);
        known.width.within = known.height.within = 0.0002;
        check_coverage(share_covered(known, {camera.see(0.1, 0.02, 2), camera.see(0.18, 0.05, 2)},
                                     std::hypot(0.08, 0.03)));
    }
}

TEST_CASE("each kind of doubt makes the figure less sure") {
    const Camera camera{0.5};
    const Distance distance{camera.see(0.01, 0.01), camera.see(0.06, 0.03)};
    const auto known = card(camera);
    const double least = measured(known, distance).standard;
    auto coarse_corner = known;
    coarse_corner.corners[2].sure = 5;
    CHECK(measured(coarse_corner, distance).standard > least);
    auto unsure_card = known;
    unsure_card.height.within = 0.001;
    CHECK(measured(unsure_card, distance).standard > least);
    CHECK(measured(known, {camera.see(0.01, 0.01, 4), distance[1]}).standard > least);
    // Far from the card the plane is less well known.
    CHECK(measured(known, {camera.see(0.31, 0.01), camera.see(0.36, 0.03)}).standard > 3 * least);
}

TEST_CASE("a click is as sure as the zoom shows it, and no surer than the picture's own pixel") {
    CHECK(sure_of_click(0.25) == doctest::Approx(4).epsilon(0.01));
    CHECK(sure_of_click(1) == doctest::Approx(std::sqrt(1 + 1 / 12.0)));
    // JCGM 100:2008, F.2.2.1: 0.29 of what can be resolved.
    CHECK(sure_of_click(1000) == doctest::Approx(0.2887).epsilon(0.001));
}

TEST_CASE("known sizes are typed as everywhere, and say how sure they are") {
    const auto of = [](const char* text) {
        const auto parsed = parse_known_size(text, "known length");
        if (!parsed) FAIL(parsed.failure().sentence);
        return *parsed;
    };
    CHECK(of("5/16").metres == doctest::Approx(0.0079375)); // 1 in is 25.4 mm
    CHECK(of("5/16").within == 0);
    CHECK(of("12 thou").metres == doctest::Approx(0.0003048));
    CHECK(of("25.4 mm").metres == doctest::Approx(0.0254));
    CHECK(of("25.4 mm").within == doctest::Approx(0.00005)); // half the last place
    CHECK(of("25 ± 0.1 mm").metres == doctest::Approx(0.025));
    CHECK(of("25 ± 0.1 mm").within == doctest::Approx(0.0001));
    CHECK(of("25 mm +- 5 thou").within == doctest::Approx(0.000127));
    CHECK(of("1.5 +/- 0.01").within == doctest::Approx(0.000254));
    // Half the width over the root of three: JCGM 100:2008, 4.3.7.
    CHECK(of("25 ± 0.3 mm").standard() == doctest::Approx(0.0003 / std::sqrt(3.0)));
    for (const char* text : {"", "  ", "0", "0 mm", "-5 mm", "wide", "25 kg", "25 ±", "25 ± 30 mm",
                             "25 ± -1 mm", "± 3 mm", "25 mm ± x"}) {
        CAPTURE(text);
        const auto refused = parse_known_size(text, "known length");
        REQUIRE_FALSE(refused.ok());
        CHECK(refused.failure().sentence.starts_with("The known length: "));
    }
}

TEST_CASE("what gives no figure is refused in one sentence") {
    const Distance distance{ClickedPoint{10, 10}, {200, 10}};
    const auto by_corners = [&](std::array<ClickedPoint, 4> corners) {
        return refusal(KnownRectangle{corners, size(0.1), size(0.05)}, distance);
    };
    const auto has = [](const std::string& text, const char* piece) {
        CAPTURE(text);
        CHECK(text.find(piece) != std::string::npos);
    };
    has(refusal(KnownLength{{ClickedPoint{5, 5}, {5, 5}}, size(0.1)}, distance), "one spot");
    has(refusal(KnownLength{{ClickedPoint{5, 5}, {50, 5}}, size(0.1)},
                {ClickedPoint{7, 7}, {7, 7.5}}),
        "one spot");
    has(by_corners({ClickedPoint{0, 0}, {100, 0}, {100, 50}, {100, 50}}), "one spot");
    has(by_corners({ClickedPoint{0, 0}, {100, 0}, {200, 1}, {0, 50}}), "in a line");
    has(by_corners({ClickedPoint{0, 0}, {100, 0}, {0, 50}, {100, 50}}), "cross");
    has(by_corners({ClickedPoint{0, 0}, {100, 0}, {30, 20}, {0, 100}}), "cross");
    // Rows of a floor seen nearly edgewise end at the horizon; above it lies no floor.
    const Camera low{1.3, 0, 0.3};
    const auto known = card(low);
    has(refusal(known, {low.see(0, 0), ClickedPoint{2000, 2900}}), "horizon");
    has(refusal(KnownLength{{ClickedPoint{5, 5}, {NAN, 5}}, size(0.1)}, distance), "one spot");
}

TEST_CASE("a figure shows no digit that its uncertainty leaves open") {
    struct Case {
        double metres, expanded;
        const char *unit, *words;
    };
    for (const Case& c :
         {Case{0.0314159, 0.00058, "mm", "31.4 ± 0.6 mm"},
          Case{0.0314159, 0.00014, "mm", "31.42 ± 0.14 mm"},
          Case{0.0314159, 0.000141, "mm", "31.42 ± 0.15 mm"}, // up, never down
          Case{0.0314159, 0.0003, "mm", "31.4 ± 0.3 mm"},
          Case{0.0314159, 0.00096, "mm", "31.4 ± 1.0 mm"}, Case{0.5, 0.013, "mm", "500 ± 13 mm"},
          Case{1.2345, 0.04, "mm", "1230 ± 40 mm"},
          Case{0.0254, 0.000254, "in", "1.000 ± 0.010 in"}, Case{0.0254, 0, "mm", "25.4000 mm"}}) {
        CAPTURE(c.words);
        CHECK(in_words({c.metres, c.expanded / 2}, c.unit) == std::string(c.words));
    }
}

TEST_CASE("what is known and measured is kept as JSON and comes back, damage is named") {
    const KnownInPicture length =
        KnownLength{{ClickedPoint{1.25, 2, 0.5}, {300, 4, 2}}, {"25 ± 0.1 mm", 0.025, 0.0001}};
    const KnownInPicture rectangle =
        KnownRectangle{{ClickedPoint{0, 0}, {9, 0}, {9, 9}, {0, 9}}, size(0.3, 0.01), size(0.2)};
    for (const auto& known : {length, rectangle}) {
        const auto back = known_from_json(to_json(known));
        REQUIRE(back.ok());
        CHECK(*back == known);
    }
    const std::vector<Distance> distances{{ClickedPoint{1, 2, 3}, {4, 5, 6}},
                                          {ClickedPoint{7, 8, 9}, {1, 1, 1}}};
    const auto back = distances_from_json(to_json(distances));
    REQUIRE(back.ok());
    CHECK(*back == distances);
    for (const char* text :
         {"", "{}", "[]",
          R"({"length": {"typed": "1", "metres": 1, "within": 0}, "points": [[1]]})",
          R"({"length": {"typed": "1", "metres": 0, "within": 0}, "points": [[1,1,1],[2,2,2]]})"}) {
        CAPTURE(text);
        CHECK_FALSE(known_from_json(text).ok());
    }
    CHECK_FALSE(distances_from_json("[[[1,2]]]").ok());
    CHECK_FALSE(distances_from_json("[[[1,2,0],[1,2,1]]]").ok());
    CHECK(distances_from_json("[]")->empty());
}
