// What a notebook costs as it grows: opening it, searching it while one types, the window's work
// for a frame on every screen, one act and its undoing, what the program holds, and looking it
// over. Headless: everything is laid out and nothing painted. Times are the processor's for the
// thread of the window, so that what else the machine does is left out; opening and the check are
// in real time.
#include "bench/big_book.h"
#include "bench/photo_files.h"
#include "desk/check.h"
#include "notebook/entries.h"
#include "notebook/search.h"
#include "notebook/ties.h"
#include "temp_folder.h"
#include "ui/frame/headless.h"
#include "ui/workroom.h"

#include <benchmark/benchmark.h>

#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <map>
#include <memory>

namespace {

using namespace fettle;
using namespace fettle::ui;
using benchmarks::most_resident_mib;
using benchmarks::must;
using benchmarks::resident_mib;

constexpr int kSizes[] = {1000, 10000, 100000};

double thread_ms() {
    timespec time{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &time);
    return double(time.tv_sec) * 1e3 + double(time.tv_nsec) / 1e6;
}
double wall_ms() {
    return std::chrono::duration<double, std::milli>(
               std::chrono::steady_clock::now().time_since_epoch())
        .count();
}

class Times {
  public:
    template <class Body>
    void of(Body body) {
        const double from = thread_ms();
        body();
        all_.push_back(thread_ms() - from);
    }
    void tell(benchmark::State& state, const std::string& what) {
        std::ranges::sort(all_);
        const auto at = [this](std::size_t hundredths) {
            return all_[std::min(all_.size() - 1, all_.size() * hundredths / 100)];
        };
        state.counters[what + "_p50_ms"] = at(50);
        state.counters[what + "_p99_ms"] = at(99);
        state.counters[what + "_most_ms"] = all_.back();
    }

  private:
    std::vector<double> all_;
};

// The notebook of one size, made once and closed; one size at a time. Made in the folder that
// FETTLEBOOK_BIG_BOOKS names, it is kept there for the next run.
class Book {
  public:
    static std::filesystem::path of(int photos) {
        static std::unique_ptr<Book> made;
        if (!made || made->photos_ != photos) {
            made.reset();
            made = std::make_unique<Book>(photos);
        }
        return made->book_;
    }
    explicit Book(int photos) : photos_(photos) {
        if (const char* kept = std::getenv("FETTLEBOOK_BIG_BOOKS"))
            book_ = std::filesystem::path(kept) / std::to_string(photos);
        if (!std::filesystem::exists(book_ / "notebook.db"))
            benchmarks::make_big_book(book_, {.photos = photos});
    }

  private:
    int photos_;
    TempFolder folder_;
    std::filesystem::path book_ = folder_ / "book";
};

Notebook opened(int photos) {
    return must(Notebook::open(Book::of(photos), store::Access::write));
}

// The whole window on it.
struct Window {
    Notebook book;
    calc::Catalogue sheets{FETTLEBOOK_BIN_DIR "/fettlebook-calc", {FETTLEBOOK_PLUGIN_DIR}};
    Headless stage{{}, 1920, 1080};
    std::unique_ptr<Workroom> room =
        std::make_unique<Workroom>(book, sheets, Workroom::Settings{.surface = Surface::none});

