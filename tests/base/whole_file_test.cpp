#include "base/half_folder.h"
#include "base/private_place.h"
#include "base/whole_file.h"
#include "temp_folder.h"

#include <doctest/doctest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>

using namespace fettle;

namespace {

namespace fs = std::filesystem;

unsigned mode_of(const fs::path& path) {
    struct stat found {};
    REQUIRE(lstat(path.c_str(), &found) == 0);
    return found.st_mode & 07777;
}

std::vector<fs::path> entries_of(const fs::path& folder) {
    std::vector<fs::path> entries;
    for (const auto& entry : fs::directory_iterator(folder))
        entries.push_back(entry.path());
    std::ranges::sort(entries);
    return entries;
}

// The umask while this stands.
class Umask {
  public:
    explicit Umask(mode_t mask) : before_(umask(mask)) {}
    ~Umask() { umask(before_); }
    Umask(const Umask&) = delete;
    Umask& operator=(const Umask&) = delete;

  private:
    mode_t before_;
};

constexpr const char* kEnded = "4194305"; // more than any process's number

} // namespace

TEST_CASE("a file is written whole, over an older one as well") {
    TempFolder folder;
    const auto file = folder / "a.txt";
    REQUIRE(write_whole(file, "first, and longer").ok());
    REQUIRE(write_whole(file, std::string_view("no\0w", 4)).ok());
    CHECK(file_text(file) == std::string("no\0w", 4));
    CHECK(entries_of(folder.path()).size() == 1);
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
    CHECK(entries_of(folder.path()).size() == 1);
}

TEST_CASE("a file is open to nobody else while it grows, then as the umask or the older one says") {
    TempFolder folder;
    const Umask umask(022);
    const auto file = folder / "a.txt";
    for (const unsigned before : {0U, 0600U, 0664U}) {
        if (before != 0) fs::permissions(file, fs::perms(before));
        WholeFile whole(file);
        CHECK(whole.write("text"));
        for (const auto& entry : entries_of(folder.path()))
            if (entry != file) CHECK(mode_of(entry) == 0600);
        REQUIRE(whole.keep().ok());
        CHECK(mode_of(file) == (before != 0 ? before : 0644U));
    }
}

TEST_CASE("what is laid in a new file's way is neither followed nor written to") {
    TempFolder folder;
    const auto other = folder / "other", file = folder / "a.txt";
    write_file(other, "not ours");
    fs::permissions(other, fs::perms(0640));
    for (const auto* name : {"a.txt.half", "a.txt"})
        fs::create_symlink(other, folder / name);
    const auto left = folder / ("a.txt-" + std::string(kEnded) + "-abcdefgh.half");
    fs::create_symlink(other, left);
    REQUIRE(write_whole(file, "text").ok());
    CHECK(file_text(other) == "not ours");
    CHECK(mode_of(other) == 0640);
    CHECK(file_text(file) == "text");
    CHECK_FALSE(fs::is_symlink(file));
    CHECK_FALSE(fs::is_symlink(left)); // what killed work left is swept, a link as a link

    fs::path one, two;
    for (auto* made : {&one, &two}) {
        const int descriptor = make_private_file(folder.path(), "x-", ".half", *made);
        REQUIRE(descriptor >= 0);
        close(descriptor);
    }
    CHECK(one != two);
    CHECK(left_halves(folder.path(), "x-", ".half").empty()); // their maker lives
    const auto long_name = folder / std::string(255, 'n');
    CHECK(write_whole(long_name, "text").ok());
}

TEST_CASE("what killed work left is told by its number alone, and a link goes as a link") {
    TempFolder folder;
    write_file(folder / "kept", "kept");
    const std::string ended = kEnded;
    const std::vector<fs::path> left = {folder / ("x-" + ended + ".half"),
                                        folder / ("x-" + ended + "-abcdefgh.half")};
    write_file(left[0], "half");
    fs::create_directory_symlink(folder.path(), left[1]);
    for (const auto& others : {"x-y.half", "x-.half", "x-12ab.half"})
        write_file(folder / others, "the user's");
    write_file(folder / ("x-" + ended + "-Abc.half"), "the user's");
    auto found = left_halves(folder.path(), "x-", ".half");
    CHECK(std::ranges::is_permutation(found, left));
    CHECK(std::ranges::is_permutation(left_halves(folder.path(), "", ".half"), left));
    sweep_left_halves(folder.path(), "x-", ".half");
    CHECK(left_halves(folder.path(), "x-", ".half").empty());
    CHECK(file_text(folder / "kept") == "kept");
    CHECK(entries_of(folder.path()).size() == 5);
}

TEST_CASE("a folder is open to nobody else in the making, then as the umask or an empty one says") {
    TempFolder folder;
    const Umask umask(022);
    const auto place = folder / "book";
    for (const unsigned before : {0U, 0700U}) {
        if (before != 0) {
            fs::create_directory(place);
            fs::permissions(place, fs::perms(before));
        }
        auto half = HalfFolder::start(place);
        REQUIRE(half.ok());
        CHECK(mode_of(half->path()) == 0700);
        REQUIRE(half->settle().ok());
        CHECK(mode_of(place) == (before != 0 ? before : 0755U));
        fs::remove_all(place);
    }
    fs::create_directory(folder / "elsewhere");
    fs::create_directory_symlink(folder / "elsewhere", place); // stands for the folder behind it
    auto half = HalfFolder::start(place);
    REQUIRE(half.ok());
    write_file(half->path() / "a", "text");
    REQUIRE(half->settle().ok());
    CHECK(fs::exists(folder / "elsewhere" / "a"));
    fs::create_symlink(folder / "nowhere", folder / "dangling");
    const auto dangling = HalfFolder::start(folder / "dangling");
    REQUIRE_FALSE(dangling.ok());
    CHECK(dangling.failure().sentence.find("leads nowhere") != std::string::npos);
    CHECK_FALSE(fs::exists(folder / "nowhere"));
    const auto mounted = HalfFolder::start("/dev/shm"); // a mount root wherever there is one
    REQUIRE_FALSE(mounted.ok());
    CHECK(mounted.failure().kind == FailureKind::refused);
}
