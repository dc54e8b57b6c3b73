// Pictures spoilt in known ways, by sums of the tests' own (blur_scene.h).
#include "photos/blur_scene.h"
#include "photos/camera_samples.h"
#include "photos/likeness.h"
#include "photos/scratch.h"
#include "photos/tag_scene.h"

#include <doctest/doctest.h>

#include <bit>

using namespace fettle::photos;
using namespace blur_tests;

namespace {

Grey subject(unsigned seed) {
    std::mt19937 random(seed);
    return grey_of(tag_tests::workshop_texture(640, 480, random));
}

double sharpness(const Grey& grey) {
    const auto figure = sharpness_of(grey);
    REQUIRE(figure.has_value());
    return *figure;
}

} // namespace

TEST_CASE("a blurred or shaken picture is less sharp than it was, one darker by a fifth hardly") {
    const Grey sharp = subject(1);
    std::mt19937 random(2);
    const auto retaken = [&random](const Grey& grey, double light = 1) {
        return sharpness(again(grey, 0.02, light, 1, random));
    };
    const double as_taken = retaken(sharp);
    for (const double sigma : {1.0, 2.0, 4.0}) {
        CAPTURE(sigma);
        CHECK(retaken(blurred(sharp, sigma)) < 0.6 * as_taken);
    }
    CHECK(retaken(shaken(sharp, 9, true)) < 0.6 * as_taken);
    CHECK(retaken(sharp, 0.8) > 0.75 * as_taken);
}

TEST_CASE(
    "a plain field has no sharpness, and a picture of a few pixels neither that nor a likeness") {
    CHECK_FALSE(sharpness_of(Grey{640, 480, std::vector<std::uint8_t>(640 * 480, 90)}).has_value());
    const Grey tiny{4, 4, std::vector<std::uint8_t>(16, 90)};
    CHECK_FALSE(sharpness_of(tiny).has_value());
    CHECK_FALSE(likeness_of(tiny).has_value());
    CHECK_FALSE(sharpness_of(Grey{4000, 1, std::vector<std::uint8_t>(4000, 90)}).has_value());
}

TEST_CASE("the likeness has a bit for each field that is brighter than the one to its right") {
    // 9 x 8 fields of 10 x 10 pixels, darker to the right in the upper row alone: eight bits, the
    // first ones (Krawetz 2013, from memory: left against right, row by row).
    Grey steps{90, 80, {}};
    for (int y = 0; y < 80; ++y)
        for (int x = 0; x < 90; ++x)
            steps.samples.push_back(
                std::uint8_t(y < 10 ? 200 - 20 * (x / 10) : 20 + 20 * (x / 10)));
    CHECK(likeness_of(steps) == 0xff00000000000000u);
}

TEST_CASE("a look carries sharpness and likeness, the likeness of the picture as it is held") {
    photo_tests::Scratch scratch;
    auto decoder = photo_tests::decoder();
    const auto lying = photo_tests::make_picture(scratch / "a.jpg", 640, 480);
    // The same pixels turned by ImageMagick and marked so that they are turned back in the look.
    photo_tests::output_of("convert " + photo_tests::shell_word(lying) +
                           " -rotate 270 -quality 98 " +
                           photo_tests::shell_word(scratch / "b.jpg"));
    photo_tests::set_exif(scratch / "b.jpg", "Exif.Image.Orientation", "6");
    const auto one = decoder.look(lying), other = decoder.look(scratch / "b.jpg");
    REQUIRE((one.ok() && other.ok()));
    REQUIRE((one->likeness && other->likeness));
    CHECK(std::popcount(*one->likeness ^ *other->likeness) <= 2);
    CHECK(one->sharpness.value_or(-1) >= 0);
}
