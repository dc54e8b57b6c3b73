#include "photos/plane_map.h"

#include <doctest/doctest.h>

#include <cmath>
#include <vector>

using namespace fettle;
using namespace fettle::photos;

namespace {

void check_at(PlanePoint found, double x, double y) {
    CHECK(found.x == doctest::Approx(x).epsilon(1e-9).scale(1));
    CHECK(found.y == doctest::Approx(y).epsilon(1e-9).scale(1));
}

PlaneMap found(PlaneKind kind, const std::vector<PointPair>& pairs) {
    auto map = map_by_points(kind, pairs);
    REQUIRE(map.ok());
    return *map;
}

std::string refusal(PlaneKind kind, const std::vector<PointPair>& pairs) {
    const auto map = map_by_points(kind, pairs);
    REQUIRE_FALSE(map.ok());
    CHECK(map.failure().kind == FailureKind::invalid);
    return map.failure().sentence;
}

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

} // namespace

TEST_CASE("two pairs settle how a picture is turned, sized and moved") {
    // By hand: a quarter turn (x, y) -> (-y, x), twice the size, moved by (10, 20).
    const auto map = found(PlaneKind::similarity, {{{0, 0}, {10, 20}}, {{100, 0}, {10, 220}}});
    check_at(map({0, 100}), -190, 20);
    check_at(map({30, 40}), 10 - 80, 20 + 60);
    CHECK(map.is_affine());
    check_at(undone(map)({10 - 80, 20 + 60}), 30, 40);
}

TEST_CASE("three pairs settle a shear") {
    // By hand: x' = 2 x + 0.5 y + 7, y' = 3 y - 4.
    const auto map = found(PlaneKind::affine,
                           {{{0, 0}, {7, -4}}, {{100, 0}, {207, -4}}, {{0, 200}, {107, 596}}});
    check_at(map({50, 60}), 137, 176);
    check_at(undone(map)({137, 176}), 50, 60);
}

TEST_CASE("four pairs settle a slanted view, and points between follow") {
    // By hand: x' = (1.1 x + 0.02 y + 30) / d, y' = (-0.03 x + 0.95 y + 12) / d with
    // d = 1 + 0.0001 x - 0.00005 y, worked here for each point.
    const auto there = [](double x, double y) {
        const double d = 1 + 0.0001 * x - 0.00005 * y;
        return PlanePoint{(1.1 * x + 0.02 * y + 30) / d, (-0.03 * x + 0.95 * y + 12) / d};
    };
    std::vector<PointPair> pairs;
    for (const PlanePoint at : {PlanePoint{200, 150}, {3800, 240}, {3700, 2900}, {160, 2750}})
        pairs.push_back({at, there(at.x, at.y)});
    const auto map = found(PlaneKind::homography, pairs);
    for (const PlanePoint at : {PlanePoint{2000, 1500}, {10, 10}, {3990, 2990}}) {
        const auto wanted = there(at.x, at.y);
        CHECK(std::hypot(map(at).x - wanted.x, map(at).y - wanted.y) < 1e-6);
        const auto back = undone(map)(wanted);
        CHECK(std::hypot(back.x - at.x, back.y - at.y) < 1e-6);
    }
    CHECK(misses_of(map, pairs).worst < 1e-6);
    // Eight exact points lead to the same map as four.
    for (const PlanePoint at : {PlanePoint{900, 700}, {2500, 600}, {2600, 2000}, {1200, 2100}})
        pairs.push_back({at, there(at.x, at.y)});
    const auto more = found(PlaneKind::homography, pairs);
    check_at(more({2000, 1500}), there(2000, 1500).x, there(2000, 1500).y);
}

TEST_CASE("the square on a quadrilateral agrees with the closed formula") {
    // Heckbert, Fundamentals of Texture Mapping and Image Warping (1989), section 2.2.3, the square
    // (0,0) (1,0) (1,1) (0,1) onto four corners; provenance: memory.
    const PlanePoint q[] = {{120, 80}, {900, 140}, {840, 760}, {60, 610}};
    const double dx1 = q[1].x - q[2].x, dx2 = q[3].x - q[2].x;
    const double dy1 = q[1].y - q[2].y, dy2 = q[3].y - q[2].y;
    const double sx = q[0].x - q[1].x + q[2].x - q[3].x, sy = q[0].y - q[1].y + q[2].y - q[3].y;
    const double det = dx1 * dy2 - dx2 * dy1;
    const double g = (sx * dy2 - dx2 * sy) / det, h = (dx1 * sy - sx * dy1) / det;
    const double a = q[1].x - q[0].x + g * q[1].x, b = q[3].x - q[0].x + h * q[3].x;
    const double d = q[1].y - q[0].y + g * q[1].y, e = q[3].y - q[0].y + h * q[3].y;
    const auto map = map_by_points(
        PlaneKind::homography,
        std::vector<PointPair>{{{0, 0}, q[0]}, {{1, 0}, q[1]}, {{1, 1}, q[2]}, {{0, 1}, q[3]}},
        {.from = {"the square", 0}, .to = {"the picture", 2}});
    REQUIRE(map.ok());
    const double wanted[] = {a, b, q[0].x, d, e, q[0].y, g, h, 1};
    for (std::size_t i = 0; i < 9; ++i) {
        CAPTURE(i);
        CHECK(map->m[i] == doctest::Approx(wanted[i]).epsilon(1e-9).scale(1));
    }
}

