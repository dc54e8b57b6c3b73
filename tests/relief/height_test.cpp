// Heights from slopes against closed forms.
#include "relief/height.h"
#include "relief/torch_scene.h"

#include <doctest/doctest.h>

#include <cmath>

using namespace relief_tests;

namespace {

double worst_off(const Grid& found, const Grid& wanted) {
    double mean = 0, worst = 0;
    for (std::size_t i = 0; i < wanted.samples.size(); ++i)
        mean += double(wanted.samples[i] - found.samples[i]) / double(wanted.samples.size());
    for (std::size_t i = 0; i < wanted.samples.size(); ++i)
        worst = std::max(worst, std::abs(double(wanted.samples[i] - found.samples[i]) - mean));
    return worst;
}

} // namespace

TEST_CASE("a paraboloid's slopes give the paraboloid, whatever the sizes") {
    // h = (x - a)^2 / 80 + (y - b)^2 / 50 + x y / 200: its slopes are linear, so that the mean of
    // two neighbours is the difference between them and heights are exact.
    for (const auto& [width, height] : {std::pair{64, 48}, {61, 47}, {2, 9}, {97, 101}}) {
        const auto h = [](double x, double y) {
            return (x - 20) * (x - 20) / 80 + (y - 30) * (y - 30) / 50 + x * y / 200;
        };
        const Grid right =
            made_by(width, height, [](double x, double y) { return (x - 20) / 40 + y / 200; });
        const Grid down =
            made_by(width, height, [](double x, double y) { return (y - 30) / 25 + x / 200; });
        const auto found = heights_of(right, down);
        REQUIRE(found);
        CAPTURE(width);
        CHECK(worst_off(*found, made_by(width, height, h)) < 2e-3);
    }
}

TEST_CASE("a sphere's cap comes back from its slopes") {
    // h = sqrt(R^2 - r^2), dh/dx = -x / h.
    const double radius = 100;
    const auto h = [&](double x, double y) {
        return std::sqrt(radius * radius - (x - 40) * (x - 40) - (y - 35) * (y - 35));
    };
    const Grid right = made_by(80, 72, [&](double x, double y) { return -(x - 40) / h(x, y); });
    const Grid down = made_by(80, 72, [&](double x, double y) { return -(y - 35) / h(x, y); });
    const auto found = heights_of(right, down);
    REQUIRE(found);
    CHECK(worst_off(*found, made_by(80, 72, h)) < 0.05); // of 20: chords against the curve
}

TEST_CASE("noise in slopes stays near: no row runs away from its neighbour") {
    std::mt19937 random(5);
    std::normal_distribution<double> noise(0, 0.1);
    const Grid wanted = made_by(
        120, 90, [](double x, double y) { return 3 * std::sin(x / 11) * std::cos(y / 13); });
    Grid right = slope_x(wanted), down = slope_y(wanted);
    for (Grid* grid : {&right, &down})
        for (float& sample : grid->samples)
            sample += float(noise(random));
    const auto found = heights_of(right, down);
    REQUIRE(found);
    CHECK(correlation(*found, wanted) > 0.99);
    CHECK(worst_off(*found, wanted) < 0.7); // summed along rows it would come to several
}

TEST_CASE("level means without the nearest plane") {
    const Grid bump = made_by(50, 40, [](double x, double y) {
        return std::exp(-((x - 24.5) * (x - 24.5) + (y - 19.5) * (y - 19.5)) / 30);
    });
    Grid leaning = bump;
    for (int y = 0; y < 40; ++y)
        for (int x = 0; x < 50; ++x)
            leaning.at(x, y) += float(0.3 * x - 0.2 * y + 7);
    CHECK(worst_off(levelled(leaning), bump) < 1e-4); // the bump is even about the middle
}

TEST_CASE("slopes of two sizes or of one line give no heights, nor does a stopped work") {
    CHECK(sentence_of(heights_of(Grid(5, 5), Grid(5, 6))).find("two sizes") != std::string::npos);
    CHECK(sentence_of(heights_of(Grid(1, 5), Grid(1, 5))).find("1 by 5") != std::string::npos);
    std::stop_source source;
    source.request_stop();
    const auto ended = heights_of(Grid(50, 50), Grid(50, 50), {.stop = source.get_token()});
    REQUIRE(!ended);
    CHECK(ended.failure().kind == FailureKind::cancelled);
}
