// A build book of 500 pages with 1,500 photos of 12 megapixels: how long it takes as PDF and as
// HTML, and the most this program held meanwhile (its workers not counted).
#include "desk/book.h"
#include "desk/book_html.h"
#include "notebook/entries.h"
#include "notebook/photos.h"
#include "photo_files.h"

#include <benchmark/benchmark.h>

#include <cstdio>
#include <string>

using namespace fettle;
using benchmarks::must;
namespace fs = std::filesystem;

namespace {

constexpr int kFiles = 20, kEntries = 500, kPhotosOfOne = 3;

struct LargeNotebook {
    fs::path folder = fs::temp_directory_path() / ("book_bench_" + std::to_string(getpid()));
    std::optional<Notebook> book;

    LargeNotebook() {
        fs::create_directories(folder);
        book.emplace(must(Notebook::create(folder / "book", "Quernmore Drover")));
        for (int file = 0; file < kFiles; ++file)
            benchmarks::write_photo(file_of(file), 4000, 3000, std::uint32_t(file + 1));
        const Step step = must(book->new_step());
        std::string text;
        for (int line = 0; line < 12; ++line)
            text += "Cleaned the spring leaves with the wire wheel, measured each in three places, "
                    "and laid them out in their order on the bench.\n\n";
        for (int entry = 0; entry < kEntries; ++entry) {
            Entry written{.day = Day(std::chrono::sys_days(must(parse_day("2024-01-06"))) +
                                     std::chrono::days(entry)),
                          .hours = 2,
                          .text = text};
            for (int number = 0; number < kPhotosOfOne; ++number)
                written.photos.push_back({photo(entry * kPhotosOfOne + number, step)});
            must(write_entry(*book, written));
        }
    }
    ~LargeNotebook() { fs::remove_all(folder); }

    fs::path file_of(int number) const { return folder / (std::to_string(number) + ".jpg"); }
    PhotoId photo(int number, Step step) {
        char hash[33];
        std::snprintf(hash, sizeof hash, "%032x", static_cast<unsigned>(number));
        return must(add_photo(*book,
                              {.hash = hash,
                               .file = file_of(number % kFiles),
                               .in_place = true,
                               .original_name = std::to_string(number) + ".jpg",
                               .format = "JPEG",
                               .width = 4000,
                               .height = 3000},
                              step));
    }
};

LargeNotebook& large() {
    static LargeNotebook notebook;
    return notebook;
}

void as_pdf(benchmark::State& state) {
    auto& notebook = large();
    for (auto unused : state) {
        const auto content = must(desk::book_content(*notebook.book, {}));
        const auto report = must(desk::write_book_pdf(content, notebook.folder / "book.pdf", {}));
        state.counters["pages"] = double(report.pages);
        state.counters["photos"] = double(report.photos);
    }
    state.counters["MiB_most"] = most_resident_mib();
    state.counters["MB_file"] = double(fs::file_size(notebook.folder / "book.pdf")) / 1e6;
}
BENCHMARK(as_pdf)->Unit(benchmark::kSecond)->UseRealTime()->Iterations(1)->Repetitions(1);

void as_html(benchmark::State& state) {
    auto& notebook = large();
    for (auto unused : state) {
        const auto content = must(desk::book_content(*notebook.book, {}));
        must(desk::write_book_html(content, notebook.folder / "html", {}));
    }
    state.counters["MiB_most"] = most_resident_mib();
}
BENCHMARK(as_html)->Unit(benchmark::kSecond)->UseRealTime()->Iterations(1)->Repetitions(1);

} // namespace

BENCHMARK_MAIN();
