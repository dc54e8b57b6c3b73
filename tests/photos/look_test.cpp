// Pixels against ImageMagick: another decoder, another scaler, its own reading of orientations.
#include "photos/camera_samples.h"
#include "photos/scratch.h"
#include "photos/thumbs.h"

#include <doctest/doctest.h>

using namespace photo_tests;
using namespace fettle::photos;

namespace {

Look looked_at(const fs::path& file) {
    auto decoder = photo_tests::decoder();
    auto look = decoder.look(file);
    CAPTURE(file.string());
    REQUIRE(sentence_of(look) == "");
    return std::move(*look);
}

Picture thumbnail_of(const Look& look) {
    auto picture = decode_thumbnail(look.thumbnail);
    REQUIRE(sentence_of(picture) == "");
    return std::move(*picture);
}

std::string size_option(Size size) {
    return std::to_string(size.width) + "x" + std::to_string(size.height) + "!";
}

} // namespace

TEST_CASE("a look tells format, size, hash and bytes as other programs do") {
    Scratch scratch;
    for (const char* ending : {"jpg", "png", "bmp", "gif", "tga"}) {
        CAPTURE(ending);
        const auto file = make_picture(scratch / (std::string("a.") + ending), 90, 61);
        const auto look = looked_at(file);
        std::string format = output_of("identify -format %m " + shell_word(file));
        if (format == "BMP3") format = "BMP";
        CHECK(look.format == format);
        CHECK(look.width == 90);
        CHECK(look.height == 61);
        CHECK(look.bytes == fs::file_size(file));
        CHECK(look.hash == output_of("xxhsum -H2 " + shell_word(file)).substr(0, 32));
        CHECK_FALSE(look.damaged);
        CHECK(thumbnail_of(look).size() == Size{90, 61});
    }
}

TEST_CASE("thumbnails are the whole picture, shrunk by area to 320 pixels") {
    Scratch scratch;
    struct Case {
        Size full, small;
        std::string how;
    };
    for (const auto& [full, small, how] : {
             Case{{1800, 1350}, {320, 240}, "-quality 92"},
             Case{{1800, 1350}, {320, 240}, "-quality 92 -interlace JPEG"},
             Case{{1350, 1800}, {240, 320}, "-quality 92 -sampling-factor 4:2:0"},
             Case{{1400, 1050}, {320, 240}, "-quality 92 -sampling-factor 4:4:4"},
             Case{{1000, 999}, {320, 320}, "-quality 92"},
             Case{{321, 100}, {320, 100}, "-quality 92"},
             Case{{320, 200}, {320, 200}, "-quality 92"},
             Case{{33, 17}, {33, 17}, "-quality 92"},
             Case{{3000, 2}, {320, 1}, "-quality 92"},
             Case{{1200, 900}, {320, 240}, "-colorspace Gray -quality 92"},
             Case{{1200, 900}, {320, 240}, "-colorspace CMYK -quality 92"},
         }) {
        CAPTURE(full.width);
        CAPTURE(how);
        const auto file = make_picture(scratch / "a.jpg", full.width, full.height, how);
        const auto thumbnail = thumbnail_of(looked_at(file));
        CHECK(thumbnail.size() == small);
        const auto reference = reference_pixels(file, "-filter box -resize " + size_option(small));
        // Of 255; recompression with halved colour resolution included, which shows in small ones.
        const double most = full.width < 400 ? 9.0 : 3.0;
        if (full.height > 2) CHECK(mean_difference(thumbnail, reference) < most);
        const auto flop =
            reference_pixels(file, "-filter box -resize " + size_option(small) + " -flop");
        if (full.height > 2) CHECK(mean_difference(thumbnail, flop) > 8.0); // the measure measures
    }
}

TEST_CASE("thumbnail and pixels stand upright for all eight orientations") {
    Scratch scratch;
    const auto plain = make_picture(scratch / "plain.jpg", 720, 500, "-quality 92");
    for (int orientation = 1; orientation <= 8; ++orientation) {
        CAPTURE(orientation);
        const auto file = scratch / "turned.jpg";
        fs::copy_file(plain, file, fs::copy_options::overwrite_existing);
        set_exif(file, "Exif.Image.Orientation", std::to_string(orientation));
        const auto look = looked_at(file);
        CHECK(look.exif.orientation == orientation);
        const Size full = orientation <= 4 ? Size{720, 500} : Size{500, 720};
        const Size small = orientation <= 4 ? Size{320, 222} : Size{222, 320};
        CHECK(Size{look.width, look.height} == full);
        CHECK(mean_difference(thumbnail_of(look),
                              reference_pixels(file, "-auto-orient -filter box -resize " +
                                                         size_option(small))) < 3.0);
        auto decoder = photo_tests::decoder();
        auto picture = decoder.picture(file);
        REQUIRE(sentence_of(picture) == "");
        CHECK(mean_difference(*picture, reference_pixels(file, "-auto-orient")) < 1.0);
    }
}

