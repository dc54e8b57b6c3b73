// Nothing known of the lights: the relief up to what has to stay open.
#include "relief/height.h"
#include "relief/torch_scene.h"
#include "relief/torch_set.h"

#include <doctest/doctest.h>

#include <cmath>

using namespace relief_tests;

namespace {

Scene domed_scene(unsigned seed, double depth) {
    Scene scene{struck_shapes(160, depth, 6, seed), {}};
    std::mt19937 random(seed);
    scene.albedo = cloud(160, 160, 6, random);
    for (float& sample : scene.albedo.samples)
        sample = std::clamp(0.5F + 0.1F * sample, 0.15F, 0.9F);
    scene.shadows = true;
    scene.noise = 0.003;
    return scene;
}

// The factor by which found slopes are steeper than true ones, in the least squares.
double steeper(const Relief& relief, const Grid& height) {
    const Grid right = slope_x(height), down = slope_y(height);
    double both = 0, squares = 0;
    for (std::size_t at = 0; at < right.samples.size(); ++at) {
        both += double(right.samples[at] * relief.right.samples[at] +
                       down.samples[at] * relief.down.samples[at]);
        squares +=
            double(right.samples[at] * right.samples[at] + down.samples[at] * down.samples[at]);
    }
    return both / squares;
}

} // namespace

TEST_CASE("lights at several heights: shape, slope and lights come out without any ball") {
    const Scene scene = domed_scene(4, 6);
    const auto lights = ring_of_lights(12, {30, 45, 65});
    const auto shots = shots_of(scene, lights);
    const auto relief = relief_of(shots, std::vector<Pose>(12), whole(shots[0]), {});
    CAPTURE(sentence_of(relief));
    REQUIRE(relief);
    CHECK(!relief->lights_known);
    CHECK(relief->slope_settled);
    // Struck in, as the scene is.
    CHECK(correlation(levelled(relief->height), levelled(scene.height), 4) > 0.95);
    CHECK(steeper(*relief, scene.height) == doctest::Approx(1).epsilon(0.2));
    for (std::size_t k = 0; k < lights.size(); ++k) {
        CAPTURE(k);
        CHECK(degrees_between(relief->lights[k].towards, lights[k].towards) < 10);
    }
}

TEST_CASE("lights at one height: the shape comes out, and that its slope is open is said") {
    const Scene scene = domed_scene(11, 4);
    const auto lights = ring_of_lights(8, {40});
    const auto shots = shots_of(scene, lights);
    const auto relief = relief_of(shots, std::vector<Pose>(8), whole(shots[0]), {});
    CAPTURE(sentence_of(relief));
    REQUIRE(relief);
    CHECK(!relief->slope_settled);
    CHECK(correlation(levelled(relief->height), levelled(scene.height), 4) > 0.95);
    const double factor = steeper(*relief, scene.height);
    CHECK(factor > 0.4); // a torch is taken to stand at about 45 degrees
    CHECK(factor < 2.5);
}

TEST_CASE("turned over, what was struck in is raised and the lights stand opposite") {
    const Scene scene = domed_scene(4, 6);
    const auto lights = ring_of_lights(9, {35, 60});
    const auto shots = shots_of(scene, lights);
    auto relief = relief_of(shots, std::vector<Pose>(9), whole(shots[0]), directions(lights));
    REQUIRE(relief);
    const double side = side_of(relief->lights[0].towards);
    const float slope = relief->right.at(80, 80);
    turn_over(*relief);
    CHECK(relief->right.at(80, 80) == -slope);
    CHECK(side_of(relief->lights[0].towards) == doctest::Approx(side + 180));
    CHECK(correlation(relief->height, scene.height, 4) < -0.95);
}

TEST_CASE("photos that say nothing of the lights are refused in a sentence") {
    Scene flat{Grid(60, 60), Grid(60, 60, 0.5F)};
    const auto lights = ring_of_lights(6, {40});
    const auto shots = shots_of(flat, lights);
    const auto said = [](const std::vector<Shot>& of) {
        return sentence_of(relief_of(of, std::vector<Pose>(of.size()), whole(of[0]), std::nullopt));
    };
    CHECK(said(shots).find("shiny ball") == std::string::npos);
    CHECK(said(shots).find("differ too little") != std::string::npos);
    const auto same = shots_of(domed_scene(4, 6), std::vector<Light>(6, lights[1]));
    CHECK(said(same).find("move it all around") != std::string::npos);
    const std::vector<Shot> black(6, Shot{60, 60, std::vector<std::uint16_t>(3600, 40)});
    CHECK(said(black).find("Too little of the region is lit") != std::string::npos);
}
