#include "photos/scratch.h"
#include "photos/tile_cache.h"
#include "photos/tile_file.h"

#include <doctest/doctest.h>

#include <thread>

using namespace photo_tests;
using namespace fettle;
using namespace fettle::photos;

namespace {

constexpr const char* kHash = "00112233445566778899aabbccddeeff";

// The tiles of one level put together again.
Picture whole_level(const TileFile& tiles, int level) {
    const auto [width, height] = tiles.layout().level_size(level);
    Picture whole{width, height, std::vector<std::byte>(std::size_t(width) * height * 4)};
    for (TilePlace at{level}; tiles.layout().has(at); ++at.row, at.column = 0)
        for (; tiles.layout().has(at); ++at.column) {
            const auto tile = tiles.tile(at);
            REQUIRE(tile.ok());
            for (int y = 0; y < tile->height; ++y)
                std::copy_n(tile->rgba.begin() + std::ptrdiff_t(y) * tile->width * 4,
                            tile->width * 4,
                            whole.rgba.begin() + (std::ptrdiff_t(at.row * kTileSide + y) * width +
                                                  at.column * kTileSide) *
                                                     4);
        }
    return whole;
}

} // namespace

TEST_CASE("a picture cut into tiles is the upright picture, and half of it at each level") {
    Scratch scratch;
    // Odd sides, so that edges and halves do not come out even; stored on its side.
    const auto file = make_picture(scratch / "a.jpg", 1301, 777, "-quality 95");
    set_exif(file, "Exif.Image.Orientation", "6");
    auto decoder = photo_tests::decoder();
    TileCache cache(scratch.path());
    const std::atomic<bool> stop = false;
    auto tiles = cache.find_or_cut(kHash, file, decoder, stop);
    REQUIRE(tiles.ok());
    CHECK(tiles->full() == Size{777, 1301});
    REQUIRE(tiles->layout().levels() == 3); // 777 by 1301, 389 by 651, 195 by 326
    CHECK(mean_difference(whole_level(*tiles, 0), reference_pixels(file, "-auto-orient")) < 1);
    // Half a level, by ImageMagick's box over an even picture: the last odd row and column apart.
    CHECK(mean_difference(whole_level(*tiles, 1),
                          reference_pixels(file, "-auto-orient -virtual-pixel edge -set "
                                                 "option:distort:viewport 778x1302 -distort SRT 0 "
                                                 "+repage -filter box -resize 389x651!")) < 1);
    CHECK(tiles->layout().level_size(2) == Size{195, 326});
    CHECK(whole_level(*tiles, 2).size() == Size{195, 326});
    CHECK_FALSE(tiles->tile({0, 2, 0}).ok());
    CHECK_FALSE(tiles->tile({3, 0, 0}).ok());
    CHECK_FALSE(tiles->tile({-1, 0, 0}).ok());
}

TEST_CASE("tiles that are there are not cut again, and a broken file of them is") {
    Scratch scratch;
    const auto file = make_picture(scratch / "a.jpg", 700, 600);
    auto decoder = photo_tests::decoder();
    TileCache cache(scratch.path());
    const std::atomic<bool> stop = false;
    REQUIRE(cache.find_or_cut(kHash, file, decoder, stop).ok());
    fs::remove(file); // without it nothing can be cut
    CHECK(cache.find_or_cut(kHash, file, decoder, stop).ok());
    const auto kept = scratch / "tiles" / (std::string(kHash) + ".tiles");
    fs::resize_file(kept, fs::file_size(kept) - 1);
    CHECK(TileFile::open(kept).failure().kind == FailureKind::damaged);
    CHECK_FALSE(cache.find_or_cut(kHash, file, decoder, stop).ok());
    make_picture(file, 700, 600);
    CHECK(cache.find_or_cut(kHash, file, decoder, stop).ok());
}

TEST_CASE("the files of tiles stay within their bound, those looked at last remain") {
    Scratch scratch;
    const auto file = make_picture(scratch / "a.png", 400, 300); // 480,016 bytes of tiles
    auto decoder = photo_tests::decoder();
    TileCache cache(scratch.path(), 1'000'000);
    const std::atomic<bool> stop = false;
    const auto held = [&](const std::string& name) {
        return fs::exists(scratch / "tiles" / (name + ".tiles"));
    };
    const auto now = fs::file_time_type::clock::now();
    for (const auto& [name, age] : {std::pair("first", 3), std::pair("second", 2)}) {
        REQUIRE(cache.find_or_cut(name, file, decoder, stop).ok());
        fs::last_write_time(scratch / "tiles" / (std::string(name) + ".tiles"),
                            now - std::chrono::hours(age));
    }
    CHECK(held("first"));
    REQUIRE(cache.find_or_cut("first", file, decoder, stop).ok()); // looked at again
    auto third = cache.find_or_cut("third", file, decoder, stop);
    REQUIRE(third.ok());
    CHECK(held("first"));
    CHECK_FALSE(held("second"));
    CHECK(held("third"));
    fs::remove_all(scratch / "tiles");
    CHECK(third->tile({0, 0, 0}).ok()); // an open one is read to its end
}

TEST_CASE("cutting is stopped at once and leaves nothing behind") {
    Scratch scratch;
    const auto file = make_picture(scratch / "a.jpg", 700, 600);
    auto decoder = photo_tests::decoder();
    TileCache cache(scratch.path());
    const std::atomic<bool> stop = true;
    const auto cut = cache.find_or_cut(kHash, file, decoder, stop);
    REQUIRE_FALSE(cut.ok());
    CHECK(cut.failure().kind == FailureKind::cancelled);
    CHECK(fs::is_empty(scratch / "tiles"));
    const std::atomic<bool> go_on = false;
    CHECK(cache.find_or_cut(kHash, file, decoder, go_on).ok()); // the decoder serves on
}

TEST_CASE("a picture that is none and a disk that takes nothing are told in a sentence") {
    Scratch scratch;
    write_file(scratch / "no.jpg", std::string_view("no picture at all"));
    auto decoder = photo_tests::decoder();
    const auto none = decoder.cut(scratch / "no.jpg", scratch / "t");
    CHECK(sentence_of(none).find("no.jpg") != std::string::npos);
    const auto file = make_picture(scratch / "a.jpg", 40, 30);
    const auto nowhere = decoder.cut(file, scratch / "no folder" / "t");
    REQUIRE_FALSE(nowhere.ok());
    CHECK(nowhere.failure().kind == FailureKind::io);
    CHECK(sentence_of(nowhere).find("disk has room") != std::string::npos);
}
