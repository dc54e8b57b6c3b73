#include "photos/stamp_filters.h"

#include <doctest/doctest.h>

#include <cmath>
#include <functional>
#include <numbers>
#include <random>

using namespace fettle;
using namespace fettle::photos;

namespace {

Brightness picture_of(int width, int height, const std::function<double(int, int)>& at) {
    Brightness picture{width, height, std::vector<float>(std::size_t(width) * height)};
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x)
            picture.at(x, y) = float(at(x, y));
    return picture;
}

struct Spread {
    double mean = 0, deviation = 0;
};
Spread spread_where(const Brightness& picture, const std::function<bool(int, int)>& counts) {
    double sum = 0, squares = 0, count = 0;
    for (int y = 0; y < picture.height; ++y)
        for (int x = 0; x < picture.width; ++x)
            if (counts(x, y)) {
                sum += picture.at(x, y);
                squares += double(picture.at(x, y)) * picture.at(x, y);
                ++count;
            }
    return {sum / count, std::sqrt(std::max(0.0, squares / count - sum * sum / count / count))};
}

// A plate stamped with upright strokes 0.1 of a pixel deep: the walls, 4 pixels wide, slope by
// 0.025. Lit from the left at 20 degrees above the plate, by light that grows from 0.25 to 0.85
// across it, with a camera's noise of 0.006.
struct Stamping {
    static constexpr int kWidth = 480, kHeight = 320, kPitch = 48, kWall = 4, kStroke = 12;
    static constexpr double kDepth = 0.1, kElevation = 20 * std::numbers::pi / 180;

    // Where in its stroke a place is: falling wall, bottom, rising wall; flat elsewhere.
    enum class Place { flat, falling, bottom, rising };
    static Place place(int x, int y) {
        if (y < 80 || y >= 240) return Place::flat;
        const int in = x % kPitch - 16;
        if (in < 0 || in >= kStroke) return Place::flat;
        return in < kWall ? Place::falling : in < kStroke - kWall ? Place::bottom : Place::rising;
    }
    static double light(int x) { return 0.25 + 0.6 * x / kWidth; }

    // By Lambert's cosine law: brightness is the normal's share towards the light.
    static Brightness lit() {
        std::mt19937 random(1);
        std::normal_distribution<double> noise(0, 0.006);
        return picture_of(kWidth, kHeight, [&](int x, int y) {
            const Place at = place(x, y);
            const double slope = at == Place::falling  ? -kDepth / kWall
                                 : at == Place::rising ? kDepth / kWall
                                                       : 0;
            // The normal is (-slope, 0, 1); the light comes from (-cos, 0, sin) of its elevation.
            const double towards = slope * std::cos(kElevation) + std::sin(kElevation);
            const double facing = towards / std::sqrt(1 + slope * slope) / std::sin(kElevation);
            return light(x) * facing + noise(random);
        });
    }
    // The same plate with light from all round and dirt in its strokes: dark to the depth.
    static Brightness dirty() {
        std::mt19937 random(2);
        std::normal_distribution<double> noise(0, 0.006);
        return picture_of(kWidth, kHeight, [&](int x, int y) {
            double depth = place(x, y) == Place::bottom ? kDepth : 0;
            const int in = x % kPitch - 16;
            if (place(x, y) == Place::falling) depth = kDepth * (in + 0.5) / kWall;
            if (place(x, y) == Place::rising) depth = kDepth * (kStroke - in - 0.5) / kWall;
            return light(x) * (1 - depth) + noise(random);
        });
    }
};

// How far two kinds of places stand apart, in deviations of the plate around them, which its uneven
// light is part of.
double contrast_to_noise(const Brightness& picture, Stamping::Place one, Stamping::Place other) {
    const auto mean = [&](Stamping::Place place) {
        return spread_where(picture, [&](int x, int y) { return Stamping::place(x, y) == place; })
            .mean;
    };
    const Spread around = spread_where(
        picture, [](int x, int y) { return Stamping::place(x, y) == Stamping::Place::flat; });
    return std::abs(mean(one) - mean(other)) / around.deviation;
}

using enum Stamping::Place;

} // namespace

