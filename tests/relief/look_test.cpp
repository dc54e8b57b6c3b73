// Pictures of a relief, and their recipe.
#include "relief/look.h"
#include "relief/torch_scene.h"

#include <doctest/doctest.h>

#include <cmath>

using namespace relief_tests;

namespace {

// A plane of these slopes, albedo 0.5, with one dark quarter.
Relief plane(double right, double down) {
    Relief relief;
    relief.right = Grid(40, 40, float(right));
    relief.down = Grid(40, 40, float(down));
    relief.albedo = Grid(40, 40, 0.5F);
    for (int y = 0; y < 20; ++y)
        for (int x = 0; x < 20; ++x)
            relief.albedo.at(x, y) = 0.1F;
    relief.height =
        made_by(40, 40, [&](double x, double y) { return right * (x - 19.5) + down * (y - 19.5); });
    return relief;
}

int grey(const Seen& seen, int x, int y) {
    return seen.picture.samples[std::size_t(y) * seen.picture.width + x];
}

} // namespace

TEST_CASE("without albedo level ground is the middle, and slopes towards the light are brighter") {
    const View view{.light_from = 90, .light_height = 30};
    CHECK(grey(picture_of(plane(0, 0), view), 5, 5) == 128);
    CHECK(grey(picture_of(plane(0, 0), view), 30, 30) == 128);
    // Sinking to the right by 0.1 under a light from the right at 30 degrees: (sin 30 + 0.1 cos 30)
    // / sqrt(1.01) / (2 sin 30) = 0.58374 of white.
    CHECK(grey(picture_of(plane(-0.1, 0), view), 5, 5) == 149);
    // Twice as steep by the recipe: (0.5 + 0.2 * 0.8660254) / sqrt(1.04) = 0.66014.
    View steep = view;
    steep.slope = 2;
    CHECK(grey(picture_of(plane(-0.1, 0), steep), 5, 5) == 168);
    steep.turned_over = true;
    CHECK(grey(picture_of(plane(-0.1, 0), steep), 5, 5) == 82); // (0.5 - 0.1732) / 1.0198 = 0.32045
    View leaning = view;
    leaning.lean_right = -0.1;
    CHECK(grey(picture_of(plane(-0.1, 0), leaning), 5, 5) == 128);
}

TEST_CASE("lit with albedo the dark quarter is dark") {
    const Seen seen = picture_of(plane(0, 0), {.kind = Kind::lit});
    CHECK(grey(seen, 30, 30) == 255);
    CHECK(grey(seen, 5, 5) == 124); // a fifth of the light: sRGB 0.48453
    CHECK(grey(picture_of(plane(0, 0), {.kind = Kind::albedo}), 5, 5) == 124);
    CHECK(!seen.scale);
}

TEST_CASE("depth is from black to white, with what they stand for in millimetres") {
    const Seen seen = picture_of(plane(0.1, 0), {.kind = Kind::depth, .slope = 2}, 0.05);
    CHECK(grey(seen, 0, 5) == 0);
    CHECK(grey(seen, 39, 5) == 255);
    REQUIRE(seen.scale);
    // 39 pixels at 0.1, twice: from -3.9 to 3.9; a pixel is 0.05 mm.
    CHECK(seen.scale->black == doctest::Approx(-3.9));
    CHECK(seen.scale->white == doctest::Approx(3.9));
    REQUIRE(seen.scale->white_mm);
    CHECK(*seen.scale->white_mm == doctest::Approx(0.195));
    CHECK(!picture_of(plane(0.1, 0), {.kind = Kind::depth}).scale->black_mm);
    CHECK(!picture_of(plane(0.1, 0), {.kind = Kind::depth, .contrast = 1}).scale);
}

TEST_CASE("local contrast brings a faint bump up wherever it stands") {
    Relief relief = plane(0, 0);
    relief.height = made_by(120, 60, [](double x, double y) {
        const auto bump = [&](double at, double high) {
            return high * std::exp(-((x - at) * (x - at) + (y - 30) * (y - 30)) / 20);
        };
        return bump(25, 0.2) + bump(95, 8);
    });
    const Seen plain = picture_of(relief, {.kind = Kind::depth});
    const Seen even = picture_of(relief, {.kind = Kind::depth, .contrast = 1, .radius = 8});
    const auto rise = [](const Seen& seen) { return grey(seen, 25, 30) - grey(seen, 25, 45); };
    CHECK(rise(plain) < 30);
    CHECK(rise(even) > 80);
}

TEST_CASE("a recipe comes back from its JSON, and what is not one is refused by name") {
    const View view{.kind = Kind::depth,
                    .light_from = 120,
                    .light_height = 12.5,
                    .slope = 3,
                    .turned_over = true,
                    .lean_right = -0.25,
                    .lean_down = 0.125,
                    .contrast = 0.75,
                    .radius = 40};
    const auto back = view_from_json(to_json(view));
    REQUIRE(back);
    CHECK(*back == view);
    CHECK(*view_from_json("{}") == View{});
    const auto said = [](const char* text) { return sentence_of(view_from_json(text)); };
    CHECK(said("[1]").find("JSON object") != std::string::npos);
    CHECK(said("{\"kind\": \"shiny\"}").find("lit, relief, depth or albedo") != std::string::npos);
    CHECK(said("{\"kind\": 3}").find("\"3\"") != std::string::npos);
    CHECK(said("{\"slope\": 0}").find("\"slope\" is a number from 0.05 to 20") !=
          std::string::npos);
    CHECK(said("{\"slope\": \"2\"}").find("\"slope\"") != std::string::npos);
    CHECK(said("{\"turned_over\": 1}").find("true or false") != std::string::npos);
    CHECK(said("{\"glow\": 1}").find("\"glow\"; known are") != std::string::npos);
    CHECK(sentence_of(check_view({.contrast = NAN})).find("\"contrast\"") != std::string::npos);
    CHECK(check_view({}));
}
