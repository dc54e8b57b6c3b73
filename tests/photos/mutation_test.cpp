#include "photos/decoder.h"
#include "photos/scratch.h"

#include <doctest/doctest.h>

#include <random>

using namespace photo_tests;
using namespace fettle::photos;

namespace {

// A few bytes changed, or a stretch cut out or doubled; most often near the start, where headers
// are.
Bytes mutated(Bytes bytes, std::mt19937& random) {
    const bool in_header = random() % 3 != 0;
    const auto place = [&] {
        return random() % (in_header ? std::min<std::size_t>(bytes.size(), 700) : bytes.size());
    };
    switch (random() % 4) {
    case 0:
        bytes.resize(place());
        break;
    case 1: {
        const auto at = place();
        const auto end = std::min<std::size_t>(bytes.size(), at + random() % 60);
        const Bytes stretch(bytes.begin() + std::ptrdiff_t(at),
                            bytes.begin() + std::ptrdiff_t(end));
        bytes.insert(bytes.begin() + std::ptrdiff_t(at), stretch.begin(), stretch.end());
        break;
    }
    default:
        for (auto count = 1 + random() % 20; count > 0; --count)
            bytes[place()] = static_cast<std::byte>(random());
    }
    return bytes;
}

} // namespace

TEST_CASE("no mutation of a picture crashes the caller or the worker, or goes without a sentence") {
    Scratch scratch;
    const auto jpeg = make_picture(scratch / "a.jpg", 160, 120);
    set_exif(jpeg, "Exif.Photo.DateTimeOriginal", "2026:03:07 19:42:05");
    set_exif(jpeg, "Exif.Image.Orientation", "6");
    set_exif(jpeg, "Exif.GPSInfo.GPSLatitude", "54/1 2/1 30/1");
    const Bytes originals[] = {
        bytes_of(jpeg),
        bytes_of(make_picture(scratch / "p.jpg", 160, 120, "-interlace JPEG")),
        bytes_of(make_picture(scratch / "a.png", 60, 40)),
        bytes_of(make_picture(scratch / "a.gif", 60, 40)),
        bytes_of(make_picture(scratch / "a.bmp", 60, 40)),
        bytes_of(make_picture(scratch / "a.webp", 60, 40)),
        bytes_of(make_picture(scratch / "a.tif", 60, 40, "-compress LZW")),
        bytes_of(make_picture(scratch / "a.heic", 64, 48))};
    std::mt19937 random(20260307);
    auto decoder = photo_tests::decoder();
    int shown = 0, damaged = 0, refused = 0;
    for (int round = 0; round < 800; ++round) {
        CAPTURE(round);
        // Two of five rounds go to JPEG, which is what cameras write.
        const auto& original = originals[round % 5 < 2 ? round % 2 : 2 + random() % 6];
        write_file(scratch / "mutated.jpg", mutated(original, random));
        auto look = decoder.look(scratch / "mutated.jpg");
        if (look) {
            ++(look->damaged ? damaged : shown);
            continue;
        }
        ++refused;
        CHECK(look.failure().kind != fettle::FailureKind::plugin);
        CHECK(look.failure().sentence.starts_with("mutated.jpg "));
    }
    CHECK(shown > 0);
    CHECK(damaged > 0);
    CHECK(refused > 0);
}