TEST_CASE("a stamping under slanting and uneven light stands out the stated times as clearly") {
    // The light's own deviation is 0.6 / sqrt 12 = 0.173 and the noise 0.006: light that is divided
    // out leaves up to 0.173 / 0.006 = 29 times the contrast, a third of which is asked for, since
    // division raises the noise of the dark side. Unsharp masking leaves the light as it is and
    // raises the walls by 1 + 3 times what a blur of 3 pixels takes of them, half of it or more.
    const Brightness before = Stamping::lit();
    const double seen = contrast_to_noise(before, falling, rising);
    CHECK(seen < 1); // hidden in the light, or there would be nothing to show
    struct Case {
        const char* name;
        StampFilters filters;
        double times;
    };
    for (const Case& c : {Case{"flatten", {.flatten = 1}, 10},
                          Case{"contrast", {.contrast = 1}, 10}, Case{"sharpen", {.sharpen = 1}, 2},
                          Case{"flatten and contrast", {.flatten = 1, .contrast = 1}, 10},
                          Case{"half flattened", {.flatten = 0.5}, 1.5}}) {
        CAPTURE(c.name);
        const double after = contrast_to_noise(filtered(before, c.filters), falling, rising);
        CHECK(after / seen > c.times);
    }
    // Dark for light changes no contrast.
    CHECK(contrast_to_noise(filtered(before, {.invert = true}), falling, rising) ==
          doctest::Approx(seen).epsilon(1e-3));
}

TEST_CASE("dirt in a stamping becomes walls lit from the chosen side, and clearer") {
    const Brightness before = Stamping::dirty();
    const double seen = contrast_to_noise(before, flat, bottom);
    CHECK(seen < 1);
    const StampFilters from_left{.relief = 1, .light_from = 270};
    const Brightness relief = filtered(before, from_left);
    CHECK(contrast_to_noise(relief, falling, rising) / seen > 5);
    const auto mean = [](const Brightness& picture, Stamping::Place place) {
        return spread_where(picture, [&](int x, int y) { return Stamping::place(x, y) == place; })
            .mean;
    };
    // Lit from the left, the wall that rises to the right is the bright one; from the right the
    // other; from above neither.
    CHECK(mean(relief, rising) > mean(relief, falling) + 0.05);
    StampFilters other = from_left;
    other.light_from = 90;
    CHECK(mean(filtered(before, other), falling) > mean(filtered(before, other), rising) + 0.05);
    other.light_from = 0;
    CHECK(std::abs(mean(filtered(before, other), falling) - mean(filtered(before, other), rising)) <
          0.01);
}

TEST_CASE("flattened light is equal across the picture") {
    const Brightness plain =
        picture_of(480, 320, [](int x, int y) { return 0.15 + 0.5 * x / 480 + 0.3 * y / 320; });
    const Brightness flat = filtered(plain, {.flatten = 1, .radius = 24});
    for (int y = 0; y < 320; y += 40)
        for (int x = 0; x < 480; x += 40) {
            const double mean = spread_where(flat, [&](int at_x, int at_y) {
                                    return at_x / 40 == x / 40 && at_y / 40 == y / 40;
                                }).mean;
            CAPTURE(x);
            CAPTURE(y);
            const bool inside = x >= 80 && x < 400 && y >= 80 && y < 240;
            // At the edges the blur sees one side only.
            CHECK(mean == doctest::Approx(0.5).epsilon(inside ? 0.005 : 0.1));
        }
}

TEST_CASE("contrast is the same in bright and dark places, and noise is not raised without end") {
    const Brightness stripes = picture_of(400, 200, [](int x, int y) {
        const double swing = x < 200 ? 0.02 : 0.2;
        return 0.5 + swing * std::sin(2 * std::numbers::pi * y / 8);
    });
    const Brightness even = evened_contrast(stripes, 20);
    const auto swing_of = [&](int from, int to) {
        return spread_where(even,
                            [&](int x, int y) { return x >= from && x < to && y > 60 && y < 140; })
            .deviation;
    };
    // Both deviations come to that wanted, 0.2.
    CHECK(swing_of(40, 120) == doctest::Approx(0.2).epsilon(0.02));
    CHECK(swing_of(280, 360) == doctest::Approx(0.2).epsilon(0.02));
    std::mt19937 random(3);
    std::normal_distribution<double> noise(0, 0.001);
    const Brightness grain = picture_of(200, 200, [&](int, int) { return 0.5 + noise(random); });
    const Spread raised = spread_where(evened_contrast(grain, 20), [](int, int) { return true; });
    CHECK(raised.deviation == doctest::Approx(0.001 * kMostGain).epsilon(0.03));
}

