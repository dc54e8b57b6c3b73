#include "photos/folder_watch.h"
#include "photos/scratch.h"

#include <doctest/doctest.h>
#include <fcntl.h>
#include <unistd.h>

#include <thread>

using namespace photo_tests;
using namespace fettle::photos;
using namespace std::chrono_literals;
using Names = std::vector<std::string>;

namespace {

FolderWatch watching(const fs::path& folder) {
    auto watch = FolderWatch::open(folder, 60ms);
    REQUIRE(sentence_of(watch) == "");
    return std::move(*watch);
}

// What is given out within `patience`, at least one picture unless it is short.
Names given(FolderWatch& watch, const fs::path& folder, std::chrono::milliseconds patience = 20s) {
    auto files = watch.next({}, patience);
    REQUIRE(sentence_of(files) == "");
    Names names;
    for (const auto& file : *files)
        names.push_back(file.lexically_relative(folder).string());
    return names;
}

} // namespace

TEST_CASE("pictures that are there, that appear, and that are moved in are given out once each") {
    Scratch scratch;
    const fs::path folder = scratch / "in";
    fs::create_directories(folder / "deeper");
    write_file(folder / "deeper/there.jpg", std::string_view("x"));
    auto watch = watching(folder);
    CHECK(given(watch, folder) == Names{"deeper/there.jpg"});
    CHECK(given(watch, folder, 150ms).empty());

    write_file(folder / "new.heic", std::string_view("x"));
    CHECK(given(watch, folder) == Names{"new.heic"});
    write_file(scratch / "moved.png", std::string_view("x"));
    fs::rename(scratch / "moved.png", folder / "moved.png");
    CHECK(given(watch, folder) == Names{"moved.png"});
    // A download under a name of its own until it is whole.
    write_file(folder / "half.jpg.part", std::string_view("x"));
    CHECK(given(watch, folder, 150ms).empty());
    fs::rename(folder / "half.jpg.part", folder / "half.jpg");
    CHECK(given(watch, folder) == Names{"half.jpg"});
}

TEST_CASE("folders that appear are watched with all that is in them") {
    Scratch scratch;
    auto watch = watching(scratch.path());
    fs::create_directories(scratch / "card/DCIM/100");
    write_file(scratch / "card/DCIM/100/a.jpg", std::string_view("x"));
    CHECK(given(watch, scratch.path()) == Names{"card/DCIM/100/a.jpg"});
    write_file(scratch / "card/DCIM/100/b.jpg", std::string_view("x"));
    CHECK(given(watch, scratch.path()) == Names{"card/DCIM/100/b.jpg"});
}

TEST_CASE("what is hidden, in a cache, or no picture by name is passed over") {
    Scratch scratch;
    for (const char* folder : {"cache", ".hidden"})
        fs::create_directories(scratch / folder);
    auto watch = watching(scratch.path());
    for (const char* name : {"cache/a.jpg", ".hidden/b.jpg", ".c.jpg", "notes.txt", "d.jpg"})
        write_file(scratch / name, std::string_view("x"));
    CHECK(given(watch, scratch.path()) == Names{"d.jpg"});
    CHECK(given(watch, scratch.path(), 150ms).empty());
}

TEST_CASE("a picture is not given out while somebody is still writing it, however slowly") {
    Scratch scratch;
    auto watch = watching(scratch.path());
    const auto file = scratch / "slow.jpg";
    const int writer = ::open(file.c_str(), O_CREAT | O_WRONLY, 0600);
    REQUIRE(writer >= 0);
    for (int piece = 0; piece < 3; ++piece) {
        REQUIRE(::write(writer, "piece", 5) == 5);
        CHECK(given(watch, scratch.path(), 250ms).empty()); // much longer than the settling
    }
    ::close(writer);
    CHECK(given(watch, scratch.path()) == Names{"slow.jpg"});
    CHECK(fs::file_size(file) == 15);

    // The same for one whose writing began before the watching did.
    const int early = ::open((scratch / "early.jpg").c_str(), O_CREAT | O_WRONLY, 0600);
    REQUIRE(::write(early, "piece", 5) == 5);
    auto late = watching(scratch.path());
    CHECK(given(late, scratch.path()) == Names{"slow.jpg"});
    CHECK(given(late, scratch.path(), 250ms).empty());
    ::close(early);
    CHECK(given(late, scratch.path()) == Names{"early.jpg"});
}

TEST_CASE("a wish to stop ends the waiting, and a folder that goes is said to be gone") {
    Scratch scratch;
    fs::create_directories(scratch / "in");
    auto watch = watching(scratch / "in");
    std::stop_source stop;
    std::jthread presser([&] {
        std::this_thread::sleep_for(100ms);
        stop.request_stop();
    });
    auto files = watch.next(stop.get_token(), 250s);
    CHECK(files.ok());
    CHECK(files->empty());
    fs::remove_all(scratch / "in");
    CHECK(sentence_of(watch.next({}, 20s)) == "The folder in is gone: it is watched no more.");
    CHECK(sentence_of(FolderWatch::open(scratch / "in")) == "There is no folder in.");
    write_file(scratch / "file", std::string_view("x"));
    CHECK(sentence_of(FolderWatch::open(scratch / "file")) ==
          "file is no folder: a folder can be watched.");
}
