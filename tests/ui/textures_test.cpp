#include "ui/frame/textures.h"

#include <doctest/doctest.h>

using namespace fettle::ui;

namespace {
Texture square(int side) {
    const std::vector<std::uint8_t> bytes(std::size_t(side) * std::size_t(side) * 4);
    return Texture(Surface::none, side, side, bytes);
}
} // namespace

TEST_CASE("bytes that do not fit the size make no texture") {
    const std::vector<std::uint8_t> bytes(15);
    CHECK(Texture(Surface::none, 2, 2, bytes).empty());
    CHECK(Texture(Surface::none, 0, 2, {}).empty());
    CHECK(Texture(Surface::none, -1, -1, std::span(bytes).first(4)).empty());
}

TEST_CASE("the cache stays within its bytes and lets go of what was used longest ago") {
    TextureCache cache(3 * 10 * 10 * 4);
    for (const char* key : {"a", "b", "c"})
        cache.put(key, square(10));
    REQUIRE(cache.find("a") != nullptr); // now b is the oldest
    cache.put("d", square(10));
    CHECK(cache.find("b") == nullptr);
    CHECK(cache.find("a") != nullptr);
    CHECK(cache.find("c") != nullptr);
    CHECK(cache.bytes() == 3 * 10 * 10 * 4);
    CHECK(cache.count() == 3);
}

TEST_CASE("putting a key again replaces the picture and counts it once") {
    TextureCache cache(1000000);
    cache.put("a", square(10));
    cache.put("a", square(20));
    CHECK(cache.bytes() == 20 * 20 * 4);
    CHECK(cache.find("a")->width() == 20);
}

TEST_CASE("a picture larger than the bound is kept alone") {
    TextureCache cache(100);
    cache.put("small", square(2));
    cache.put("large", square(50));
    CHECK(cache.find("small") == nullptr);
    CHECK(cache.find("large") != nullptr);
}