TEST_CASE("unsharp masking overshoots a step edge as the formula says") {
    // Of a step of height h, x from the edge, a Gaussian leaves h (1 - Φ(x / sigma)) to be added
    // times the amount (the error function's definition; Φ(x) = (1 + erf(x / sqrt 2)) / 2).
    const Brightness step = picture_of(200, 40, [](int x, int) { return x < 100 ? 0.3 : 0.7; });
    const StampFilters filters{.sharpen = 0.5, .radius = 32}; // sigma 4, times 1.5
    const Brightness sharp = filtered(step, filters);
    const double times = kMostUnsharp * 0.5, sigma = 4;
    for (int x : {100, 101, 103, 106}) {
        CAPTURE(x);
        const double away = x + 0.5 - 100;
        const double left_over = 0.5 * std::erfc(away / sigma / std::sqrt(2.0));
        CHECK(std::abs(sharp.at(x, 20) - (0.7 + times * 0.4 * left_over)) < 0.012);
        CHECK(std::abs(sharp.at(199 - x, 20) - (0.3 - times * 0.4 * left_over)) < 0.012);
    }
    CHECK(sharp.at(150, 20) == doctest::Approx(0.7).epsilon(1e-4));
}

TEST_CASE("the slope of a ramp and of a step are the analytic derivatives") {
    const Brightness ramp =
        picture_of(120, 120, [](int x, int y) { return 0.2 + 0.001 * x + 0.002 * y; });
    for (double side : {0.0, 45.0, 90.0, 200.0, 315.0}) {
        CAPTURE(side);
        const double radians = side * std::numbers::pi / 180;
        // Towards the side, clockwise from the top: (sin, -cos) in a picture whose y goes down.
        const double expected = 0.001 * std::sin(radians) - 0.002 * std::cos(radians);
        CHECK(std::abs(slope_towards(ramp, 3, side).at(60, 60) - expected) < 2e-6);
    }
    // A blurred step is steepest at its edge: h / (sigma sqrt(2 pi)).
    const Brightness step = picture_of(200, 40, [](int x, int) { return x < 100 ? 0 : 1; });
    const double steepest = slope_towards(step, 5, 90).at(100, 20);
    CHECK(steepest == doctest::Approx(1 / (5 * std::sqrt(2 * std::numbers::pi))).epsilon(0.03));
}

TEST_CASE("a blur has the width that was asked for and keeps the brightness") {
    for (double sigma : {0.0, 0.4, 1.0, 2.7, 7.9, 8.0, 16.0, 30.0}) {
        CAPTURE(sigma);
        const int middle = 150;
        Brightness dot = picture_of(
            301, 301, [&](int x, int y) { return x == middle && y == middle ? 1000.0 : 0.0; });
        dot = blurred(dot, sigma);
        double sum = 0, square = 0, along = 0;
        for (int y = 0; y < 301; ++y)
            for (int x = 0; x < 301; ++x) {
                sum += dot.at(x, y);
                square += dot.at(x, y) * double(x - middle) * (x - middle);
                along += dot.at(x, y) * double(y - middle) * (y - middle);
            }
        CHECK(sum == doctest::Approx(1000).epsilon(1e-3));
        CHECK(std::sqrt(square / sum) == doctest::Approx(sigma).epsilon(0.02));
        CHECK(std::sqrt(along / sum) == doctest::Approx(sigma).epsilon(0.02));
    }
}

