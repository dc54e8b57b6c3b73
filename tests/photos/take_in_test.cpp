#include "photos/find_pictures.h"
#include "photos/scratch.h"
#include "photos/shelf.h"
#include "photos/take_in.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <map>

using namespace photo_tests;
using namespace fettle::photos;

namespace {

const fs::path kWorker = FETTLEBOOK_BIN_DIR "/fettlebook-decode";

// What a run did, as its hooks were told.
struct Run {
    std::vector<std::string> kept, held, unreadable;
    std::vector<std::size_t> progress;
    TakeInCounts counts;
};

TakeInHooks recording(Run& run) {
    TakeInHooks hooks;
    hooks.keep = [&run](const Look&, const fs::path& file) {
        run.kept.push_back(file.filename().string());
        return fettle::done();
    };
    hooks.already_held = [&run](const fs::path& file, const std::string&) {
        run.held.push_back(file.filename().string());
    };
    hooks.unreadable = [&run](const fs::path&, const fettle::Failure& why) {
        run.unreadable.push_back(why.sentence);
    };
    hooks.progress = [&run](std::size_t done, std::size_t, const fs::path&) {
        run.progress.push_back(done);
    };
    return hooks;
}

// Six good pictures, a copy of one, and three that are none.
std::vector<fs::path> mixed_folder(const Scratch& scratch) {
    for (int at = 1; at <= 6; ++at)
        make_picture(scratch / ("good" + std::to_string(at) + ".jpg"), 100 + at, 80);
    fs::copy_file(scratch / "good2.jpg", scratch / "good5copy.jpg");
    write_file(scratch / "bad.jpg", std::string_view("text"));
    write_file(scratch / "empty.png", std::string_view());
    const auto whole = bytes_of(scratch / "good1.jpg");
    write_file(scratch / "stub.jpg", std::span(whole).first(30));
    auto found = find_pictures({scratch.path()});
    REQUIRE(found.files.size() == 10);
    return found.files;
}

using Names = std::vector<std::string>;

} // namespace

TEST_CASE("a mixed folder is taken in, in order, duplicates once, bad files named") {
    Scratch scratch;
    const auto files = mixed_folder(scratch);
    for (unsigned workers : {1u, 2u, 5u, 0u}) {
        CAPTURE(workers);
        Run run;
        run.counts = take_in(files, recording(run), workers, {}, kWorker);
        CHECK(run.counts.taken == 6);
        CHECK(run.counts.already_held == 1);
        CHECK(run.counts.unreadable == 3);
        CHECK(run.counts.damaged == 0);
        CHECK_FALSE(run.counts.stopped);
        CHECK(run.kept ==
              Names{"good1.jpg", "good2.jpg", "good3.jpg", "good4.jpg", "good5.jpg", "good6.jpg"});
        CHECK(run.held == Names{"good5copy.jpg"});
        REQUIRE(run.unreadable.size() == 3);
        CHECK(run.unreadable[0] == "bad.jpg is not a picture: it starts with text.");
        CHECK(run.unreadable[1] == "empty.png is empty: the file has 0 bytes.");
        CHECK(run.unreadable[2].starts_with("stub.jpg is damaged: "));
        CHECK(run.progress == std::vector<std::size_t>{1, 2, 3, 4, 5, 6, 7, 8, 9, 10});
    }
}

TEST_CASE("what the notebook holds is not kept again, and a damaged picture is counted") {
    Scratch scratch;
    make_picture(scratch / "held.jpg", 60, 50);
    const auto whole = bytes_of(make_picture(scratch / "new.jpg", 300, 200, "-quality 95"));
    write_file(scratch / "new.jpg", std::span(whole).first(whole.size() / 2));
    Run run;
    auto hooks = recording(run);
    hooks.held = {output_of("xxhsum -H2 " + shell_word(scratch / "held.jpg")).substr(0, 32)};
    run.counts = take_in({scratch / "held.jpg", scratch / "new.jpg"}, hooks, 2, {}, kWorker);
    CHECK(run.held == Names{"held.jpg"});
    CHECK(run.kept == Names{"new.jpg"});
    CHECK(run.counts.damaged == 1);
}

