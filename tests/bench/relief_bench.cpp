// What a torch set costs: 16 photos of a region of 2000 by 2000 pixels by two threads, each step,
// and the whole beside a plain least-squares pass over the same readings by one thread.
#include "relief/align.h"
#include "relief/height.h"
#include "relief/slopes.h"

#include <Eigen/Dense>
#include <benchmark/benchmark.h>

#include <cmath>
#include <random>

namespace {

using namespace fettle::relief;

constexpr int kSide = 2000, kPhotos = 16;
const Work kTwo{.threads = 2};

std::vector<Light> lamps() {
    std::vector<Light> all;
    for (int k = 0; k < kPhotos; ++k)
        all.push_back({direction_of(360.0 * k / kPhotos, 25 + 12 * (k % 3)), 1});
    return all;
}

// Grooves in stained ground, one reading in ten spoilt by a shadow or a glint.
const std::vector<Shot>& photographs() {
    static const std::vector<Shot> all = [] {
        std::mt19937 random(1);
        std::vector<Shot> shots;
        for (const auto& [towards, strength] : lamps()) {
            Shot shot{kSide, kSide, {}};
            shot.light.reserve(std::size_t(kSide) * kSide);
            for (int y = 0; y < kSide; ++y)
                for (int x = 0; x < kSide; ++x) {
                    const double right = 0.3 * std::sin(x / 9.0) * std::cos(y / 31.0);
                    const double down = 0.3 * std::cos(x / 27.0) * std::sin(y / 11.0);
                    const double albedo = 0.4 + 0.2 * std::sin(x / 50.0 + std::cos(y / 17.0));
                    double light = albedo * (towards.z - towards.x * right - towards.y * down);
                    if (const auto spoilt = random() % 20; spoilt < 2)
                        light = spoilt == 0 ? 0.01 : 0.95;
                    light += double(random() % 256) / 25600;
                    shot.light.push_back(std::uint16_t(65000 * std::clamp(light, 0.0, 1.0)));
                }
            shots.push_back(std::move(shot));
        }
        return shots;
    }();
    return all;
}

void plain_least_squares_one_thread(benchmark::State& state) {
    Eigen::MatrixXf lights(kPhotos, 3);
    const auto all = lamps();
    for (int k = 0; k < kPhotos; ++k)
        lights.row(k) << float(all[k].towards.x), float(all[k].towards.y), float(all[k].towards.z);
    const Eigen::Matrix<float, 3, Eigen::Dynamic> share =
        (lights.transpose() * lights).inverse() * lights.transpose();
    const auto& shots = photographs();
    for (auto _ : state) {
        Grid right(kSide, kSide), down(kSide, kSide);
        for (std::size_t at = 0; at < right.samples.size(); ++at) {
            Eigen::Vector3f answer = Eigen::Vector3f::Zero();
            for (int k = 0; k < kPhotos; ++k)
                answer += share.col(k) * (float(shots[k].light[at]) / 65535);
            right.samples[at] = -answer.x() / answer.z();
            down.samples[at] = -answer.y() / answer.z();
        }
        benchmark::DoNotOptimize(right.samples.data());
        benchmark::DoNotOptimize(down.samples.data());
    }
}

void photos_laid_on_each_other(benchmark::State& state) {
    for (auto _ : state)
        benchmark::DoNotOptimize(aligned(photographs(), Freedom::shift, kTwo));
}

void slopes_and_albedo(benchmark::State& state) {
    const std::vector<Pose> poses(kPhotos, Pose{0.3, 0.4, 0, 1});
    for (auto _ : state)
        benchmark::DoNotOptimize(
            slopes_of(photographs(), lamps(), poses, {0, 0, kSide, kSide}, kTwo));
}

void heights(benchmark::State& state) {
    Grid right(kSide, kSide), down(kSide, kSide);
    for (int y = 0; y < kSide; ++y)
        for (int x = 0; x < kSide; ++x)
            right.at(x, y) = std::sin(float(x) / 9), down.at(x, y) = std::cos(float(y) / 9);
    for (auto _ : state)
        benchmark::DoNotOptimize(heights_of(right, down, kTwo));
}

BENCHMARK(plain_least_squares_one_thread)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(photos_laid_on_each_other)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(slopes_and_albedo)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(heights)->Unit(benchmark::kMillisecond)->UseRealTime();

} // namespace

BENCHMARK_MAIN();
