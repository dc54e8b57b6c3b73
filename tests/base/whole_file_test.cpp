#include "base/whole_file.h"
#include "temp_folder.h"

#include <doctest/doctest.h>

#include <fstream>
#include <iterator>

using namespace fettle;

namespace {

std::string text_in(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

} // namespace

TEST_CASE("a file is written whole, over an older one as well") {
    TempFolder folder;
    const auto file = folder / "a.txt";
    REQUIRE(write_whole(file, "first, and longer").ok());
    REQUIRE(write_whole(file, std::string_view("no\0w", 4)).ok());
    CHECK(text_in(file) == std::string("no\0w", 4));
    CHECK_FALSE(std::filesystem::exists(folder / "a.txt.half"));
}

TEST_CASE("where nothing can be written the sentence names the file and nothing is left") {
    TempFolder folder;
    const auto file = folder / "missing/a.txt";
    const auto written = write_whole(file, "text");
    REQUIRE_FALSE(written.ok());
    CHECK(written.failure().kind == FailureKind::io);
    CHECK(written.failure().sentence.find("missing/a.txt") != std::string::npos);
    std::filesystem::create_directories(folder / "b.txt"); // a folder stands in the way
    CHECK_FALSE(write_whole(folder / "b.txt", "text").ok());
    CHECK_FALSE(std::filesystem::exists(folder / "b.txt.half"));
}
