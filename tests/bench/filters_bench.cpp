// What making a stamping legible costs: each filter over two megapixels, as much as is on the
// screen, beside reading and writing the same picture once, and all of them together.
#include "photos/stamp_filters.h"

#include <benchmark/benchmark.h>

#include <random>

namespace {

using namespace fettle::photos;

Picture two_megapixels() {
    Picture picture{1920, 1080, {}};
    std::mt19937 random(1);
    picture.rgba.resize(std::size_t(picture.width) * picture.height * 4);
    for (std::byte& byte : picture.rgba)
        byte = std::byte(random() & 255);
    return picture;
}

void brightness_and_back(benchmark::State& state) {
    const Picture picture = two_megapixels();
    for (auto _ : state)
        benchmark::DoNotOptimize(grey_picture(brightness_of(picture)).rgba.data());
}

void with(benchmark::State& state, const StampFilters& filters) {
    const Picture picture = two_megapixels();
    for (auto _ : state)
        benchmark::DoNotOptimize(filtered(picture, filters).rgba.data());
}

BENCHMARK(brightness_and_back)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(with, flatten, StampFilters{.flatten = 1})->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(with, contrast, StampFilters{.contrast = 1})->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(with, relief, StampFilters{.relief = 1})->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(with, sharpen, StampFilters{.sharpen = 1})->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(with, all,
                  StampFilters{
                      .flatten = 1, .contrast = 1, .relief = 1, .sharpen = 1, .invert = true})
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(with, all_wide,
                  StampFilters{.flatten = 1,
                               .contrast = 1,
                               .relief = 1,
                               .sharpen = 1,
                               .invert = true,
                               .radius = kMostRadius})
    ->Unit(benchmark::kMillisecond);

} // namespace

BENCHMARK_MAIN();
