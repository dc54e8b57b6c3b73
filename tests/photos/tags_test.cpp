// Tags in pictures, drawn by the tests' own renderer. The whole sweep is tests/campaigns/tag_sweep.
#include "base/sanitized.h"
#include "base/tag.h"
#include "photos/jpeg.h"
#include "photos/scratch.h"
#include "photos/tag_scene.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>

using namespace photo_tests;
using namespace fettle::photos;
using namespace tag_tests;
using Tags = std::vector<std::string>;

namespace {

void write_jpeg(const Picture& picture, const fs::path& file) {
    auto jpeg = encode_jpeg(picture);
    REQUIRE(sentence_of(jpeg) == "");
    write_file(file, *jpeg);
}

Tags tags_of(const fs::path& file) {
    auto decoder = photo_tests::decoder();
    auto look = decoder.look(file);
    REQUIRE(sentence_of(look) == "");
    auto tags = look->tags;
    std::ranges::sort(tags);
    return tags;
}

// 2400 x 1800, searched at half size as camera pictures are.
const Picture& bench_top() {
    static const Picture picture = [] {
        std::mt19937 random(5);
        return workshop_texture(2400, 1800, random);
    }();
    return picture;
}

} // namespace

TEST_CASE("a tag is 1 to 16 letters, digits and hyphens, and its code says whose it is") {
    CHECK(fettle::code_of_tag("H7") == "fettlebook:H7");
    CHECK(fettle::tag_of_code("fettlebook:H7") == "H7");
    CHECK(fettle::tag_of_code("fettlebook:QM-1936-ab") == "QM-1936-ab");
    for (const char* text :
         {"", "H7", "fettlebook:", "Fettlebook:H7", "fettlebook:H 7", "fettlebook:H7\n",
          "fettlebook:12345678901234567", "fettlebook:Ü1", "https://example.org/fettlebook:H7"})
        CHECK_FALSE(fettle::tag_of_code(text).has_value());
}

TEST_CASE("tags are read turned, tilted, out of focus, half in the shade, small and large") {
    Scratch scratch;
    std::mt19937 random(11);
    std::uniform_real_distribution<double> share(0, 1);
    int shown = 0, read = 0;
    // Under a sanitizer the half of them.
    for (double module :
         fettle::kSanitized ? std::vector<double>{6, 16} : std::vector<double>{6, 9, 16, 30})
        for (double tilt : {0, 30, 45})
            for (double blur : {0.0, 0.4})
                for (double light : {1, 5}) {
                    auto picture = bench_top();
                    draw_tag(picture, "fettlebook:H7",
                             {.module = module,
                              .turn = 360 * share(random),
                              .tilt = tilt,
                              .tilt_axis = 360 * share(random),
                              .blur = blur,
                              .light = light,
                              .light_from = 360 * share(random),
                              .noise = 3,
                              .x = 0.35 + 0.3 * share(random),
                              .y = 0.35 + 0.3 * share(random)},
                             random);
                    write_jpeg(picture, scratch / "a.jpg");
                    const auto tags = tags_of(scratch / "a.jpg");
                    ++shown;
                    read += tags == Tags{"H7"};
                    CHECK((tags.empty() || tags == Tags{"H7"}));
                }
    CHECK(read >= 0.95 * shown);
}

TEST_CASE("a tag is read in every format and in all eight orientations, mirrored ones included") {
    Scratch scratch;
    std::mt19937 random(12);
    auto picture = workshop_texture(1200, 900, random);
    draw_tag(picture, "fettlebook:QM-1936", {.module = 8, .turn = 20, .tilt = 20}, random);
    const auto jpeg = scratch / "a.jpg";
    write_jpeg(picture, jpeg);
    for (int orientation = 1; orientation <= 8; ++orientation) {
        CAPTURE(orientation);
        set_exif(jpeg, "Exif.Image.Orientation", std::to_string(orientation));
        CHECK(tags_of(jpeg) == Tags{"QM-1936"});
        // Turned pixels, and EXIF to turn them back.
        write_jpeg(turned_upright(picture, orientation), scratch / "b.jpg");
        CHECK(tags_of(scratch / "b.jpg") == Tags{"QM-1936"});
    }
    set_exif(jpeg, "Exif.Image.Orientation", "1");
    for (const std::string ending : {"png", "webp", "tif", "bmp", "gif", "heic"}) {
        CAPTURE(ending);
        const auto file = scratch / ("a." + ending);
        output_of("convert " + shell_word(jpeg) + " " + shell_word(file));
        CHECK(tags_of(file) == Tags{"QM-1936"});
    }
    for (const std::string how : {"-colorspace CMYK", "-colorspace Gray", "-interlace JPEG",
                                  "-sampling-factor 4:4:4", "-sampling-factor 4:2:2"}) {
        CAPTURE(how);
        output_of("convert " + shell_word(jpeg) + " " + how + " " + shell_word(scratch / "c.jpg"));
        CHECK(tags_of(scratch / "c.jpg") == Tags{"QM-1936"});
    }
}

TEST_CASE("several tags in one picture are all read, each once") {
    Scratch scratch;
    std::mt19937 random(13);
    auto picture = bench_top();
    for (const auto& [tag, x, y] :
         {std::tuple{"H7", 0.2, 0.3}, {"S2", 0.45, 0.32}, {"K1", 0.8, 0.7}, {"H7", 0.25, 0.75}})
        draw_tag(picture, std::string("fettlebook:") + tag,
                 {.module = 7, .turn = 40 * x, .x = x, .y = y}, random);
    write_jpeg(picture, scratch / "a.jpg");
    CHECK(tags_of(scratch / "a.jpg") == Tags{"H7", "K1", "S2"});
}

TEST_CASE("other codes, and pictures without one, hold no tag") {
    Scratch scratch;
    std::mt19937 random(14);
    auto picture = bench_top();
    draw_tag(picture, "https://example.org/H7", {.module = 10, .x = 0.3}, random);
    draw_tag(picture, "fettlebook:no tag at all", {.module = 10, .x = 0.7}, random);
    write_jpeg(picture, scratch / "a.jpg");
    CHECK(tags_of(scratch / "a.jpg").empty());
    write_jpeg(bench_top(), scratch / "b.jpg");
    CHECK(tags_of(scratch / "b.jpg").empty());
    CHECK(tags_of(make_picture(scratch / "c.jpg", 5, 3)).empty());
    CHECK(tags_of(make_picture(scratch / "d.jpg", 3000, 1)).empty());
}

TEST_CASE("a tag whose corner is covered is read nevertheless, or not at all, never wrongly") {
    Scratch scratch;
    std::mt19937 random(15);
    for (int round = 0; round < 12; ++round) {
        auto picture = bench_top();
        draw_tag(picture, "fettlebook:H7", {.module = 10, .turn = 30.0 * round}, random);
        // A thumb over some of the modules.
        const int left = 1200 - 125 + 20 * round;
        for (int y = 780; y < 860; ++y)
            for (int x = left; x < left + 80; ++x)
                picture.rgba[(std::size_t(y) * 2400 + x) * 4] = std::byte{150};
        write_jpeg(picture, scratch / "a.jpg");
        const auto tags = tags_of(scratch / "a.jpg");
        CHECK((tags.empty() || tags == Tags{"H7"}));
    }
}
