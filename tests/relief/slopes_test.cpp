// Slopes and albedo from photos under known lights.
#include "relief/torch_scene.h"
#include "relief/torch_set.h"

#include <doctest/doctest.h>

#include <cmath>

using namespace relief_tests;

namespace {

Scene plain_scene(Grid height, double albedo) {
    Scene scene{std::move(height), {}};
    scene.albedo = Grid(scene.height.width, scene.height.height, float(albedo));
    return scene;
}

Result<Slopes> slopes_by(const std::vector<Shot>& shots, const std::vector<Light>& lights) {
    return slopes_of(shots, lights, std::vector<Pose>(shots.size()), whole(shots[0]));
}

} // namespace

TEST_CASE("a sphere's normals come out as its geometry says") {
    // The normal of a sphere is where the point stands from its middle, over the radius.
    const double radius = 70;
    const auto lift = [&](double x, double y) {
        return std::sqrt(radius * radius - (x - 40) * (x - 40) - (y - 40) * (y - 40));
    };
    Scene scene = plain_scene(made_by(81, 81, lift), 0.6);
    scene.exposure = 1;
    scene.shadows = false;
    const auto lights = ring_of_lights(8, {50, 65});
    const auto slopes = slopes_by(shots_of(scene, lights), lights);
    REQUIRE(slopes);
    for (const auto& [x, y] : {std::pair{40, 40}, {20, 40}, {55, 25}, {40, 66}}) {
        const Direction wanted{(x - 40) / radius, (y - 40) / radius, lift(x, y) / radius};
        const double off = degrees_between(
            {-double(slopes->right.at(x, y)), -double(slopes->down.at(x, y)), 1}, wanted);
        CAPTURE(x);
        CHECK(off < 0.6); // eight bits of light
        CHECK(slopes->albedo.at(x, y) == doctest::Approx(0.6).epsilon(0.02));
    }
    CHECK(slopes->readings.all == 81u * 81 * 8);
}

TEST_CASE("three lights are enough by Woodham's equations, a fourth agrees") {
    // A plane of slopes 0.2 and -0.1 under lights along the axes of a cube's corner: readings are
    // albedo times the cosines, worked here by hand, and put in without any rendering.
    const double right = 0.2, down = -0.1, size = std::sqrt(1 + right * right + down * down);
    const std::vector<Light> lights = {{direction_of(0, 45), 1},
                                       {direction_of(120, 45), 1},
                                       {direction_of(240, 45), 1},
                                       {{0, 0, 1}, 1}};
    std::vector<Shot> shots;
    for (const Light& light : lights) {
        const double cosine =
            (-right * light.towards.x - down * light.towards.y + light.towards.z) / size;
        shots.push_back(
            {4, 3, std::vector<std::uint16_t>(12, std::uint16_t(0.5 * cosine * 65535))});
    }
    const auto slopes = slopes_by(shots, lights);
    REQUIRE(slopes);
    CHECK(slopes->right.at(1, 1) == doctest::Approx(0.2).epsilon(0.001));
    CHECK(slopes->down.at(1, 1) == doctest::Approx(-0.1).epsilon(0.001));
    CHECK(slopes->albedo.at(2, 2) == doctest::Approx(0.5).epsilon(0.001));
    CHECK(slopes->readings.dropped() == 0);
}

