#include "relief/torch_scene.h"

#include "relief/register.h"

#include <algorithm>
#include <cmath>

namespace relief_tests {
namespace {

std::byte as_code(double light) {
    const double share = std::clamp(light, 0.0, 1.0);
    const double code =
        share <= 0.0031308 ? 12.92 * share : 1.055 * std::pow(share, 1 / 2.4) - 0.055;
    return std::byte(std::lround(255 * code));
}

bool in_shadow(const Grid& height, double x, double y, const Direction& light, double highest) {
    const double flat = std::hypot(light.x, light.y), rise = light.z / std::max(1e-9, flat);
    if (flat < 1e-6) return false;
    const double here = double(sampled(height, x, y));
    for (double far = 1; far < 80 && here + far * rise < highest; far += 0.7)
        if (double(sampled(height, x + far * light.x / flat, y + far * light.y / flat)) >
            here + far * rise + 0.02)
            return true;
    return false;
}

// Matt, and about the mirrored direction a glint.
double surface_light(const Scene& scene, const Light& light, double x, double y, double highest) {
    const double right =
        (double(sampled(scene.height, x + 1, y)) - double(sampled(scene.height, x - 1, y))) / 2;
    const double down =
        (double(sampled(scene.height, x, y + 1)) - double(sampled(scene.height, x, y - 1))) / 2;
    const double size = std::sqrt(1 + right * right + down * down);
    const Direction normal{-right / size, -down / size, 1 / size};
    const Direction& l = light.towards;
    const double cosine = normal.x * l.x + normal.y * l.y + normal.z * l.z;
    if (cosine <= 0) return 0;
    if (scene.shadows && in_shadow(scene.height, x, y, l, highest)) return 0;
    double seen = double(sampled(scene.albedo, x, y)) * cosine;
    if (scene.glint > 0) {
        const Direction mirrored{2 * cosine * normal.x - l.x, 2 * cosine * normal.y - l.y,
                                 2 * cosine * normal.z - l.z};
        const double off = degrees_between(mirrored, {0, 0, 1}) / scene.glint_wide;
        seen += scene.glint * std::exp(-off * off / 2);
    }
    return seen * light.strength;
}

// Dark and shiny.
double ball_light(const Ball& ball, const Light& light, double x, double y) {
    const double u = (x - ball.x) / ball.radius, v = (y - ball.y) / ball.radius;
    const double w = std::sqrt(std::max(0.0, 1 - u * u - v * v));
    const Direction mirrored{2 * w * u, 2 * w * v, 2 * w * w - 1};
    const double off = degrees_between(mirrored, light.towards) / 4;
    const double cosine = u * light.towards.x + v * light.towards.y + w * light.towards.z;
    return light.strength * (0.02 + 0.03 * std::max(0.0, cosine) + 2 * std::exp(-off * off / 2));
}

} // namespace

std::vector<std::byte> photographed(const Scene& scene, const Light& light, const Pose& camera,
                                    unsigned seed) {
    const int width = scene.height.width, height = scene.height.height;
    const PoseMap back(relative({}, camera), (width - 1) / 2.0, (height - 1) / 2.0);
    const double highest = double(*std::ranges::max_element(scene.height.samples));
    std::mt19937 random(seed);
    std::normal_distribution<double> noise(0, std::max(1e-12, scene.noise));
    std::vector<std::byte> rgba;
    rgba.reserve(std::size_t(width) * height * 4);
    for (int v = 0; v < height; ++v)
        for (int u = 0; u < width; ++u) {
            const Point at = back(u, v);
            const bool on_ball =
                scene.ball &&
                std::hypot(at.x - scene.ball->x, at.y - scene.ball->y) < scene.ball->radius;
            double seen = on_ball ? ball_light(*scene.ball, light, at.x, at.y)
                                  : surface_light(scene, light, at.x, at.y, highest);
            seen = scene.exposure * seen + (scene.noise > 0 ? noise(random) : 0);
            for (int colour = 0; colour < 3; ++colour)
                rgba.push_back(as_code(seen));
            rgba.push_back(std::byte(255));
        }
    return rgba;
}

std::vector<Shot> shots_of(const Scene& scene, const std::vector<Light>& lights,
                           const std::vector<Pose>& cameras, unsigned seed) {
    std::vector<Shot> shots;
    for (std::size_t k = 0; k < lights.size(); ++k)
        shots.push_back(
            shot_of(photographed(scene, lights[k], k < cameras.size() ? cameras[k] : Pose{},
                                 seed * 1000 + unsigned(k)),
                    scene.height.width, scene.height.height));
    return shots;
}

std::vector<Light> ring_of_lights(int count, const std::vector<double>& heights,
                                  double first_side) {
    std::vector<Light> lights;
    for (int k = 0; k < count; ++k)
        lights.push_back(
            {direction_of(first_side + 360.0 * k / count, heights[std::size_t(k) % heights.size()]),
             1});
    return lights;
}

std::vector<Direction> directions(const std::vector<Light>& lights) {
    std::vector<Direction> all;
    for (const Light& light : lights)
        all.push_back(light.towards);
    return all;
}

Grid made_by(int width, int height, const std::function<double(double, double)>& value) {
    Grid grid(width, height);
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x)
            grid.at(x, y) = float(value(x, y));
    return grid;
}