TEST_CASE("the eight orientation samples of a foreign package all look like the first") {
    auto decoder = photo_tests::decoder();
    auto first = decoder.picture(camera_samples_folder() / "f1-exif.jpg");
    REQUIRE(sentence_of(first) == "");
    for (int orientation = 2; orientation <= 8; ++orientation) {
        CAPTURE(orientation);
        const auto name = std::string("f") + char('0' + orientation) + "-exif.jpg";
        auto other = decoder.picture(camera_samples_folder() / name);
        REQUIRE(sentence_of(other) == "");
        CHECK(mean_difference(*first, *other) < 3.0);
    }
}

TEST_CASE("camera samples have the size that identify tells, if they have pixels at all") {
    auto decoder = photo_tests::decoder();
    int with_pixels = 0;
    for (const auto& [file, expected] : camera_samples()) {
        CAPTURE(file);
        auto look = decoder.look(camera_samples_folder() / file);
        if (!look) {
            CHECK(look.failure().kind == fettle::FailureKind::damaged);
            continue;
        }
        ++with_pixels;
        const auto size = output_of("convert " + shell_word(camera_samples_folder() / file) +
                                    " -auto-orient -format '%w %h' info:");
        CHECK(size == std::to_string(look->width) + " " + std::to_string(look->height));
    }
    CHECK(with_pixels >= 10);
}

TEST_CASE("PNG of every kind and the other formats give the pixels ImageMagick gives") {
    Scratch scratch;
    struct Case {
        std::string name;
        std::string how;
    };
    for (const auto& [name, how] : {
             Case{"rgb8.png", "-define png:color-type=2 -depth 8"},
             Case{"rgb16.png", "-define png:color-type=2 -depth 16"},
             Case{"grey8.png", "-colorspace Gray -define png:color-type=0 -depth 8"},
             Case{"grey16.png", "-colorspace Gray -define png:color-type=0 -depth 16"},
             Case{"grey1.png", "-colorspace Gray -threshold 50% -define png:bit-depth=1"},
             Case{"alpha.png", "-alpha set -channel A -fx i/w +channel -depth 8"},
             Case{"greyalpha.png", "-colorspace Gray -alpha set -channel A -fx j/h +channel"
                                   " -define png:color-type=4 -depth 8"},
             Case{"palette.png", "-colors 200 -define png:color-type=3"},
             Case{"interlaced.png", "-interlace PNG"},
             Case{"plain.bmp", ""},
             Case{"plain.tga", ""},
             Case{"packed.tga", "-compress RLE"},
             Case{"palette.gif", "-colors 64"},
         }) {
        CAPTURE(name);
        const auto file = make_picture(scratch / name, 61, 47, how);
        auto decoder = photo_tests::decoder();
        auto picture = decoder.picture(file);
        REQUIRE(sentence_of(picture) == "");
        CHECK(mean_difference(*picture, reference_pixels(file)) <
              0.6); // rounding of 16 bits, alpha
        auto look = decoder.look(file);
        REQUIRE(sentence_of(look) == "");
        CHECK(mean_difference(thumbnail_of(*look), reference_pixels(file)) < 10.0); // recompressed
    }
}

TEST_CASE("of a moving picture the first is shown") {
    Scratch scratch;
    output_of("convert -size 20x10 xc:red xc:blue " + shell_word(scratch / "two.gif"));
    auto decoder = photo_tests::decoder();
    auto picture = decoder.picture(scratch / "two.gif");
    REQUIRE(sentence_of(picture) == "");
    CHECK(picture->rgba[0] == std::byte{255});
    CHECK(picture->rgba[2] == std::byte{0});
}

TEST_CASE("a picture can be had at any size up to its own") {
    Scratch scratch;
    const auto file = make_picture(scratch / "a.jpg", 1000, 600, "-quality 92");
    auto decoder = photo_tests::decoder();
    for (auto [side, expected] : {std::pair{0, Size{1000, 600}}, std::pair{5000, Size{1000, 600}},
                                  std::pair{700, Size{700, 420}}, std::pair{130, Size{130, 78}},
                                  std::pair{1, Size{1, 1}}}) {
        CAPTURE(side);
        auto picture = decoder.picture(file, side);
        REQUIRE(sentence_of(picture) == "");
        CHECK(picture->size() == expected);
        CHECK(mean_difference(*picture, reference_pixels(file, "-filter box -resize " +
                                                                   size_option(expected))) < 2.0);
    }
}