TEST_CASE("inverted twice is as it was, and no filter leaves the colours alone") {
    Picture colours{3, 2, {}};
    for (int i = 0; i < 24; ++i)
        colours.rgba.push_back(std::byte(i % 4 == 3 ? 255 : i * 10));
    CHECK(filtered(colours, {}).rgba == colours.rgba);
    Picture grey{256, 1, {}};
    for (int i = 0; i < 256; ++i)
        for (int channel = 0; channel < 4; ++channel)
            grey.rgba.push_back(channel == 3 ? std::byte{255} : std::byte(i));
    const StampFilters inverted{.invert = true};
    const Picture once = filtered(grey, inverted);
    CHECK(once.rgba[0] == std::byte{255});
    CHECK(filtered(once, inverted).rgba == grey.rgba);
}

TEST_CASE("a stamping looks the same shrunk to half, and wherever the window cuts it out") {
    const StampFilters filters{
        .flatten = 0.8, .contrast = 0.7, .relief = 0.5, .sharpen = 0.3, .radius = 24};
    const Brightness whole = picture_of(400, 400, [](int x, int y) {
        return 0.3 + 0.001 * x + 0.05 * std::sin(x / 9.0) * std::cos(y / 11.0);
    });
    const Brightness seen = filtered(whole, filters);
    const Brightness half = picture_of(200, 200, [&](int x, int y) {
        return (whole.at(2 * x, 2 * y) + whole.at(2 * x + 1, 2 * y) + whole.at(2 * x, 2 * y + 1) +
                whole.at(2 * x + 1, 2 * y + 1)) /
               4;
    });
    const Brightness seen_half = filtered(half, filters, 0.5);
    const Brightness piece =
        picture_of(300, 300, [&](int x, int y) { return whole.at(x + 60, y + 60); });
    const Brightness seen_piece = filtered(piece, filters);
    double worst_half = 0, worst_piece = 0;
    for (int at = 160; at < 260; ++at) {
        worst_half =
            std::max<double>(worst_half, std::abs(seen.at(at, at) - seen_half.at(at / 2, at / 2)));
        worst_piece = std::max<double>(worst_piece,
                                       std::abs(seen.at(at, at) - seen_piece.at(at - 60, at - 60)));
    }
    CHECK(worst_half < 0.06);
    CHECK(worst_piece < 0.01);
}

TEST_CASE("the smallest, blackest and whitest pictures give figures") {
    const StampFilters all{
        .flatten = 1, .contrast = 1, .relief = 1, .sharpen = 1, .invert = true, .radius = 200};
    for (const auto& [width, height] : {std::pair{1, 1}, {3, 1}, {1, 700}, {90, 60}})
        for (double value : {0.0, 1.0}) {
            const Brightness done =
                filtered(picture_of(width, height, [&](int, int) { return value; }), all);
            REQUIRE(done.samples.size() == std::size_t(width) * height);
            for (float sample : done.samples)
                REQUIRE(std::isfinite(sample));
        }
}

TEST_CASE("settings are kept as JSON and come back, and what makes no sense is refused") {
    const StampFilters filters{.flatten = 0.6,
                               .contrast = 0.25,
                               .relief = 1,
                               .sharpen = 0.125,
                               .invert = true,
                               .radius = 31.5,
                               .light_from = 45};
    const auto back = filters_from_json(to_json(filters));
    REQUIRE(back.ok());
    CHECK(*back == filters);
    REQUIRE(filters_from_json(R"({"flatten": 0.5})").ok());
    CHECK(filters_from_json(R"({"flatten": 0.5})")->radius == StampFilters().radius);
    for (const auto& [text, named] :
         {std::pair{"", "JSON object"},
          {"[1]", "JSON object"},
          {R"({"flatten": 1.5})", "\"flatten\" is a number from 0 to 1"},
          {R"({"contrast": "much"})", "contrast"},
          {R"({"radius": 1})", "from 2 to 200"},
          {R"({"light_from": -1})", "light_from"},
          {R"({"invert": 1})", "invert"},
          {R"({"glow": 1})", "glow"}}) {
        CAPTURE(text);
        const auto refused = filters_from_json(text);
        REQUIRE_FALSE(refused.ok());
        CHECK(refused.failure().sentence.find(named) != std::string::npos);
    }
}
