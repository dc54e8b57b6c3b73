// Tag cards, tag runs, clocks and the watched folder, as typed.
#include "run.h"

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <thread>

using namespace cli_tests;

namespace {

// A photo of the card of one part: its printed sheet, with EXIF.
void photograph(const Bench& bench, const std::string& tag, const fs::path& file,
                const std::string& taken) {
    const auto pdf = (bench.folder / "one.pdf").string();
    REQUIRE(bench({"tags", pdf, "--part", tag, "--size", "large"}).code == 0);
    output_of("pdftoppm -r 100 -png -singlefile " + shell_word(pdf) + " " +
              shell_word((bench.folder / "sheet").string()));
    output_of("convert " + shell_word((bench.folder / "sheet.png").string()) +
              " -rotate 17 -quality 90 " + shell_word(file.string()));
    output_of("exiv2 -M 'set Exif.Photo.DateTimeOriginal " + taken +
              "' -M 'set Exif.Image.Model P2026' " + shell_word(file.string()));
}

void snap(const fs::path& file, int seed, const std::string& taken) {
    make_picture(file, seed, taken);
    output_of("exiv2 -M 'set Exif.Image.Model P2026' " + shell_word(file.string()));
}

} // namespace

TEST_CASE("a printed card is read at take-in, and the photos after it follow on a yes") {
    Bench bench;
    const auto camera = bench.folder / "camera";
    fs::create_directories(camera);
    CHECK(bench({"part", "add", "spring hanger", "--tag", "H7"}).code == 0);
    photograph(bench, "H7", camera / "a.jpg", "2026:03:07 19:42:05");
    snap(camera / "b.jpg", 1, "2026:03:07 19:43:00");
    snap(camera / "c.jpg", 2, "2026:03:07 19:44:00");
    snap(camera / "d.jpg", 3, "2026:03:07 20:30:00");

    const Ran taken = bench({"take-in", camera.string()});
    CHECK(taken.out == "taken 4, already held 0, tied by tag 1, unreadable 0\n"
                       "2 photos proposed to follow a tag; `runs list` shows them\n");
    CHECK(bench.answer({"photos", "--part", "H7"}).size() == 1);
    CHECK(bench({"runs", "list"}).out ==
          "run 1  H7 spring hanger  7 Mar 2026, 19:42  photos 1-3  proposed\n");
    CHECK(bench({"runs", "move", "1", "--last", "2"}).out ==
          "run 1  H7 spring hanger  7 Mar 2026, 19:42  photos 1-2  proposed\n");
    CHECK(bench({"undo"}).code == 0);
    const json accepted = bench.answer({"runs", "accept", "--all", "--stage", "before"});
    CHECK(accepted.at("accepted") == json::array({1}));
    CHECK(bench.answer({"photos", "--part", "H7"}).size() == 3);
    CHECK(bench({"runs", "list"}).out == "no runs\n");
    CHECK(bench.answer({"runs", "list", "--all"})[0].at("state") == "accepted");
    CHECK(bench({"undo"}).out == "undone: tied 3 photos to H7 spring hanger\n");
    CHECK(bench({"runs", "dismiss", "1"}).code == 0);
    CHECK(bench.answer({"photos", "--part", "H7"}).size() == 1);
    for (int step = 0; step < 2; ++step)
        CHECK(bench({"undo"}).code == 0); // the dismissal, the take-in
    CHECK(bench.answer({"photos"}).empty());
}

TEST_CASE("a tag without a part is named, and tied when the part has been added") {
    Bench bench;
    CHECK(bench({"part", "add", "axle", "--tag", "X9"}).code == 0);
    photograph(bench, "X9", bench.folder / "a.jpg", "2026:03:07 19:42:05");
    CHECK(bench({"part", "set", "X9", "tag=X1"}).code == 0);
    const Ran taken = bench({"take-in", (bench.folder / "a.jpg").string()});
    CHECK(taken.code == 0);
    CHECK(holds(taken.err, "The tag X9 was read, but no part has it"));
    CHECK(bench({"part", "set", "X1", "tag=X9"}).code == 0);
    CHECK(bench({"runs", "propose"}).out == "tied by tag 1, proposed 0\n");
    CHECK(bench.answer({"photos", "--part", "X9"}).size() == 1);
}

