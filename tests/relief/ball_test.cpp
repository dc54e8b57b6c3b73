// Lights by the highlight on a ball: against the renderer's own mirror, whose light is known.
#include "relief/torch_scene.h"

#include <doctest/doctest.h>

#include <cmath>

using namespace relief_tests;

namespace {

Scene with_ball(const Ball& ball) {
    Scene scene{struck_shapes(220, 3, 3, 9), {}};
    std::mt19937 random(2);
    scene.albedo = cloud(220, 220, 5, random);
    for (float& sample : scene.albedo.samples)
        sample = std::clamp(0.5F + 0.12F * sample, 0.1F, 0.9F);
    scene.ball = ball;
    scene.noise = 0.005;
    return scene;
}

std::vector<Grid> lights_in(const std::vector<Shot>& shots) {
    std::vector<Grid> all;
    for (const Shot& shot : shots)
        all.push_back(light_of(shot));
    return all;
}

} // namespace

TEST_CASE("the highlight of a ball tells where the light came from, within a degree and a half") {
    const Ball ball{60.3, 52.6, 34};
    const auto lights = ring_of_lights(10, {20, 40, 60, 80});
    const auto seen = lights_in(shots_of(with_ball(ball), lights));
    for (std::size_t k = 0; k < seen.size(); ++k) {
        const auto found = light_from_ball({seen[k], ball}, k);
        CAPTURE(sentence_of(found));
        REQUIRE(found);
        CAPTURE(k);
        CHECK(degrees_between(*found, lights[k].towards) < 1.5);
    }
}

TEST_CASE(
    "straight above the highlight is in the middle, at 30 degrees where the halved angle says") {
    // n halves the angle between light and camera: at a height of 30 degrees it leans by 30, so the
    // highlight stands at sin 30 = half the radius.
    const Ball ball{100, 100, 60};
    Scene scene = with_ball(ball);
    for (const auto& [above, off] : {std::pair{90.0, 0.0}, {30.0, 30.0}}) {
        const auto seen = lights_in(shots_of(scene, {{direction_of(90, above), 1}}));
        const auto spot = highlight_of({seen[0], ball}, 0);
        REQUIRE(spot);
        CHECK(std::abs(spot->x - (100 + off)) < 0.6);
        CHECK(std::abs(spot->y - 100) < 0.6);
    }
}

TEST_CASE("a ball beside the part is found, and none where there is none") {
    const Ball ball{150.4, 61.7, 30.5};
    const auto lights = ring_of_lights(8, {30, 50});
    const auto seen = lights_in(shots_of(with_ball(ball), lights));
    const auto found = find_ball(seen);
    CAPTURE(sentence_of(found));
    REQUIRE(found);
    CHECK(std::hypot(found->x - ball.x, found->y - ball.y) < 0.8);
    CHECK(std::abs(found->radius - ball.radius) < 1.2);
    Scene without = with_ball(ball);
    without.ball.reset();
    const auto none = find_ball(lights_in(shots_of(without, lights)));
    REQUIRE(!none);
    CHECK(none.failure().kind == FailureKind::not_found);
    std::stop_source source;
    source.request_stop();
    CHECK(find_ball(seen, {.stop = source.get_token()}).failure().kind == FailureKind::cancelled);
}

TEST_CASE("a ball that tells nothing is refused by the number of its photo") {
    const Ball ball{60, 60, 30};
    const Scene scene = with_ball(ball);
    const auto seen = lights_in(shots_of(scene, {{direction_of(45, 45), 1}}));
    const auto said = [&](const Grid& light, const Ball& of) {
        return sentence_of(light_from_ball({light, of}, 4));
    };
    CHECK(said(seen[0], {60, 60, 5}).find("Photo 5: the ball's radius is 5 pixels") == 0);
    CHECK(said(seen[0], {10, 60, 30}).find("does not lie within") != std::string::npos);
    CHECK(said(Grid(120, 120, 0.4F), ball).find("no highlight") != std::string::npos);
    Grid wide(120, 120, 0.05F);
    for (int y = 40; y < 80; ++y)
        for (int x = 40; x < 70; ++x)
            wide.at(x, y) = 0.9F;
    CHECK(said(wide, ball).find("more than an eighth") != std::string::npos);
}
