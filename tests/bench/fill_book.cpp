// fill_book DIR PHOTOS [SEED]: makes a notebook of that size (bench/big_book.h) and says how long
// it took.
#include "bench/big_book.h"

#include <charconv>
#include <chrono>
#include <cstdio>
#include <cstring>
#include <exception>

namespace {

bool read_number(const char* text, auto& number) {
    const char* end = text + std::strlen(text);
    const auto read = std::from_chars(text, end, number);
    return read.ec == std::errc() && read.ptr == end;
}

} // namespace

int main(int count, char** words) {
    fettle::benchmarks::BigBook wish;
    if (count < 3 || count > 4 || !read_number(words[2], wish.photos) || wish.photos < 500 ||
        (count == 4 && !read_number(words[3], wish.seed))) {
        std::fprintf(stderr, "fill_book DIR PHOTOS [SEED]: PHOTOS is 500 or more\n");
        return 2;
    }
    try {
        const auto start = std::chrono::steady_clock::now();
        fettle::benchmarks::make_big_book(words[1], wish);
        const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
        std::printf("%d photos, %d parts, %d entries, %d tasks in %.1f s\n", wish.photos,
                    wish.parts(), wish.entries(), wish.tasks(), took.count());
    } catch (const std::exception& failed) {
        std::fprintf(stderr, "%s\n", failed.what());
        return 1;
    }
}
