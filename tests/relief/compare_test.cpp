// Two stampings laid on each other: the same punch in another place, and another punch.
#include "relief/compare.h"
#include "relief/struck_letters.h"

#include <doctest/doctest.h>

#include <cmath>

using namespace relief_tests;

namespace {

Grid heights(const std::string& text, unsigned seed, double turn = 0, Point off = {}) {
    return struck({.text = text,
                   .width = 300,
                   .height = 150,
                   .letter_height = 50,
                   .grain = 0.25,
                   .turn_degrees = turn,
                   .off_middle = off,
                   .seed = seed})
        .height;
}

} // namespace

TEST_CASE("the same punch on other ground, turned and moved, is laid where it was struck") {
    const Grid one = heights("K7RM", 1), other = heights("K7RM", 2, 6, {9, -7});
    const auto found = alike(one, other, {.radius = 14});
    CAPTURE(sentence_of(found));
    REQUIRE(found);
    CHECK(found->figure > kLikely);
    CHECK(found->pose.turn * 180 / 3.14159265 == doctest::Approx(6).epsilon(0.1));
    CHECK(std::abs(found->pose.x - 9) < 1.5);
    CHECK(std::abs(found->pose.y + 7) < 1.5);
    CHECK(found->pose.scale == doctest::Approx(1).epsilon(0.02));
    CHECK(found->overlap > 0.7);
}

TEST_CASE("another punch stays below, and a relief with itself is 1") {
    const Grid one = heights("K7RM", 1), other = heights("F4XN", 2, 6, {9, -7});
    const auto apart = alike(one, other, {.radius = 14});
    REQUIRE(apart);
    CHECK(apart->figure < kLikely);
    const auto same = alike(one, one, {.radius = 14, .most_turn_degrees = 0, .most_scale = 1});
    REQUIRE(same);
    CHECK(same->figure == doctest::Approx(1).epsilon(0.001));
}

TEST_CASE("what cannot be compared is refused in a sentence, and comparing stops") {
    const Grid one(64, 64), tiny(20, 64);
    const auto said = [](const Grid& a, const Grid& b, const CompareWish& wish) {
        return sentence_of(alike(a, b, wish));
    };
    CHECK(said(one, tiny, {}).find("one has 20") != std::string::npos);
    CHECK(said(one, one, {.radius = 40}).find("2 to a third of the smallest side, 21") !=
          std::string::npos);
    CHECK(said(one, one, {.radius = 8, .most_turn_degrees = 60}).find("0 to 45") !=
          std::string::npos);
    CHECK(said(one, one, {.radius = 8, .most_scale = 3}).find("1 to 2") != std::string::npos);
    std::stop_source source;
    source.request_stop();
    const auto ended = alike(one, one, {.radius = 8}, {.stop = source.get_token()});
    REQUIRE(!ended);
    CHECK(ended.failure().kind == FailureKind::cancelled);
}
