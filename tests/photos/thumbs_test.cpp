#include "photos/scratch.h"
#include "photos/thumbs.h"

#include <doctest/doctest.h>

#include <functional>
#include <random>

using namespace photo_tests;
using namespace fettle::photos;

namespace {

ThumbnailCache opened(const fs::path& folder) {
    auto cache = ThumbnailCache::open(folder);
    REQUIRE(sentence_of(cache) == "");
    return std::move(*cache);
}

const Bytes kOne(15'000, std::byte{1}), kTwo(9'000, std::byte{2});

} // namespace

TEST_CASE("thumbnails are found by their hash, also after reopening, and replace themselves") {
    Scratch scratch;
    {
        auto cache = opened(scratch / "cache");
        CHECK_FALSE(cache.find("aa").has_value());
        CHECK(cache.put("aa", kOne).ok());
        CHECK(cache.put("bb", kOne).ok());
        CHECK(cache.put("bb", kTwo).ok());
    }
    auto cache = opened(scratch / "cache");
    CHECK(cache.find("aa") == kOne);
    CHECK(cache.find("bb") == kTwo);
    CHECK_FALSE(cache.find("cc").has_value());
    auto second = opened(scratch / "cache"); // another thread's
    CHECK(second.put("cc", kTwo).ok());
    CHECK(cache.find("cc") == kTwo);
}

TEST_CASE("a cache that was deleted, garbled, cut or belongs to something else is made anew") {
    Scratch scratch;
    const auto file = scratch / "thumbs.db";
    auto fill = [&] {
        auto cache = opened(scratch.path());
        for (int at = 0; at < 50; ++at)
            REQUIRE(cache.put(std::to_string(at), kOne).ok());
    };
    std::mt19937 random(3);
    const std::pair<const char*, std::function<void()>> harms[] = {
        {"deleted", [&] { fs::remove(file); }},
        {"emptied", [&] { write_file(file, std::string_view()); }},
        {"text", [&] { write_file(file, std::string_view("this is no database at all")); }},
        {"cut", [&] { fs::resize_file(file, fs::file_size(file) / 3); }},
        {"garbled",
         [&] {
             auto bytes = bytes_of(file);
             for (std::size_t at = 200; at < bytes.size(); ++at)
                 bytes[at] = static_cast<std::byte>(random());
             write_file(file, bytes);
         }},
        {"foreign",
         [&] {
             fs::remove(file);
             auto bytes = bytes_of(scratch / "foreign.db");
             write_file(file, bytes);
         }},
    };
    {
        auto other = opened(scratch / "other");
        REQUIRE(other.put("x", kOne).ok());
    }
    // Another table of that name: SQLite's header stays right, the columns do not.
    auto bytes = bytes_of(scratch / "other/thumbs.db");
    const std::string text(reinterpret_cast<const char*>(bytes.data()), bytes.size());
    const auto column = text.find("jpeg BLOB");
    REQUIRE(column != std::string::npos);
    bytes[column] = std::byte{'z'};
    write_file(scratch / "foreign.db", bytes);

    for (const auto& [name, harm] : harms) {
        const std::string harmed = name;
        CAPTURE(harmed);
        fill();
        harm();
        auto cache = opened(scratch.path());
        for (int at = 0; at < 50; ++at)
            cache.find(std::to_string(at)); // may or may not be there
        CHECK(cache.put("new", kTwo).ok());
        CHECK(cache.find("new") == kTwo);
    }
}

TEST_CASE("a cache deleted while it is open goes on working") {
    Scratch scratch;
    auto cache = opened(scratch / "cache");
    CHECK(cache.put("aa", kOne).ok());
    fs::remove_all(scratch / "cache");
    CHECK_NOTHROW(cache.find("aa"));
    (void)cache.put("bb", kTwo); // lost with the file, or refused; never worse
    auto fresh = opened(scratch / "cache");
    CHECK(fresh.put("bb", kTwo).ok());
    CHECK(fresh.find("bb") == kTwo);
}

TEST_CASE("a folder that cannot be written to is a failure that names it") {
    Scratch scratch;
    write_file(scratch / "cache", std::string_view("a file"));
    CHECK(sentence_of(ThumbnailCache::open(scratch / "cache")).starts_with("cache cannot be made"));
}

TEST_CASE("thumbnails become pixels, and what is none, or too large, does not") {
    Scratch scratch;
    const auto file = make_picture(scratch / "a.jpg", 320, 200);
    auto picture = decode_thumbnail(bytes_of(file));
    REQUIRE(sentence_of(picture) == "");
    CHECK(mean_difference(*picture, reference_pixels(file)) < 1.0);
    auto bytes = bytes_of(file);
    CHECK_FALSE(decode_thumbnail(std::span(bytes).first(bytes.size() / 2)).ok());
    CHECK_FALSE(decode_thumbnail({}).ok());
    CHECK_FALSE(decode_thumbnail(kOne).ok());
    CHECK_FALSE(decode_thumbnail(bytes_of(make_picture(scratch / "b.jpg", 1100, 20))).ok());
}

TEST_CASE("a cache whose making was cut short is in order, and made on when it is wanted") {
    Scratch scratch;
    fs::create_directory(scratch / "cache");
    write_file(scratch / "cache/thumbs.db", "");
    CHECK(thumbnails_are_sound(scratch / "cache"));
    write_file(scratch / "cache/thumbs.db-journal", std::string(512, '\0')); // as SQLite begins one
    CHECK(thumbnails_are_sound(scratch / "cache"));
    auto cache = opened(scratch / "cache");
    CHECK(cache.put("aa", kOne).ok());
    CHECK(cache.find("aa") == kOne);
    CHECK(thumbnails_are_sound(scratch / "cache"));
}
