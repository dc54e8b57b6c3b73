// How well tags are read: the sweep of tags at known places, and pictures without a code.
//   tag_sweep sweep [TURNS]      modules from 6 pixels, tilt to 45°, blur to 0.4 module, light to
//   5:1 tag_sweep without [COUNT]    10,000 pictures without a tag's code
// Prints plain figures. Exit code 1 when fewer than 95 % are read, or anything is read wrongly.
#include "no_code.h"
#include "photos/file_bytes.h"
#include "photos/jpeg.h"
#include "photos/sight.h"
#include "photos/tag_scene.h"

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <string>

using namespace fettle;
using namespace fettle::photos;
using namespace tag_tests;

namespace {

constexpr const char* kTag = "H7";

double seconds_since(std::chrono::steady_clock::time_point start) {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

// As take-in sees it: a JPEG file, looked at once.
std::vector<std::string> tags_read(const Picture& picture) {
    auto jpeg = encode_jpeg(picture);
    if (!jpeg) std::abort();
    auto recognised = recognise(*jpeg, ".jpg");
    if (!recognised) std::abort();
    auto sight = see(*recognised, *jpeg, fitted(recognised->stored, kThumbnailSide));
    if (!sight) std::abort();
    return sight->tags;
}

struct Tally {
    int shown = 0, read = 0, wrong = 0;
    void add(const std::vector<std::string>& tags) {
        ++shown;
        for (const auto& tag : tags)
            ++(tag == kTag ? read : wrong);
    }
};

void print(const std::string& what, const Tally& tally) {
    std::printf("%-18s %5d shown %5d read  %5.1f %%\n", what.c_str(), tally.shown, tally.read,
                100.0 * tally.read / tally.shown);
}

struct Sweep {
    Tally all;
    std::map<std::string, Tally> by;

    void show(const Picture& background, const TagView& view, std::mt19937& random) {
        auto picture = background;
        draw_tag(picture, std::string("fettlebook:") + kTag, view, random);
        const auto tags = tags_read(picture);
        char row[64];
        all.add(tags);
        std::snprintf(row, sizeof row, "module %2.0f px", view.module);
        by[row].add(tags);
        std::snprintf(row, sizeof row, "tilt %2.0f", view.tilt);
        by[row].add(tags);
        std::snprintf(row, sizeof row, "blur %.1f module", view.blur);
        by[row].add(tags);
        std::snprintf(row, sizeof row, "light %.0f:1", view.light);
        by[row].add(tags);
        std::snprintf(row, sizeof row, "%d MP", background.width * background.height / 1'000'000);
        by[row].add(tags);
    }
};

TagView any_view(std::mt19937& random) {
    std::uniform_real_distribution<double> share(0, 1);
    return {.turn = 360 * share(random),
            .tilt_axis = 360 * share(random),
            .light_from = 360 * share(random),
            .noise = 3,
            .x = 0.25 + 0.5 * share(random),
            .y = 0.25 + 0.5 * share(random)};
}

int run_sweep(int turns) {
    std::mt19937 random(2026);
    Sweep sweep;
    const auto start = std::chrono::steady_clock::now();
    for (const auto& [width, height, rounds] :
         {std::tuple{4000, 3000, turns}, {8160, 6120, (turns + 5) / 6}}) {
        const auto background = workshop_texture(width, height, random);
        for (double module : {6, 7, 8, 10, 14, 20, 32})
            for (double tilt : {0, 15, 30, 45})
                for (double blur : {0.0, 0.2, 0.4})
                    for (double light : {1, 5})
                        for (int turn = 0; turn < rounds; ++turn) {
                            auto view = any_view(random);
                            view.module = module;
                            view.tilt = tilt;
                            view.blur = blur;
                            view.light = light;
                            sweep.show(background, view, random);
                        }
    }
    for (const auto& [what, tally] : sweep.by)
        print(what, tally);
    print("all", sweep.all);
    std::printf("read wrongly %d; %.0f s\n", sweep.all.wrong, seconds_since(start));
    return sweep.all.wrong > 0 || sweep.all.read < 0.95 * sweep.all.shown;
}

std::vector<Picture> photographs() {
    std::vector<Picture> pictures;
    for (const auto& file :
         std::filesystem::directory_iterator(FETTLEBOOK_SOURCE_DIR "/assets/demo/photos")) {
        auto open = OpenFile::open(file.path());
        if (!open) continue;
        auto bytes = open->read_all();
        if (!bytes) continue;
        auto size = jpeg_size(*bytes);
        if (!size) continue;
        if (auto decoded = decode_jpeg(*bytes, *size)) pictures.push_back(decoded->picture);
    }
    return pictures;
}

int run_without(int count) {
    const NoCodes pictures(photographs());
    const auto start = std::chrono::steady_clock::now();
    int wrong = 0;
    for (int number = 0; number < count; ++number) {
        const auto tags = tags_read(pictures.picture(unsigned(number)));
        if (!tags.empty()) std::printf("picture %d: read %s\n", number, tags[0].c_str());
        wrong += !tags.empty();
    }
    std::printf("%d pictures without a code, %d read; %.0f s\n", count, wrong,
                seconds_since(start));
    return wrong > 0;
}

} // namespace

int main(int count, char** arguments) {
    const std::string what = count > 1 ? arguments[1] : "";
    const int number = count > 2 ? std::atoi(arguments[2]) : 0;
    if (what == "sweep") return run_sweep(number > 0 ? number : 6);
    if (what == "without") return run_without(number > 0 ? number : 10'000);
    std::fprintf(stderr, "usage: tag_sweep sweep [TURNS] | tag_sweep without [COUNT]\n");
    return 2;
}