Grid cloud(int width, int height, double sigma, std::mt19937& random) {
    std::normal_distribution<float> noise;
    Grid grid(width, height);
    for (float& sample : grid.samples)
        sample = noise(random);
    grid = smoothed(grid, sigma);
    double sum = 0, squares = 0;
    for (const float sample : grid.samples)
        sum += double(sample), squares += double(sample) * double(sample);
    const double count = double(grid.samples.size());
    const double deviation = std::sqrt(squares / count - sum * sum / count / count);
    for (float& sample : grid.samples)
        sample = float((double(sample) - sum / count) / deviation);
    return grid;
}

Grid struck_shapes(int side, double depth, double wide, unsigned seed) {
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> place(0.15 * side, 0.85 * side),
        turn(0, std::numbers::pi);
    std::uniform_real_distribution<double> length(0.05 * side, 0.16 * side);
    struct Stroke {
        double x, y, along_x, along_y, half;
    };
    std::vector<Stroke> strokes;
    for (int i = 0; i < 14; ++i) {
        const double angle = turn(random);
        strokes.push_back(
            {place(random), place(random), std::cos(angle), std::sin(angle), length(random)});
    }
    return made_by(side, side, [&](double x, double y) {
        double nearest = 1e9;
        for (const Stroke& stroke : strokes) {
            const double u = x - stroke.x, v = y - stroke.y;
            const double along =
                std::clamp(u * stroke.along_x + v * stroke.along_y, -stroke.half, stroke.half);
            nearest = std::min(nearest,
                               std::hypot(u - along * stroke.along_x, v - along * stroke.along_y));
        }
        return -depth * std::exp(-nearest * nearest / (2 * wide * wide));
    });
}

std::vector<float> normals_off(const Grid& right, const Grid& down, const Grid& height,
                               int border) {
    const Grid true_right = slope_x(height), true_down = slope_y(height);
    std::vector<float> off;
    for (int y = border; y < height.height - border; ++y)
        for (int x = border; x < height.width - border; ++x)
            off.push_back(float(
                degrees_between({-double(right.at(x, y)), -double(down.at(x, y)), 1},
                                {-double(true_right.at(x, y)), -double(true_down.at(x, y)), 1})));
    return off;
}

double correlation(const Grid& one, const Grid& other, int border) {
    double n = 0, a = 0, b = 0, aa = 0, bb = 0, ab = 0;
    for (int y = border; y < one.height - border; ++y)
        for (int x = border; x < one.width - border; ++x) {
            const double u = double(one.at(x, y)), v = double(other.at(x, y));
            ++n, a += u, b += v, aa += u * u, bb += v * v, ab += u * v;
        }
    return (ab - a * b / n) / std::sqrt((aa - a * a / n) * (bb - b * b / n));
}

Rectangle whole(const Shot& shot) {
    return {0, 0, shot.width, shot.height};
}

} // namespace relief_tests