TEST_CASE(
    "a stamping with shadows, glints, stains and noise: normals within 5 degrees at the median") {
    Scene scene{struck_shapes(160, 5, 3.5, 4), {}};
    std::mt19937 random(8);
    scene.albedo = cloud(160, 160, 6, random);
    for (float& sample : scene.albedo.samples)
        sample = std::clamp(0.45F + 0.15F * sample, 0.1F, 0.9F);
    scene.glint = 0.8;
    scene.noise = 0.01;
    const auto lights = ring_of_lights(12, {25, 40, 55});
    const auto shots = shots_of(scene, lights);
    const auto slopes = slopes_by(shots, lights);
    REQUIRE(slopes);
    const auto off = normals_off(slopes->right, slopes->down, scene.height);
    CHECK(quantile(off, 0.5) < 2);
    CHECK(quantile(off, 0.95) < 12);
    CHECK(slopes->readings.dark > 1000);
    CHECK(slopes->readings.bright > 1000);
    CHECK(correlation(slopes->albedo, scene.albedo, 3) > 0.9);
    // Every reading taken as it is (least squares over all) does worse: what is dropped is worth
    // it.
    std::vector<float> plain;
    const Grid true_right = slope_x(scene.height), true_down = slope_y(scene.height);
    for (int y = 3; y < 157; ++y)
        for (int x = 3; x < 157; ++x) {
            Direction sum{};
            // A ring of lights at each height: the sums of products are diagonal, so that the least
            // squares come to weighed sums.
            double flat = 0, up = 0;
            for (std::size_t k = 0; k < lights.size(); ++k) {
                const double reading = double(shots[k].at(x, y)) / 65535;
                const Direction& l = lights[k].towards;
                sum = {sum.x + reading * l.x, sum.y + reading * l.y, sum.z + reading * l.z};
                flat += (l.x * l.x + l.y * l.y) / 2, up += l.z * l.z;
            }
            plain.push_back(float(
                degrees_between({sum.x / flat, sum.y / flat, sum.z / up},
                                {-double(true_right.at(x, y)), -double(true_down.at(x, y)), 1})));
        }
    CHECK(quantile(plain, 0.95) > 1.5F * quantile(off, 0.95));
}

TEST_CASE("readings at their limit are left out and counted") {
    Scene scene = plain_scene(struck_shapes(64, 2, 3, 2), 0.7);
    const auto lights = ring_of_lights(8, {30, 60});
    auto shots = shots_of(scene, lights);
    for (int y = 20; y < 40; ++y) // a stray light in one photo
        for (int x = 20; x < 40; ++x)
            shots[2].light[std::size_t(y) * 64 + x] = kClipped;
    const auto slopes = slopes_by(shots, lights);
    REQUIRE(slopes);
    CHECK(slopes->readings.clipped >= 400);
    CHECK(slopes->readings.clipped < 500); // and its neighbours: readings lie between pixels
    CHECK(quantile(normals_off(slopes->right, slopes->down, scene.height), 0.99) < 5);
}

TEST_CASE("lights of unlike strengths are told apart where their directions are known") {
    Scene scene = plain_scene(struck_shapes(120, 3, 4, 6), 0.5);
    auto lights = ring_of_lights(9, {30, 45, 60});
    const std::vector<double> strengths = {1.3, 0.7, 1.0, 1.1, 0.8, 1.2, 0.9, 1.05, 0.95};
    for (std::size_t k = 0; k < lights.size(); ++k)
        lights[k].strength = strengths[k];
    const auto shots = shots_of(scene, lights);
    const auto relief = relief_of(shots, std::vector<Pose>(9), whole(shots[0]), directions(lights));
    REQUIRE(relief);
    for (std::size_t k = 0; k < lights.size(); ++k) {
        CAPTURE(k);
        CHECK(relief->lights[k].strength == doctest::Approx(strengths[k]).epsilon(0.03));
    }
    CHECK(quantile(normals_off(relief->right, relief->down, scene.height), 0.5) < 1.5);
    CHECK(correlation(relief->height, scene.height, 5) > 0.98);
}

TEST_CASE("what is no set is refused in a sentence") {
    const Scene scene = plain_scene(Grid(40, 30), 0.5);
    const auto lights = ring_of_lights(5, {40});
    const auto shots = shots_of(scene, lights);
    const std::vector<Pose> poses(5);
    const auto said = [&](std::span<const Shot> some, std::span<const Light> of, Rectangle part) {
        return sentence_of(slopes_of(some, of, std::vector<Pose>(some.size()), part));
    };
    CHECK(said(std::span(shots).first(3), std::span(lights).first(3), {0, 0, 40, 30})
              .find("4 to 24 photos, not of 3") != std::string::npos);
    CHECK(said(shots, std::span(lights).first(4), {0, 0, 40, 30}).find("lights of 4") !=
          std::string::npos);
    CHECK(said(shots, lights, {10, 0, 31, 30}).find("10,0,31,30") != std::string::npos);
    std::vector<Light> one_side(5, Light{direction_of(90, 40), 1});
    CHECK(said(shots, one_side, {0, 0, 40, 30}).find("one side") != std::string::npos);
    std::stop_source source;
    source.request_stop();
    const auto ended =
        slopes_of(shots, lights, poses, {0, 0, 40, 30}, {.stop = source.get_token()});
    REQUIRE(!ended);
    CHECK(ended.failure().kind == FailureKind::cancelled);
}
