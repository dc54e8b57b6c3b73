// What 10,000 tasks cost: reading them with what each waits for, the chain and what each unlocks;
// what to do next; the picture of them laid out anew, and a frame of it.
#include "notebook/parts.h"
#include "notebook/vehicles.h"
#include "temp_folder.h"
#include "ui/frame/headless.h"
#include "ui/pictures/pixels.h"
#include "ui/screens/tasks/tasks.h"

#include <benchmark/benchmark.h>

#include <random>
#include <stdexcept>

namespace {

using namespace fettle;

constexpr int kTasks = 10000;

template <class T>
T must(Result<T> result) {
    if (!result) throw std::runtime_error(result.failure().sentence);
    return std::move(*result);
}

// Each needs up to three of the two hundred before it, one in four a position; a tenth are done.
void fill(Notebook& book, VehicleId vehicle) {
    std::vector<PositionId> positions;
    for (int i = 0; i < 200; ++i) {
        const std::string number = "P" + std::to_string(i);
        positions.push_back(must(add_position(
            book,
            {.vehicle = vehicle, .group = "Axle", .number = number, .name = "pin " + number})));
        must(add_part(book, {.tag = "K" + std::to_string(i),
                             .name = "pin",
                             .position = positions.back(),
                             .condition = i % 2 == 0 ? Condition::cleaned : Condition::stripped}));
    }
    must(book.act("filled", [&](store::Database& database) -> Done {
        std::mt19937 random(7);
        for (int i = 1; i <= kTasks; ++i) {
            database.run("INSERT INTO tasks(title, estimate_hours, state) VALUES (?, ?, ?)",
                         "piece of work " + std::to_string(i), 1 + i % 7,
                         i % 10 == 0 ? "done" : "open");
            for (int need = 0; need < 3 && i > 200; ++need)
                database.run("INSERT OR IGNORE INTO task_needs(task_id, needs_id) VALUES (?, ?)", i,
                             i - 1 - static_cast<int>(random() % 200));
            if (i % 4 == 0)
                database.run("INSERT INTO task_positions(task_id, position_id, condition) "
                             "VALUES (?, ?, 'cleaned')",
                             i, positions[random() % positions.size()]);
        }
        return done();
    }));
}

struct Full {
    TempFolder folder;
    Notebook book = must(Notebook::create(folder / "book", "Drover"));
    calc::Catalogue sheets{"", {}};
    ui::Pixels pixels{book, {.surface = ui::Surface::none}};
    EntryDraft draft;
    ui::Context context{book, sheets, pixels, draft};
    ui::Headless stage{{}, 1920, 1080};

    Full() { fill(book, must(vehicle_named(book, "Drover")).id); }
};

Full& full() {
    static Full desk;
    return desk;
}

void list_all(benchmark::State& state) {
    Full& desk = full();
    for (auto _ : state)
        benchmark::DoNotOptimize(must(list_tasks(desk.book, today())).size());
}

void next_of_all(benchmark::State& state) {
    const auto tasks = must(list_tasks(full().book, today()));
    for (auto _ : state)
        benchmark::DoNotOptimize(what_next(tasks, 3.0).size());
}

void lay_out(benchmark::State& state) {
    const auto tasks = must(list_tasks(full().book, today()));
    for (auto _ : state)
        benchmark::DoNotOptimize(ui::layout_of(tasks).rows);
}

// 0: the list, 1: the picture to be read, 2: as much of it as can be shown.
void frame(benchmark::State& state) {
    Full& desk = full();
    ui::TasksState tasks;
    tasks.drawn = state.range(0) > 0;
    const auto draw = [&](ui::Page& page) { ui::draw_tasks(page, desk.context, tasks); };
    for (int i = 0; i < 3; ++i)
        desk.stage.frame(draw);
    if (state.range(0) == 2) tasks.picture.zoom = 0.2;
    for (auto _ : state)
        desk.stage.frame(draw);
}

BENCHMARK(list_all)->Unit(benchmark::kMillisecond);
BENCHMARK(next_of_all)->Unit(benchmark::kMillisecond);
BENCHMARK(lay_out)->Unit(benchmark::kMillisecond);
BENCHMARK(frame)->Arg(0)->Arg(1)->Arg(2)->Unit(benchmark::kMillisecond);

} // namespace

BENCHMARK_MAIN();