TEST_CASE("what more pairs than needed leave over is told") {
    // Corners of a square pulled out along one diagonal and in along the other by (3, 3): by
    // symmetry the nearest similarity is to leave all as it is, and each misses by 3 root 2.
    const std::vector<PointPair> pairs{{{100, 100}, {103, 103}},
                                       {{-100, -100}, {-103, -103}},
                                       {{100, -100}, {97, -97}},
                                       {{-100, 100}, {-97, 97}}};
    const auto map = found(PlaneKind::similarity, pairs);
    check_at(map({50, 20}), 50, 20);
    const auto misses = misses_of(map, pairs);
    CHECK(misses.typical == doctest::Approx(3 * std::sqrt(2.0)));
    CHECK(misses.worst == doctest::Approx(3 * std::sqrt(2.0)));
    // That pull is a shear, x' = x + 0.03 y and y' = y + 0.03 x.
    const auto sheared = found(PlaneKind::affine, pairs);
    check_at(sheared({50, 20}), 50.6, 21.5);
    CHECK(misses_of(sheared, pairs).worst < 1e-9);
}

TEST_CASE("one map after the other is both at once, and its horizon is behind the points") {
    const auto turn = found(PlaneKind::similarity, {{{0, 0}, {0, 0}}, {{10, 0}, {0, 10}}});
    const auto move = found(PlaneKind::similarity, {{{0, 0}, {5, 0}}, {{10, 0}, {15, 0}}});
    check_at(after_each_other(turn, move)({10, 0}), 5, 10);
    check_at(after_each_other(move, turn)({10, 0}), 0, 15);
    // A strong slant: seen from the far side of the origin, which lies beyond the horizon.
    const std::vector<PointPair> pairs{{{1000, 1000}, {0, 0}},
                                       {{2000, 1000}, {900, 0}},
                                       {{1900, 2000}, {520, 300}},
                                       {{1100, 2000}, {380, 300}}};
    const auto slant = found(PlaneKind::homography, pairs);
    for (const auto& pair : pairs)
        CHECK(slant.depth(pair.from) > 0);
    CHECK(undone(slant).depth(pairs[0].to) > 0);
}

TEST_CASE("points that settle nothing are refused by number") {
    CHECK(holds(refusal(PlaneKind::similarity, {{{0, 0}, {0, 0}}}), "1 matching points"));
    CHECK(holds(refusal(PlaneKind::similarity, {{{5, 5}, {0, 0}}, {{6, 5}, {90, 0}}}),
                "Points 1 and 2 lie on one spot in the first picture"));
    CHECK(holds(refusal(PlaneKind::similarity, {{{5, 5}, {70, 70}}, {{600, 5}, {70, 71}}}),
                "in the second picture"));
    CHECK(holds(refusal(PlaneKind::affine,
                        {{{0, 0}, {0, 0}}, {{100, 100}, {100, 0}}, {{200, 201}, {0, 100}}}),
                "Points 1, 2 and 3 lie in a line in the first picture"));
    const PointPair a{{0, 0}, {0, 0}}, b{{100, 0}, {100, 0}}, c{{100, 100}, {100, 100}};
    CHECK(holds(refusal(PlaneKind::homography, {a, b, c, {{0, 100}, {50, 50}}}),
                "lie in a line in the second picture"));
    // The third and fourth exchanged on one side: the horizon would run between them.
    CHECK(holds(
        refusal(PlaneKind::homography, {a, b, {{100, 100}, {0, 100}}, {{0, 100}, {100, 100}}}),
        "same order"));
    CHECK(holds(refusal(PlaneKind::similarity, {a, {{NAN, 0}, {1, 1}}}), "not a place"));
}

TEST_CASE("a mirrored picture is met by four points, not by two") {
    const std::vector<PointPair> pairs{
        {{0, 0}, {400, 0}}, {{400, 0}, {0, 0}}, {{400, 300}, {0, 300}}, {{0, 300}, {400, 300}}};
    check_at(found(PlaneKind::homography, pairs)({100, 50}), 300, 50);
    CHECK(misses_of(found(PlaneKind::similarity, pairs), pairs).typical > 100);
}
