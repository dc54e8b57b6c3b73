// What a photo of 108 megapixels costs: cutting it into tiles once, and the window's work for each
// frame while it is moved about, everything drawn but nothing painted (headless).
#include "bench/photo_files.h"
#include "desk/take_in.h"
#include "notebook/photos.h"
#include "photos/tile_cache.h"
#include "temp_folder.h"
#include "ui/frame/headless.h"
#include "ui/pictures/pixels.h"
#include "ui/screens/photos/photos.h"

#include <benchmark/benchmark.h>

#include <algorithm>
#include <chrono>
#include <cmath>

namespace {

using namespace fettle;
using namespace fettle::ui;
using benchmarks::must;
using benchmarks::resident_mib;
using benchmarks::write_photo;

constexpr int kWidth = 12000, kHeight = 9000;

struct Bench {
    TempFolder folder;
    Notebook book = must(Notebook::create(folder / "book", "Drover"));
    PhotoId id;

    Bench() {
        write_photo(folder / "large.jpg", kWidth, kHeight);
        const auto report = must(
            desk::take_in(book, {.paths = {folder / "large.jpg"}, .in_place = true, .workers = 1}));
        id = report.taken.at(0);
    }
    static Bench& only() {
        static Bench bench;
        return bench;
    }
};

void cut(benchmark::State& state) {
    Bench& bench = Bench::only();
    const Photo photo = must(photo_by_id(bench.book, bench.id));
    photos::Decoder decoder;
    for (auto _ : state) {
        must(decoder.cut(photo_file(bench.book, photo), bench.folder / "tiles"));
        std::filesystem::remove(bench.folder / "tiles"); // it is cut into a new file alone
    }
}

void pan(benchmark::State& state) {
    Bench& bench = Bench::only();
    Pixels pixels(bench.book, {.surface = Surface::none});
    calc::Catalogue sheets{"", {}};
    EntryDraft draft;
    Context context{bench.book, sheets, pixels, draft};
    PhotosState photos;
    lead_to(photos, {"photos", bench.id.value});
    Headless stage({}, 1920, 1080);
    const auto draw = [&](Page& page) {
        pixels.receive();
        draw_photos(page, context, photos);
    };
    const auto zoom = double(state.range(0)) / 100;
    const auto look = [&](double x, double y) {
        photos.large.fitted = false;
        photos.large.view = {zoom, x, y, double(state.range(1)), false};
        stage.frame(draw);
    };
    stage.frame(draw);
    for (int i = 0; i < 4; ++i) {
        look(kWidth / 2.0, kHeight / 2.0);
        pixels.settle();
    }
    std::vector<double> frames;
    double x = 1000, y = 1000, along = 1;
    for (auto _ : state) {
        const auto from = std::chrono::steady_clock::now();
        look(x, y);
        frames.push_back(
            std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - from)
                .count());
        x += along * 24 / zoom; // a brisk hand
        if (x > kWidth - 1000 || x < 1000) along = -along, y = 1000 + std::fmod(y + 400, 7000);
    }
    std::ranges::sort(frames);
    state.counters["worst_of_100_ms"] = frames[frames.size() * 99 / 100];
    state.counters["textures_MiB"] = double(pixels.texture_bytes()) / (1 << 20);
    state.counters["resident_MiB"] = resident_mib();
}

BENCHMARK(cut)->Unit(benchmark::kMillisecond)->UseRealTime();
// Zoom in per cent, turned by degrees.
BENCHMARK(pan)->Args({100, 0})->Args({30, 0})->Args({100, 17})->Unit(benchmark::kMillisecond);

} // namespace

BENCHMARK_MAIN();
