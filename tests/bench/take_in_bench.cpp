// What taking photos in costs beside what the libraries alone cost on the same files, in one run:
// reading, hash, EXIF and a thumbnail decoded at an eighth, with nothing around them.
// The files are 12-megapixel JPEGs, one in four with a tag in it. Ends with the ratios, of
// the time that passed and of the processor time of the program and its workers: on a machine that
// has other things to do only the latter says something.
#include "base/tag.h"
#include "desk/take_in.h"
#include "notebook/parts.h"
#include "photos/jpeg.h"
#include "photos/tag_scene.h"
#include "temp_folder.h"

#include <benchmark/benchmark.h>
#include <exiv2/exiv2.hpp>
#include <sys/resource.h>
#include <turbojpeg.h>
#include <xxhash.h>

#include <algorithm>
#include <cstdio>
#include <fstream>
#include <iterator>
#include <map>

namespace {

namespace fs = std::filesystem;
using namespace fettle;

constexpr int kPhotos = 24, kWidth = 4000, kHeight = 3000, kThumbnail = 320;

std::string file_bytes(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

void write_photo(const photos::Picture& picture, const fs::path& file, int number) {
    const auto jpeg = photos::encode_jpeg(picture);
    std::ofstream(file, std::ios::binary)
        .write(reinterpret_cast<const char*>(jpeg->data()), std::streamsize(jpeg->size()));
    auto image = Exiv2::ImageFactory::open(file.string());
    char taken[32];
    std::snprintf(taken, sizeof taken, "2026:03:07 19:%02d:00", number);
    image->exifData()["Exif.Photo.DateTimeOriginal"] = taken;
    image->exifData()["Exif.Image.Model"] = "P2026";
    image->exifData()["Exif.Image.Orientation"] = std::uint16_t(number % 5 == 0 ? 6 : 1);
    image->writeMetadata();
}

// A folder of photos, made once.
struct Camera {
    TempFolder folder;
    std::vector<fs::path> files;

    Camera() {
        std::mt19937 random(1936);
        for (int base = 0; base < 4; ++base) {
            const auto bench_top = tag_tests::workshop_texture(kWidth, kHeight, random);
            for (int number = base; number < kPhotos; number += 4) {
                auto picture = bench_top;
                if (base == 0)
                    tag_tests::draw_tag(picture, code_of_tag("H7"),
                                        {.module = 8, .turn = 15.0 * number, .tilt = 25}, random);
                files.push_back(folder / (std::to_string(100 + number) + ".jpg"));
                write_photo(picture, files.back(), number);
            }
        }
        std::ranges::sort(files);
    }
};

const Camera& camera() {
    static const Camera made;
    return made;
}

// One photo by the libraries alone.
std::size_t bare(const fs::path& file) {
    const auto bytes = file_bytes(file);
    benchmark::DoNotOptimize(XXH3_128bits(bytes.data(), bytes.size()));
    const auto* data = reinterpret_cast<const unsigned char*>(bytes.data());
    auto image = Exiv2::ImageFactory::open(data, long(bytes.size()));
    image->readMetadata();
    benchmark::DoNotOptimize(image->exifData().count());

    const tjhandle reader = tjInitDecompress();
    const int width = kWidth / 8, height = kHeight / 8;
    std::vector<unsigned char> pixels(std::size_t(width) * height * 3);
    tjDecompress2(reader, data, bytes.size(), pixels.data(), width, 0, height, TJPF_RGB, 0);
    tjDestroy(reader);
    // To 320 x 240, each pixel the mean of what it covers, near enough.
    std::vector<unsigned char> small(std::size_t(kThumbnail) * 240 * 3);
    for (int y = 0; y < 240; ++y)
        for (int x = 0; x < kThumbnail; ++x)
            for (int channel = 0; channel < 3; ++channel) {
                int sum = 0, count = 0;
                for (int row = y * height / 240; row <= (y + 1) * height / 240 - 1; ++row)
                    for (int column = x * width / kThumbnail;
                         column <= (x + 1) * width / kThumbnail - 1; ++column, ++count)
                        sum += pixels[(std::size_t(row) * width + column) * 3 + channel];
                small[(std::size_t(y) * kThumbnail + x) * 3 + channel] =
                    static_cast<unsigned char>(sum / std::max(count, 1));
            }
    const tjhandle writer = tjInitCompress();
    unsigned char* jpeg = nullptr;
    unsigned long size = 0;
    tjCompress2(writer, small.data(), kThumbnail, 0, 240, TJPF_RGB, &jpeg, &size, TJSAMP_420, 85,
                0);
    tjFree(jpeg);
    tjDestroy(writer);
    return size;
}

// Processor time so far, of this program and of the workers that have ended, in milliseconds.
double processor_ms() {
    double sum = 0;
    for (int who : {RUSAGE_SELF, RUSAGE_CHILDREN}) {
        rusage usage{};
        getrusage(who, &usage);
        for (const auto& time : {usage.ru_utime, usage.ru_stime})
            sum += double(time.tv_sec) * 1e3 + double(time.tv_usec) / 1e3;
    }
    return sum;
}

void bare_libraries(benchmark::State& state) {
    camera();
    for (auto _ : state) {
        const double start = processor_ms();
        for (const auto& file : camera().files)
            benchmark::DoNotOptimize(bare(file));
        state.counters["processor_ms"] = processor_ms() - start;
    }
}

void take_in(benchmark::State& state, unsigned workers, bool in_place) {
    camera();
    for (auto _ : state) {
        state.PauseTiming();
        TempFolder folder;
        auto notebook = Notebook::create(folder / "book", "Drover");
        if (!notebook || !add_part(*notebook, {.tag = "H7", .name = "spring hanger"}))
            return state.SkipWithError("no notebook");
        state.ResumeTiming();
        const double start = processor_ms();
        auto report = desk::take_in(
            *notebook, {.paths = camera().files, .in_place = in_place, .workers = workers});
        if (!report || report->taken.size() != kPhotos || report->tied_by_tag != kPhotos / 4)
            return state.SkipWithError("photos or tags were left out");
        state.counters["processor_ms"] = processor_ms() - start;
        state.PauseTiming();
        { auto closed = std::move(*notebook); }
        state.ResumeTiming();
    }
}

// Keeps the median of each benchmark and prints them as ratios in the end.
class Ratios : public benchmark::ConsoleReporter {
  public:
    void ReportRuns(const std::vector<Run>& runs) override {
        ConsoleReporter::ReportRuns(runs);
        for (const auto& run : runs)
            if (run.aggregate_name == "median")
                medians_[run.run_name.function_name] = {run.GetAdjustedRealTime(),
                                                        run.counters.at("processor_ms").value};
    }
    void Finalize() override {
        const auto base = medians_.find("bare_libraries");
        if (base == medians_.end()) return;
        for (const auto& [name, median] : medians_)
            std::printf("%-26s a photo: passed %6.1f ms, %.2f of the bare libraries; processor "
                        "%6.1f ms, %.2f\n",
                        name.c_str(), median.passed / kPhotos, median.passed / base->second.passed,
                        median.processor / kPhotos, median.processor / base->second.processor);
    }

  private:
    struct Median {
        double passed = 0, processor = 0; // ms
    };
    std::map<std::string, Median> medians_;
};

} // namespace

int main(int count, char** arguments) {
    // In turns, so that a machine that is busy for a while slows all of them.
    std::vector<char*> with_turns(arguments, arguments + count);
    std::string turns = "--benchmark_enable_random_interleaving=true";
    with_turns.insert(with_turns.begin() + 1, turns.data());
    count = int(with_turns.size());
    benchmark::Initialize(&count, with_turns.data());
    const auto add = [](const char* name, auto&&... how) {
        benchmark::RegisterBenchmark(name, how...)
            ->Unit(benchmark::kMillisecond)
            ->UseRealTime()
            ->Iterations(1)
            ->Repetitions(7)
            ->ReportAggregatesOnly();
    };
    add("bare_libraries", bare_libraries);
    add("take_in_1_worker_in_place", take_in, 1u, true);
    add("take_in_1_worker", take_in, 1u, false);
    add("take_in_2_workers", take_in, 2u, false);
    Ratios reporter;
    benchmark::RunSpecifiedBenchmarks(&reporter);
}
