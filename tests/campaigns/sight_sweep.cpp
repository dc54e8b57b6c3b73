// How well blurred shots and near-duplicates of a burst are told, over the demo's rendered photos
// spoilt and repeated in known ways: sight_sweep [PHOTOS]. Prints plain figures.
#include "notebook/bursts.h"
#include "photos/blur_scene.h"
#include "photos/file_bytes.h"
#include "photos/jpeg.h"
#include "photos/likeness.h"

#include <cstdio>
#include <filesystem>
#include <string>
#include <vector>

using namespace fettle;
using namespace fettle::photos;
using namespace blur_tests;

namespace {

struct Tally {
    int shown = 0, told = 0;
    void add(bool is_told) { ++shown, told += is_told; }
};

void print(const char* what, const Tally& tally) {
    std::printf("%-44s %5d of %5d  %5.1f %%\n", what, tally.told, tally.shown,
                tally.shown ? 100.0 * tally.told / tally.shown : 0);
}

Photo record(const Grey& grey, int second) {
    Photo photo;
    photo.taken = Moment{};
    photo.taken->local += std::chrono::seconds(second);
    photo.sharpness = sharpness_of(grey);
    photo.likeness = likeness_of(grey);
    return photo;
}

std::vector<Grey> pictures() {
    std::vector<std::filesystem::path> files;
    for (const auto& file :
         std::filesystem::directory_iterator(FETTLEBOOK_SOURCE_DIR "/assets/demo/photos"))
        // The evening of 20 March has a shot that is out of focus on purpose.
        if (const auto name = file.path().filename().string();
            name.starts_with("P2026") && !name.starts_with("P2026_0320"))
            files.push_back(file.path());
    std::ranges::sort(files);
    std::vector<Grey> all;
    for (const auto& file : files) {
        auto open = OpenFile::open(file);
        if (!open) continue;
        auto bytes = open->read_all();
        if (!bytes) continue;
        if (auto grey = decode_jpeg_grey(*bytes)) all.push_back(std::move(*grey));
    }
    return all;
}

} // namespace

int main() {
    std::mt19937 random(7);
    const auto all = pictures();
    Tally repeats, others, false_blur, small_blur, blur, large_blur, shake, alone, alone_false;
    std::vector<std::uint64_t> marks;
    for (const Grey& picture : all) {
        const Grey first = again(picture, 0.02, 1, 3, random);
        const Photo one = record(first, 0);
        marks.push_back(one.likeness.value_or(0));
        alone_false.add(look_over({one})[0].blurred);
        for (const double light : {0.9, 1.0, 1.1}) {
            const auto seen = look_over({one, record(again(picture, 0.02, light, 3, random), 2)});
            repeats.add(seen[1].like_before);
            false_blur.add(seen[0].blurred || seen[1].blurred);
        }
        const auto spoilt = [&](Tally& tally, const Grey& bad) {
            const Photo two = record(again(bad, 0.02, 1, 3, random), 2);
            tally.add(look_over({one, two})[1].blurred);
            return two;
        };
        const double px = picture.width / 1000.0;
        spoilt(small_blur, blurred(picture, 1.0 * px));
        spoilt(blur, blurred(picture, 2.0 * px));
        const Photo worst = spoilt(large_blur, blurred(picture, 4.0 * px));
        alone.add(look_over({worst})[0].blurred);
        std::printf("sharpness %.3f, blurred by 4 px %.3f, unlike by %d\n",
                    one.sharpness.value_or(-1), worst.sharpness.value_or(-1),
                    unlikeness(*worst.likeness, *one.likeness));
        spoilt(shake, shaken(picture, int(10 * px), false));
        spoilt(shake, shaken(picture, int(10 * px), true));
    }
    for (std::size_t i = 0; i < marks.size(); ++i)
        for (std::size_t k = i + 1; k < marks.size(); ++k)
            others.add(unlikeness(marks[i], marks[k]) <= 16);
    std::printf("pixels of a picture 1000 wide\n");
    print("repeats told to be alike", repeats);
    print("other subjects told to be alike", others);
    print("sharp bursts with one called blurred", false_blur);
    print("sharp and alone, called blurred", alone_false);
    print("blurred by sigma 1 in a burst, told", small_blur);
    print("blurred by sigma 2 in a burst, told", blur);
    print("blurred by sigma 4 in a burst, told", large_blur);
    print("shaken by 10 in a burst, told", shake);
    print("blurred by sigma 4 and alone, told", alone);
}
