// The tests' own photographs: surfaces of known height under known lights, as a camera would see
// them from straight above. Shares no formula with the room but the axes: light is Lambert's cosine
// plus a glint about the mirrored direction, shadows are looked for step by step towards the light.
#pragma once

#include "relief/ball.h"
#include "relief/slopes.h"

#include <functional>
#include <optional>
#include <random>
#include <string>
#include <vector>

namespace relief_tests {

using namespace fettle;
using namespace fettle::relief;

struct Scene {
    Grid height, albedo;    // of the reference's pixels
    double glint = 0;       // strength of the mirrored light
    double glint_wide = 12; // degrees
    double noise = 0;       // standard deviation, of full light
    double exposure = 0.9;  // a white surface under a square light of strength 1
    bool shadows = true;
    std::optional<Ball> ball = {};
};

// What a camera would write, red, green and blue alike: sRGB, eight bits.
std::vector<std::byte> photographed(const Scene& scene, const Light& light, const Pose& camera,
                                    unsigned seed);
std::vector<Shot> shots_of(const Scene& scene, const std::vector<Light>& lights,
                           const std::vector<Pose>& cameras = {}, unsigned seed = 1);

// All around, in turn at each of these heights above the part.
std::vector<Light> ring_of_lights(int count, const std::vector<double>& heights,
                                  double first_side = 10);
std::vector<Direction> directions(const std::vector<Light>& lights);

Grid made_by(int width, int height, const std::function<double(double x, double y)>& value);
// Smoothed noise with a deviation of 1.
Grid cloud(int width, int height, double sigma, std::mt19937& random);
// A stamping's like: grooves and pits of all directions in level ground, so deep, edges so wide.
Grid struck_shapes(int side, double depth, double wide, unsigned seed);

// Degrees between the normals of slopes and those of a height, at each pixel `border` off the
// edges.
std::vector<float> normals_off(const Grid& right, const Grid& down, const Grid& height,
                               int border = 3);
double correlation(const Grid& one, const Grid& other, int border = 0);
Rectangle whole(const Shot& shot);

template <class T>
std::string sentence_of(const Result<T>& result) {
    return result ? std::string() : result.failure().sentence;
}

} // namespace relief_tests