TEST_CASE("stop ends a run between two files, and what was kept stays counted") {
    Scratch scratch;
    const auto files = mixed_folder(scratch);
    std::stop_source stop;
    Run run;
    auto hooks = recording(run);
    hooks.keep = [&](const Look&, const fs::path& file) {
        run.kept.push_back(file.filename().string());
        if (run.kept.size() == 2) stop.request_stop();
        return fettle::done();
    };
    run.counts = take_in(files, hooks, 2, stop.get_token(), kWorker);
    CHECK(run.counts.stopped);
    CHECK(run.counts.taken == 2);
    CHECK(run.kept == Names{"good1.jpg", "good2.jpg"});
    // Stopped inside keep(), while copying: neither taken nor unreadable.
    Run copying;
    auto copying_hooks = recording(copying);
    copying_hooks.keep = [](const Look&, const fs::path&) -> fettle::Done {
        return fettle::Failure{fettle::FailureKind::cancelled, "The copying was stopped."};
    };
    copying.counts = take_in(files, copying_hooks, 2, {}, kWorker);
    CHECK(copying.counts.stopped);
    CHECK(copying.counts.taken == 0);
    CHECK(copying.unreadable == Names{"bad.jpg is not a picture: it starts with text.",
                                      "empty.png is empty: the file has 0 bytes."});
    Run none;
    none.counts = take_in(files, recording(none), 2, stop.get_token(), kWorker);
    CHECK(none.counts.stopped);
    CHECK(none.progress.empty());
}

TEST_CASE("a picture that cannot be kept is named, and its copy gets another chance") {
    Scratch scratch;
    const auto file = make_picture(scratch / "a.jpg", 60, 50);
    fs::copy_file(file, scratch / "b.jpg");
    Run run;
    auto hooks = recording(run);
    hooks.keep = [&](const Look&, const fs::path& original) -> fettle::Done {
        if (original.filename() == "a.jpg")
            return fettle::Failure{fettle::FailureKind::io, "The disk is full."};
        return fettle::done();
    };
    run.counts = take_in({file, scratch / "b.jpg"}, hooks, 1, {}, kWorker);
    CHECK(run.unreadable == Names{"The disk is full."});
    CHECK(run.counts.taken == 1);
}

TEST_CASE("a worker that crashes over one file costs that file alone") {
    Run run;
    run.counts = take_in({"/photos/crash.jpg", "/photos/leave.jpg", "/photos/garbage.jpg"},
                         recording(run), 2, {}, FETTLEBOOK_BIN_DIR "/bad_worker");
    CHECK(run.counts.unreadable == 3);
    CHECK_FALSE(run.counts.stopped);
    REQUIRE(run.unreadable.size() == 3);
    CHECK(run.unreadable[0].starts_with("crash.jpg could not be decoded"));
}

TEST_CASE(
    "an exception from a hook ends the run and reaches the caller; an empty list is no work") {
    Scratch scratch;
    const auto files = mixed_folder(scratch);
    TakeInHooks hooks;
    hooks.keep = [](const Look&, const fs::path&) -> fettle::Done {
        throw std::runtime_error("x");
    };
    CHECK_THROWS_AS(take_in(files, hooks, 3, {}, kWorker), std::runtime_error);
    CHECK_FALSE(take_in({}, hooks, 3, {}, kWorker).stopped);
}

TEST_CASE("originals keep their bytes and their times through take-in and shelf") {
    Scratch scratch, notebook;
    const auto files = mixed_folder(scratch);
    auto state = [&] {
        std::map<std::string, std::pair<std::string, fs::file_time_type>> all;
        for (const auto& file : files)
            all[file.string()] = {output_of("xxhsum -H2 " + shell_word(file)),
                                  fs::last_write_time(file)};
        return all;
    };
    for (const auto& file : files)
        fs::last_write_time(file, fs::file_time_type::clock::now() - std::chrono::hours(999));
    const auto before = state();
    TakeInHooks hooks;
    hooks.keep = [&](const Look& look, const fs::path& file) -> fettle::Done {
        auto place = put_on_shelf(notebook.path(), file, look.hash, {});
        if (!place) return place.failure();
        return fettle::done();
    };
    const auto counts = take_in(files, hooks, 2, {}, kWorker);
    CHECK(counts.taken == 6);
    CHECK(state() == before);
}
