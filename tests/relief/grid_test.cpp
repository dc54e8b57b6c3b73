// The ground of the room: grids, directions, light of photos, Fourier transforms, work in bands.
#include "relief/fourier.h"
#include "relief/shot.h"
#include "relief/torch_scene.h"

#include <doctest/doctest.h>

#include <atomic>
#include <cmath>
#include <numbers>

using namespace relief_tests;

TEST_CASE("directions are degrees clockwise from the top and above the picture") {
    const Direction right = direction_of(90, 0), up = direction_of(0, 0),
                    over = direction_of(7, 90);
    CHECK(right.x == doctest::Approx(1));
    CHECK(up.y == doctest::Approx(-1)); // y points down
    CHECK(over.z == doctest::Approx(1));
    CHECK(side_of(direction_of(315, 40)) == doctest::Approx(315));
    CHECK(above_of(direction_of(200, 35)) == doctest::Approx(35));
    CHECK(degrees_between(direction_of(10, 20), direction_of(10, 50)) == doctest::Approx(30));
}

TEST_CASE("light of a photo is sRGB undone, and what is at its limit is told") {
    // IEC 61966-2-1: code 128 is 0.21586 of full light, code 10 still on the straight piece, 10 /
    // 255 / 12.92 (worked by hand); weights of ITU-R BT.709.
    const auto byte = [](int value) { return std::byte(value); };
    const std::vector<std::byte> rgba = {byte(128), byte(128), byte(128), byte(255), //
                                         byte(10),  byte(10),  byte(10),  byte(255), //
                                         byte(0),   byte(128), byte(0),   byte(255), //
                                         byte(3),   byte(255), byte(3),   byte(255)};
    const Shot shot = shot_of(rgba, 4, 1);
    CHECK(shot.light[0] / 65535.0 == doctest::Approx(0.21586).epsilon(0.001));
    CHECK(shot.light[1] / 65535.0 == doctest::Approx(0.0030353).epsilon(0.01));
    CHECK(shot.light[2] / 65535.0 == doctest::Approx(0.7152 * 0.21586).epsilon(0.001));
    CHECK(shot.light[3] == kClipped);
}

TEST_CASE("smoothing keeps the sum and spreads by its sigma") {
    for (const double sigma : {0.8, 3.0, 7.3}) {
        Grid dot(121, 121);
        dot.at(60, 60) = 1;
        const Grid wide = smoothed(dot, sigma);
        double sum = 0, spread_x = 0, spread_y = 0;
        for (int y = 0; y < 121; ++y)
            for (int x = 0; x < 121; ++x) {
                const double weight = double(wide.at(x, y));
                sum += weight;
                spread_x += weight * (x - 60) * (x - 60);
                spread_y += weight * (y - 60) * (y - 60);
            }
        CAPTURE(sigma);
        CHECK(sum == doctest::Approx(1).epsilon(1e-4));
        CHECK(std::sqrt(spread_x) == doctest::Approx(sigma).epsilon(0.01));
        CHECK(std::sqrt(spread_y) == doctest::Approx(sigma).epsilon(0.01));
    }
}

TEST_CASE("cosine transforms are those of the definition, and are undone") {
    std::mt19937 random(3);
    std::normal_distribution<double> noise;
    for (const int length : {2, 5, 8, 15, 36}) {
        std::vector<double> one(length), other(length);
        for (int n = 0; n < length; ++n)
            one[n] = noise(random), other[n] = noise(random);
        auto a = one, b = other;
        CosineLines lines(length);
        lines.forward(a.data(), b.data());
        for (int k = 0; k < length; ++k) {
            double sum = 0, sum_other = 0; // DCT-II as in the header
            for (int n = 0; n < length; ++n) {
                const double wave = std::cos(std::numbers::pi * k * (2 * n + 1) / (2.0 * length));
                sum += one[n] * wave, sum_other += other[n] * wave;
            }
            CHECK(std::abs(a[k] - sum) < 1e-9);
            CHECK(std::abs(b[k] - sum_other) < 1e-9);
        }
        lines.inverse(a.data(), b.data());
        for (int n = 0; n < length; ++n) {
            CHECK(std::abs(a[n] - one[n]) < 1e-9);
            CHECK(std::abs(b[n] - other[n]) < 1e-9);
        }
    }
    CHECK(quick_length(1999) == 2000); // 2^4 5^3
    CHECK(quick_length(7) == 8);
    CHECK(quick_length(121) == 125);
}

TEST_CASE("sums of products come out at their shift") {
    Grid still(12, 10), moved(12, 10);
    still.at(5, 4) = 2;
    moved.at(8, 3) = 3; // three to the right, one up
    const Grid answer = correlated(still, moved, Weigh::products, 24);
    // moved by (-3, +1) it fits: column 24 - 3, row 1.
    CHECK(answer.at(21, 1) == doctest::Approx(6));
    CHECK(std::abs(answer.at(0, 0)) < 1e-4F);
}

TEST_CASE("work in bands goes over every row once, tells how far it is and stops") {
    std::vector<std::atomic<int>> seen(100);
    std::size_t told = 0;
    Work work{.progress = [&](std::size_t done, std::size_t, const std::string&) { told = done; },
              .threads = 3};
    const auto act = [&](int first, int last) {
        for (int y = first; y < last; ++y)
            ++seen[y];
    };
    CHECK(in_bands(100, work, "rows", act));
    CHECK(std::ranges::all_of(seen, [](const auto& count) { return count == 1; }));
    CHECK(told == 7); // bands of 16
    std::stop_source source;
    source.request_stop();
    const Done ended = in_bands(100, {.stop = source.get_token()}, "rows", act);
    REQUIRE(!ended);
    CHECK(ended.failure().kind == FailureKind::cancelled);
    CHECK(seen[0] == 1);
}
