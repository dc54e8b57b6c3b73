#include "photos/picture.h"
#include "photos/scratch.h"

#include <doctest/doctest.h>

#include <cmath>

using namespace photo_tests;
using namespace fettle::photos;

namespace {

std::string crop_option(const Region& region) {
    return "-crop " + std::to_string(region.width) + "x" + std::to_string(region.height) + "+" +
           std::to_string(region.x) + "+" + std::to_string(region.y) + " +repage ";
}

Picture grey_ramp(Size size) {
    Picture picture{size.width, size.height, {}};
    for (int y = 0; y < size.height; ++y)
        for (int x = 0; x < size.width; ++x)
            for (int channel = 0; channel < 4; ++channel)
                picture.rgba.push_back(static_cast<std::byte>(channel == 3 ? 255 : 10 * x + y));
    return picture;
}

} // namespace

TEST_CASE("a region is the crop of the upright picture, at full scale and below") {
    Scratch scratch;
    const auto jpeg = make_picture(scratch / "a.jpg", 480, 360, "-quality 92");
    set_exif(jpeg, "Exif.Image.Orientation", "6");
    const auto png = make_picture(scratch / "b.png", 360, 480);
    auto decoder = photo_tests::decoder();
    for (const auto& file : {jpeg, png}) {
        for (const auto& region :
             {Region{0, 0, 360, 480, 1}, Region{50, 60, 128, 100, 1}, Region{359, 479, 1, 1, 1},
              Region{0, 0, 360, 480, 0.25}, Region{128, 64, 128, 128, 0.5},
              Region{50, 150, 200, 160, 0.3}}) {
            CAPTURE(file.string());
            CAPTURE(region.x);
            CAPTURE(region.scale);
            auto picture = decoder.region(file, region);
            REQUIRE(sentence_of(picture) == "");
            const auto size = std::to_string(std::lround(region.width * region.scale)) + "x" +
                              std::to_string(std::lround(region.height * region.scale)) + "!";
            const auto reference = reference_pixels(file, "-auto-orient " + crop_option(region) +
                                                              "-filter box -resize " + size);
            CHECK(mean_difference(*picture, reference) < 3.0);
        }
    }
}

TEST_CASE("a region outside the picture, or at a scale that is none, is refused by name") {
    Scratch scratch;
    const auto file = make_picture(scratch / "a.jpg", 120, 90);
    auto decoder = photo_tests::decoder();
    for (const auto& region :
         {Region{-1, 0, 10, 10, 1}, Region{0, 0, 121, 90, 1}, Region{0, 80, 10, 11, 1},
          Region{0, 0, 0, 10, 1}, Region{2147483647, 0, 2147483647, 1, 1}}) {
        CAPTURE(region.x);
        CHECK(sentence_of(decoder.region(file, region)) ==
              "a.jpg was asked for a region outside its 120 x 90 pixels.");
    }
    for (double scale : {0.0, -1.0, 1.5}) {
        const auto answer = decoder.region(file, {0, 0, 10, 10, scale});
        CHECK(sentence_of(answer).find("more than 0 and at most 1") != std::string::npos);
    }
}

TEST_CASE("a region follows the file when it is replaced") {
    Scratch scratch;
    const auto file = make_picture(scratch / "a.png", 60, 40);
    auto decoder = photo_tests::decoder();
    REQUIRE(decoder.region(file, {0, 0, 60, 40, 1}).ok());
    fs::rename(make_picture(scratch / "b.png", 30, 20), file);
    CHECK(sentence_of(decoder.region(file, {0, 0, 60, 40, 1})) ==
          "a.png was asked for a region outside its 30 x 20 pixels.");
}

TEST_CASE("shrinking takes the mean of the covered area, worked out by hand") {
    const auto ramp = grey_ramp({4, 2}); // 0 10 20 30 over 1 11 21 31
    CHECK(shrunk(ramp, {4, 2}).rgba == ramp.rgba);
    auto grey = [](const Picture& picture, int at) {
        return std::to_integer<int>(picture.rgba[std::size_t(at) * 4]);
    };
    const auto half = shrunk(ramp, {2, 1});
    CHECK(grey(half, 0) == 6);  // (0+10+1+11)/4 = 5.5, rounded up
    CHECK(grey(half, 1) == 26); // 25.5
    const auto third = shrunk(ramp, Area{0, 0, 4, 2}, {3, 2});
    CHECK(grey(third, 0) == 3);  // (0 + 10/3) / (4/3) = 2.5
    CHECK(grey(third, 1) == 15); // (10*2/3 + 20*2/3) / (4/3)
    const auto inside = shrunk(ramp, Area{0.5, 0, 2, 1}, {1, 1});
    CHECK(grey(inside, 0) == 10); // (0/2 + 10 + 20/2) / 2
}

TEST_CASE("fitting keeps proportions, never enlarges and never comes to nothing") {
    CHECK(fitted({4000, 3000}, 320) == Size{320, 240});
    CHECK(fitted({3000, 4000}, 320) == Size{240, 320});
    CHECK(fitted({100, 50}, 320) == Size{100, 50});
    CHECK(fitted({100000, 3}, 320) == Size{320, 1});
}
