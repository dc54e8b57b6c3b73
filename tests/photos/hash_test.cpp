// Against the command xxhsum (package xxhash), the reference implementation's own.
#include "photos/hashing.h"
#include "photos/scratch.h"
#include "photos/shelf.h"

#include <doctest/doctest.h>

#include <random>

using namespace photo_tests;

TEST_CASE("the hash of a file is what xxhsum -H2 prints, whole, in pieces and by the worker") {
    Scratch scratch;
    std::mt19937 random(5);
    for (std::size_t size : {1u, 16u, 17u, 128u, 129u, 240u, 241u, 1024u, 1'048'576u, 3'000'001u}) {
        CAPTURE(size);
        Bytes bytes(size);
        for (auto& byte : bytes)
            byte = static_cast<std::byte>(random());
        write_file(scratch / "bytes", bytes);
        const auto expected =
            output_of("xxhsum -H2 " + shell_word(scratch / "bytes")).substr(0, 32);

        fettle::photos::Hashing hashing;
        for (std::size_t at = 0; at < size; at += 700'001)
            hashing.add(std::span(bytes).subspan(at, std::min<std::size_t>(700'001, size - at)));
        CHECK(hashing.digits() == expected);
        CHECK(*fettle::photos::hash_of_file(scratch / "bytes") == expected);
        auto decoder = photo_tests::decoder();
        CHECK(*decoder.hash(scratch / "bytes") == expected);
    }
}

TEST_CASE("the hash of nothing is the one the reference gives") {
    Scratch scratch;
    write_file(scratch / "empty", std::string_view());
    CHECK(fettle::photos::Hashing().digits() ==
          output_of("xxhsum -H2 " + shell_word(scratch / "empty")).substr(0, 32));
}