    explicit Window(int photos) : book(opened(photos)) {}
    void frame() {
        stage.frame([this](Page& page) { room->frame(page, stage.input()); });
    }
    void settle() {
        for (int i = 0; i < 5; ++i) {
            frame();
            room->settle();
        }
    }
    void press(const Chord& chord) {
        const auto stroke = [this](int key, bool down) {
            stage.input().push(KeyStroke{static_cast<Key>(key), down});
        };
        if (chord.ctrl) stroke(static_cast<int>(Key::left_ctrl), true);
        stroke(chord.key, true);
        stroke(chord.key, false);
        if (chord.ctrl) stroke(static_cast<int>(Key::left_ctrl), false);
    }
    // Every frame until the input is taken and three more.
    void frames(Times& times) {
        bool more = true;
        for (int rest = 3; rest > 0; rest -= more ? 0 : 1)
            times.of([&] {
                more = stage.frame([this](Page& page) { room->frame(page, stage.input()); });
            });
    }
};

// From opening the notebook to the end of the first frame, Bench; real time.
void opening(benchmark::State& state, int photos) {
    Book::of(photos);
    for (auto _ : state) {
        const double from = wall_ms();
        Window window(photos);
        const double ready = wall_ms();
        window.frame();
        state.SetIterationTime((wall_ms() - from) / 1e3);
        state.counters["first_frame_ms"] = wall_ms() - ready;
    }
    state.counters["database_MiB"] =
        double(std::filesystem::file_size(Book::of(photos) / "notebook.db")) / (1 << 20);
}

const std::vector<std::string> kTyped = {"spring hanger",
                                         "king pin left",
                                         "crown wheel",
                                         "brake shoe",
                                         "H7",
                                         "img_000123",
                                         "wire brushed",
                                         "pitted",
                                         "Saltash Row",
                                         "quarry shed",
                                         "orrinvale forge",
                                         "castle nuts",
                                         "steering arm",
                                         "crack oil hole",
                                         "QM 36",
                                         "2023",
                                         "re-arching",
                                         "dark green paint",
                                         "left track rod",
                                         "drover"};

// Each beginning of what is typed, as the find field asks for it.
void search(benchmark::State& state, int photos) {
    const Notebook book = opened(photos);
    Times times;
    std::size_t found = 0;
    for (auto _ : state)
        for (const std::string& whole : kTyped)
            for (std::size_t typed = 1; typed <= whole.size(); ++typed)
                times.of([&] { found += must(find(book, whole.substr(0, typed), 12)).size(); });
    benchmark::DoNotOptimize(found);
    times.tell(state, "search");
}

// The same in the window: the frames while it is typed into the find field.
void typing(benchmark::State& state, int photos) {
    Window window(photos);
    window.settle();
    Times times;
    for (auto _ : state)
        for (const std::string& whole : kTyped) {
            window.press({static_cast<int>(Key::f), true});
            window.frame();
            window.press({static_cast<int>(Key::a), true});
            window.frame();
            for (const char letter : whole) {
                window.stage.input().push(Character{static_cast<unsigned char>(letter)});
                window.frames(times);
            }
            window.press({static_cast<int>(Key::escape)});
            window.frame();
        }
    times.tell(state, "frame");
}

// Coming to a screen; going down it by the wheel; one act while it is shown, and its undoing;
// the frames after a photo was tied.
void screen(benchmark::State& state, int photos, const Place& place) {
    Window window(photos);
    window.settle();
    for (auto _ : state) {
        double from = thread_ms();
        window.room->show(place);
        window.frame();
        window.frame();
        state.counters["coming_ms"] = thread_ms() - from;
        window.settle();
        Times times;
        window.stage.input().push(PointerMove{700, 600});
        for (int turn = 0; turn < 100; ++turn) {
            window.stage.input().push(Wheel{0, turn % 40 < 30 ? -5.0F : 5.0F});
            window.frames(times);
        }
        times.tell(state, "frame");
        from = thread_ms();
        must(write_entry(window.book, {.day = today(), .text = "Freed the king pin."}));
        state.counters["act_ms"] = thread_ms() - from;
        from = thread_ms();
        window.frame();
        state.counters["after_act_ms"] = thread_ms() - from;
        from = thread_ms();
        must(window.book.undo());
        state.counters["undo_ms"] = thread_ms() - from;
        state.counters["resident_MiB"] = resident_mib();
        window.settle();
        Times tied;
        must(tie_photos(window.book, {PhotoId{500}}, PartId{77}, Stage::before));
        for (int i = 0; i < 10; ++i) {
            tied.of([&] { window.frame(); });
            window.room->settle(); // what is read beside comes in with the next frame
        }
        tied.tell(state, "after_tie");
        must(window.book.undo()); // the notebook may be kept for the next run
        state.counters["resident_after_tie_MiB"] = resident_mib();
    }
}

// Writing into the entry: its text, and the line for putting things in.
void writing(benchmark::State& state, int photos) {
    Window window(photos);
    window.settle();
    for (auto _ : state) {
        window.press({static_cast<int>(Key::p), true});
        window.settle();
        Times times;
        for (const char letter : std::string("left king pin")) {
            window.stage.input().push(Character{static_cast<unsigned char>(letter)});
            window.frames(times);
        }
        times.tell(state, "frame");
    }
}

// All screens but the build book, one after the other in one window.
void holding(benchmark::State& state, int photos) {
    Window window(photos);
    for (auto _ : state)
        for (const std::string& key : window.room->screen_keys()) {
            if (key == "book") continue; // measured by itself
            window.room->show({key});
            window.settle();
        }
    state.counters["resident_MiB"] = resident_mib();
}

void look_over(benchmark::State& state, int photos) {
    const auto folder = Book::of(photos);
    std::ofstream("/proc/self/clear_refs") << "5"; // the most is counted anew, proc(5)
    const double before = resident_mib();
    for (auto _ : state)
        state.counters["wrong"] = double(must(desk::check(folder, {})).wrong());
    state.counters["more_MiB"] = most_resident_mib() - before;
}

void list_all() {
    for (const int photos : kSizes) {
        const auto add = [photos](const std::string& name, auto body) {
            return benchmark::RegisterBenchmark(
                       (name + "/" + std::to_string(photos)).c_str(),
                       [=](benchmark::State& state) { body(state, photos); })
                ->Repetitions(1)
                ->Unit(benchmark::kMillisecond);
        };
        add("opening", opening)->UseManualTime()->Iterations(5);
        add("search", search)->Iterations(1);
        add("typing", typing)->Iterations(1);
        add("writing", writing)->Iterations(1);
        for (const char* key : {"bench", "log", "photos", "parts", "tasks", "sent_out", "marks",
                                "sheets", "money", "people", "keeping", "two_machines"})
            add(std::string("screen_") + key, [key](benchmark::State& state, int size) {
                screen(state, size, {key});
            })->Iterations(1);
        for (const auto& [name, place] :
             {std::pair<const char*, Place>{"screen_part", {"parts", 77}},
              {"screen_photo", {"photos", 500}},
              {"screen_positions", {.screen = "parts", .view = "positions"}},
              {"screen_missing", {.screen = "parts", .view = "missing"}}})
            add(name, [place](benchmark::State& state, int size) {
                screen(state, size, place);
            })->Iterations(1);
        add("holding", holding)->Iterations(1);
        // Last, as it holds more than all others.
        add("screen_book", [](benchmark::State& state, int size) {
            screen(state, size, {"book"});
        })->Iterations(1);
        add("check", look_over)->Iterations(1)->UseRealTime();
    }
}

} // namespace

int main(int count, char** words) {
    list_all();
    benchmark::Initialize(&count, words);
    benchmark::RunSpecifiedBenchmarks();
}