TEST_CASE("a camera's clock is put right by what a photographed clock showed") {
    Bench bench;
    snap(bench.folder / "a.jpg", 1, "2026:03:07 20:44:30");
    CHECK(bench({"take-in", (bench.folder / "a.jpg").string()}).code == 0);
    CHECK(bench({"clock"}).out == "P2026  1 photo  right\n");
    CHECK(bench({"clock", "P2026", "--photo", "1", "--showed", "19:42:05"}).out ==
          "P2026  1 photo  1:02:25 ahead\n");
    CHECK(bench.answer({"photos"})[0].at("taken") == "2026-03-07T19:42:05");
    CHECK(bench.answer({"photos"})[0].at("taken_by_camera") == "2026-03-07T20:44:30");
    const json zoned = bench.answer({"clock", "p2026", "--zone", "+01:00"});
    CHECK(zoned ==
          json{{"camera", "P2026"}, {"photos", 1}, {"ahead_ms", 3745000}, {"zone", "+01:00"}});
    CHECK(bench.answer({"photos"})[0].at("taken") == "2026-03-07T19:42:05+01:00");
    CHECK(bench({"clock", "P2026", "--as-written"}).code == 0);
    CHECK(bench.answer({"photos"})[0].at("taken") == "2026-03-07T20:44:30");
    for (const auto& wrong : std::vector<std::vector<std::string>>{
             {"clock", "P9", "--photo", "1", "--showed", "19:42"},
             {"clock", "P2026", "--photo", "1", "--showed", "noon"},
             {"clock", "P2026", "--zone", "Kent"},
             {"runs", "accept", "7"},
             {"runs", "move", "7", "--last", "1"},
             {"tags", "out.pdf", "--paper", "legal"},
             {"tags", "out.pdf"}}) {
        const Ran ran = bench(wrong);
        CHECK(ran.code == 1);
        CHECK(ran.one_sentence());
    }
    CHECK(bench({"clock", "P2026", "--photo", "1"}).code == 2);
    CHECK(bench({"runs", "accept"}).code == 2);
}

TEST_CASE("a watched folder is taken in as it fills, until Ctrl-C") {
    Bench bench;
    const auto camera = bench.folder / "camera";
    fs::create_directories(camera);
    snap(camera / "there.jpg", 1, "2026:03:07 19:42:05");
    const std::string program = FETTLEBOOK_BIN_DIR "/fettlebook";
    const std::string book = bench.book.string(), from = camera.string();
    const auto out = bench.folder / "out";
    const pid_t child = fork();
    if (child == 0) {
        std::signal(SIGINT, SIG_DFL);
        const int file = open(out.c_str(), O_CREAT | O_WRONLY, 0600);
        dup2(file, STDOUT_FILENO);
        execl(program.c_str(), "fettlebook", "--notebook", book.c_str(), "watch", from.c_str(),
              nullptr);
        _exit(127);
    }
    REQUIRE(child > 0);
    const auto wait_for = [&](std::size_t photos) {
        for (int tries = 0; tries < 1000 && bench.answer({"photos"}).size() < photos; ++tries)
            std::this_thread::sleep_for(std::chrono::milliseconds(30));
        CHECK(bench.answer({"photos"}).size() == photos);
    };
    wait_for(1);
    // Copied under another name and renamed, as careful programs do.
    snap(bench.folder / "new.jpg", 2, "2026:03:07 19:43:05");
    fs::copy_file(bench.folder / "new.jpg", camera / "second.jpg");
    wait_for(2);
    CHECK(bench({"part", "add", "axle"}).code == 0); // the notebook is free in between
    kill(child, SIGINT);
    int status = 0;
    REQUIRE(waitpid(child, &status, 0) == child);
    CHECK(WIFEXITED(status));
    CHECK(WEXITSTATUS(status) == 0);
    CHECK(file_text(out) == "taken 2, already held 0, tied by tag 0, unreadable 0\n");
}
