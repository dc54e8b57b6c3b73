// Laying photos on each other whose light is not the same.
#include "relief/align.h"
#include "relief/torch_scene.h"

#include <doctest/doctest.h>

#include <cmath>

using namespace relief_tests;

namespace {

Scene stained_scene(unsigned seed) {
    Scene scene{struck_shapes(240, 3, 3.5, seed), {}};
    std::mt19937 random(seed);
    scene.albedo = cloud(240, 240, 3, random);
    for (float& sample : scene.albedo.samples)
        sample = std::clamp(0.5F + 0.08F * sample, 0.1F, 0.9F);
    scene.noise = 0.006;
    return scene;
}

// How far at worst a point of the picture's middle half lands from where it should.
double worst_miss(const Pose& found, const Pose& wanted, int side) {
    const double middle = (side - 1) / 2.0;
    const PoseMap a(found, middle, middle), b(wanted, middle, middle);
    double worst = 0;
    for (const double u : {side * 0.25, side * 0.75})
        for (const double v : {side * 0.25, side * 0.75}) {
            const Point one = a(u, v), other = b(u, v);
            worst = std::max(worst, std::hypot(one.x - other.x, one.y - other.y));
        }
    return worst;
}

} // namespace

TEST_CASE("shifts between photos of one set are found within a tenth of a pixel or so") {
    const auto lights = ring_of_lights(8, {30, 45});
    const std::vector<Pose> cameras = {{},          {2.4, -1.7}, {-3.1, 0.35}, {0.5, 0.5},
                                       {7.25, 4.8}, {-0.2, 0.9}, {-6.6, -8.4}, {1.1, -2.2}};
    const auto shots = shots_of(stained_scene(3), lights, cameras);
    const auto poses = aligned(shots, Freedom::shift);
    CAPTURE(sentence_of(poses));
    REQUIRE(poses);
    std::vector<float> off;
    for (std::size_t k = 0; k < shots.size(); ++k) {
        CAPTURE(k);
        off.push_back(
            float(std::hypot((*poses)[k].x - cameras[k].x, (*poses)[k].y - cameras[k].y)));
        CHECK(off.back() < 0.2F);
    }
    CHECK(quantile(off, 0.5) < 0.1F);
}

TEST_CASE("small turns and sizes are found with the shift") {
    const auto lights = ring_of_lights(6, {35, 50});
    const std::vector<Pose> cameras = {{},
                                       {3.2, -1.4, 0.008, 1.004},
                                       {-2.1, 2.6, -0.012, 0.996},
                                       {0.4, 5.5, 0.015, 1.0},
                                       {-4.0, -0.7, 0, 1.01},
                                       {1.5, 1.5, -0.005, 0.99}};
    const auto shots = shots_of(stained_scene(5), lights, cameras);
    const auto poses = aligned(shots, Freedom::similarity);
    CAPTURE(sentence_of(poses));
    REQUIRE(poses);
    for (std::size_t k = 0; k < shots.size(); ++k) {
        CAPTURE(k);
        CHECK(worst_miss((*poses)[k], cameras[k], 240) < 0.5);
    }
}

TEST_CASE("large photos are laid on each other in small, and shifts count in their own pixels") {
    // A picture of 2100 pixels is worked at 700: each pixel of a small scene three times.
    const auto small =
        shots_of(stained_scene(7), ring_of_lights(4, {40}), {{}, {2, 1}, {-1, 2}, {0, -2}});
    std::vector<Shot> large;
    for (const Shot& shot : small) {
        Shot big{1200, 1200, std::vector<std::uint16_t>(1200u * 1200)};
        for (int y = 0; y < 1200; ++y)
            for (int x = 0; x < 1200; ++x)
                big.light[std::size_t(y) * 1200 + x] = shot.at(x / 5, y / 5);
        large.push_back(std::move(big));
    }
    const auto poses = aligned(large, Freedom::shift);
    REQUIRE(poses);
    CHECK(std::abs((*poses)[1].x - 10) < 0.7);
    CHECK(std::abs((*poses)[1].y - 5) < 0.7);
    CHECK(std::abs((*poses)[3].y + 10) < 1);
}

TEST_CASE("a photo of something else or of another size is named") {
    const auto lights = ring_of_lights(4, {40});
    auto shots = shots_of(stained_scene(3), lights);
    const auto others = shots_of(stained_scene(77), lights);
    auto mixed = shots;
    mixed[2] = others[2];
    const auto refused = aligned(mixed, Freedom::shift);
    REQUIRE(!refused);
    CHECK(refused.failure().sentence.find("Photo 3 cannot be laid") == 0);
    shots[3] = cut_out(shots[3], {0, 0, 200, 240});
    CHECK(sentence_of(aligned(shots, Freedom::shift)).find("Photo 4 is 200 by 240 pixels") == 0);
    std::stop_source source;
    source.request_stop();
    const auto ended = aligned(others, Freedom::shift, {.stop = source.get_token()});
    REQUIRE(!ended);
    CHECK(ended.failure().kind == FailureKind::cancelled);
}

TEST_CASE("poses are undone, shrunk and enlarged without moving a point") {
    const Pose pose{3.5, -2.25, 0.1, 1.05};
    const Grid size(101, 76);
    const Pose again = enlarged(reduced(pose, size, 4), size, 4);
    CHECK(again.x == doctest::Approx(pose.x));
    CHECK(again.y == doctest::Approx(pose.y));
    const PoseMap there(pose, 50, 37.5), back(relative({}, pose), 50, 37.5);
    const Point at = there(12, 60), home = back(at.x, at.y);
    CHECK(home.x == doctest::Approx(12));
    CHECK(home.y == doctest::Approx(60));
}
