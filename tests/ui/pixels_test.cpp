#include "ui/pictures/pixel_fetch.h"
#include "ui/pictures/pixels.h"
#include "ui/workshop.h"

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::Workshop;

TEST_CASE("a thumbnail comes upright and within its size") {
    Workshop shop;
    const auto photo =
        must(photo_by_id(shop.book, shop.real_photo("a.jpg", 800, 600, "2026:03:07 10:00:00", 6)));
    CHECK(shop.pixels.thumbnail(photo) == nullptr); // asked for, and not waited for
    shop.pixels.settle();
    const Texture* thumbnail = shop.pixels.thumbnail(photo);
    REQUIRE(thumbnail != nullptr);
    CHECK(thumbnail->height() == 320); // orientation 6 stands a lying picture up
    CHECK(thumbnail->width() == 240);
}

TEST_CASE("tiles are whole except at the right and lower edges") {
    Workshop shop;
    const auto photo =
        must(photo_by_id(shop.book, shop.real_photo("a.jpg", 1400, 900, "2026:03:07 10:00:00")));
    struct Case {
        int level, column, row, width, height;
    };
    // 1400 = 2 * 512 + 376, 900 = 512 + 388; at half size 700 = 512 + 188, 450
    for (const Case& c : {Case{0, 0, 0, 512, 512}, Case{0, 2, 1, 376, 388}, Case{1, 1, 0, 188, 450},
                          Case{2, 0, 0, 350, 225}}) {
        CAPTURE(c.level);
        CHECK(shop.pixels.tile(photo, {c.level, c.column, c.row}) == nullptr);
        shop.pixels.settle();
        const Texture* tile = shop.pixels.tile(photo, {c.level, c.column, c.row});
        REQUIRE(tile != nullptr);
        CHECK(tile->width() == c.width);
        CHECK(tile->height() == c.height);
    }
    CHECK(shop.pixels.tile(photo, {0, 3, 0}) == nullptr); // outside
    shop.pixels.settle();
    CHECK(shop.pixels.tile(photo, {0, 3, 0}) == nullptr);
}

TEST_CASE("textures stay within their bound and the one used last stays") {
    Workshop shop;
    // One tile of 512 pixels a side is 1 MiB.
    Pixels pixels(shop.book, {.most_texture_bytes = 2u << 20, .surface = Surface::none});
    const auto photo =
        must(photo_by_id(shop.book, shop.real_photo("a.jpg", 1536, 512, "2026:03:07 10:00:00")));
    for (int column = 0; column < 3; ++column) {
        (void)pixels.tile(photo, {0, column, 0});
        pixels.settle();
    }
    CHECK(pixels.tile(photo, {0, 2, 0}) != nullptr);
    CHECK(pixels.tile(photo, {0, 0, 0}) == nullptr); // fell out and is fetched anew
    pixels.settle();
    CHECK(pixels.tile(photo, {0, 0, 0}) != nullptr);
}

TEST_CASE("a photo whose file is gone says why and is not asked for again") {
    Workshop shop;
    const auto photo =
        must(photo_by_id(shop.book, shop.real_photo("a.jpg", 400, 300, "2026:03:07 10:00:00")));
    std::filesystem::remove(photo_file(shop.book, photo));
    CHECK(shop.pixels.failure(photo).empty());
    (void)shop.pixels.picture(photo, 256);
    shop.pixels.settle();
    CHECK(shop.pixels.picture(photo, 256) == nullptr);
    CHECK(holds(shop.pixels.failure(photo), "a.jpg"));
}

TEST_CASE("what is no longer asked for is given up, what is asked for again stays") {
    TempFolder folder;
    PixelFetch nobody_works({.cache_folder = folder.path(), .workers = 0});
    nobody_works.new_frame();
    nobody_works.ask({.key = "scrolled away"});
    for (int i = 0; i < 3; ++i)
        nobody_works.new_frame();
    nobody_works.wait_idle(); // would wait for ever if it had been kept
    CHECK(nobody_works.take(1).empty());
}

TEST_CASE("large tiles come from the picture cut once, within the bound of textures") {
    Workshop shop;
    Pixels pixels(shop.book, {.most_texture_bytes = 3u << 20, .surface = Surface::none});
    const auto photo =
        must(photo_by_id(shop.book, shop.real_photo("a.jpg", 2100, 1100, "2026:03:07 10:00:00")));
    CHECK_FALSE(pixels.wait_for_cut(photo));
    CHECK(pixels.cutting(photo) == Pixels::Cutting::going_on);
    pixels.settle();
    REQUIRE(pixels.wait_for_cut(photo));
    CHECK(pixels.cutting(photo) == Pixels::Cutting::no);
    for (int column = 0; column < 5; ++column) {
        CHECK(pixels.large_tile(photo, {0, column, 0}) == nullptr);
        pixels.settle();
        const Texture* tile = pixels.large_tile(photo, {0, column, 0});
        REQUIRE(tile != nullptr);
        CHECK(tile->width() == (column == 4 ? 2100 - 4 * 512 : 512));
        CHECK(pixels.texture_bytes() <= (3u << 20));
    }
    CHECK(pixels.large_tile_here(photo, {0, 0, 0}) == nullptr); // the oldest fell out
    CHECK(pixels.large_tile(photo, {0, 5, 0}) == nullptr);      // there is none
    // Another window finds the tiles on the disk, even without the photo.
    std::filesystem::remove(photo_file(shop.book, photo));
    (void)shop.pixels.wait_for_cut(photo);
    shop.pixels.settle();
    CHECK(shop.pixels.is_cut(photo));
}
