// What the page of all photos costs: thumbnails out of the cache until every one in sight has come,
// and what the program holds after going through a folder of 200 and one of 1600 from end to end.
#include "bench/photo_files.h"
#include "desk/take_in.h"
#include "notebook/photos.h"
#include "temp_folder.h"
#include "ui/frame/headless.h"
#include "ui/pictures/pixels.h"
#include "ui/screens/photos/photos.h"

#include <benchmark/benchmark.h>

#include <map>

namespace {

using namespace fettle;
using namespace fettle::ui;
using benchmarks::must;
using benchmarks::resident_mib;
using benchmarks::write_photo;

struct Taken {
    TempFolder folder;
    Notebook book = must(Notebook::create(folder / "book", "Drover"));
    std::vector<PhotoId> ids;
    double held_mib = 0; // more than before, when all had been taken in

    explicit Taken(int photos) {
        std::filesystem::create_directory(folder / "phone");
        for (int i = 0; i < photos; ++i)
            write_photo(folder / "phone" / (std::to_string(10000 + i) + ".jpg"), 640, 480, i + 1);
        const double before = resident_mib();
        ids = must(desk::take_in(book, {.paths = {folder / "phone"}, .in_place = true})).taken;
        held_mib = resident_mib() - before;
    }
    static Taken& of(int photos) {
        static std::map<int, Taken> made;
        return made.try_emplace(photos, photos).first->second;
    }
};

// The screen of all photos, drawn without a display.
struct Screen {
    Pixels pixels;
    calc::Catalogue sheets{"", {}};
    EntryDraft draft;
    Context context;
    PhotosState state;
    Headless stage{{}, 1920, 1080};

    explicit Screen(Notebook& book)
        : pixels(book, {.surface = Surface::none}), context{book, sheets, pixels, draft} {}
    void frame() {
        pixels.receive();
        stage.frame([&](Page& page) { draw_photos(page, context, state); });
    }
    void until_all_have_come() {
        for (std::size_t held = 1; held != pixels.texture_bytes();) {
            held = pixels.texture_bytes();
            frame();
            pixels.settle();
        }
    }
};

void page(benchmark::State& state) {
    Taken& taken = Taken::of(200);
    double thumbnails = 0;
    for (auto _ : state) {
        state.PauseTiming();
        auto screen = std::make_unique<Screen>(taken.book);
        screen->stage.frame([](Page&) {}); // fonts
        state.ResumeTiming();
        screen->until_all_have_come();
        thumbnails = double(screen->pixels.texture_bytes()) / (320 * 240 * 4);
        state.PauseTiming();
        screen.reset();
        state.ResumeTiming();
    }
    state.counters["thumbnails"] = thumbnails;
}

void whole_folder(benchmark::State& state) {
    Taken& taken = Taken::of(int(state.range(0)));
    Screen screen(taken.book);
    for (auto _ : state)
        for (std::size_t i = 0; i < taken.ids.size(); i += 20) {
            screen.state.wanted = taken.ids[i];
            screen.until_all_have_come();
        }
    state.counters["photos"] = double(taken.ids.size());
    state.counters["textures_MiB"] = double(screen.pixels.texture_bytes()) / (1 << 20);
    state.counters["resident_MiB"] = resident_mib();
    state.counters["more_after_take_in_MiB"] = taken.held_mib;
}

BENCHMARK(page)->Unit(benchmark::kMillisecond)->UseRealTime()->MinTime(1);
BENCHMARK(whole_folder)
    ->Arg(200)
    ->Arg(1600)
    ->Iterations(1)
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();

} // namespace

BENCHMARK_MAIN();
