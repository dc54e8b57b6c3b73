// The first evening with a notebook, verb by verb, as somebody would type it.
#include "run.h"

using namespace cli_tests;

namespace {

// Twenty minutes at the bench: four good pictures in two formats, and what else lies in a folder.
void fill_camera_folder(const fs::path& folder) {
    fs::create_directories(folder / "more");
    make_picture(folder / "a.jpg", 1, "2026:03:07 19:42:05");
    make_picture(folder / "b.jpg", 2, "2026:03:07 19:45:00");
    make_picture(folder / "c.png", 3);
    fs::copy_file(folder / "a.jpg", folder / "more/a again.jpg");
    write_file(folder / "notes.jpg", "this is no picture\n");
    write_file(folder / "more/list.txt", "nobody asks for this one\n");
}

} // namespace

TEST_CASE("a first evening, from making a notebook to taking steps back") {
    Bench bench;
    const fs::path camera = bench.folder / "camera";
    fill_camera_folder(camera);
    const std::string original = file_text(camera / "a.jpg");

    const Ran taken = bench({"take-in", camera.string()});
    CHECK(taken.code == 0);
    CHECK(taken.out == "taken 3, already held 1, tied by tag 0, unreadable 1\n");
    CHECK(taken.one_sentence());
    CHECK(holds(taken.err, "notes.jpg"));
    CHECK(file_text(camera / "a.jpg") == original);

    const json untied = bench.answer({"photos", "--untied"});
    REQUIRE(untied.size() == 3);
    CHECK(untied[0].at("name") == "a.jpg");
    CHECK(untied[0].at("taken") == "2026-03-07T19:42:05");
    CHECK(untied[2].at("taken").is_null());
    const std::string first = untied[0].at("photo").dump();
    const std::string second = untied[1].at("photo").dump();

    CHECK(bench({"part", "add", "spring hanger", "--tag", "H7"}).out == "part H7  spring hanger\n");
    CHECK(bench({"tie", first, "--part", "H7", "--stage", "before"}).out ==
          "tied 1 photo to H7 spring hanger, before\n");
    CHECK(bench({"tie", second, "--part", "h7", "--stage", "after"}).code == 0);
    CHECK(bench.answer({"photos", "--untied"}).size() == 1);
    const json shown = bench.answer({"part", "show", "H7"});
    REQUIRE(shown.at("photos").size() == 2);
    CHECK(shown.at("photos")[0].at("stage") == "before");
    CHECK(shown.at("photos")[1].at("stage") == "after");

    const Ran ream = bench({"task", "add", "ream the shackle bush"});
    CHECK(ream.out == "task 1  ready\n");
    CHECK(bench({"task", "add", "fit the spring", "--needs", "1"}).out == "task 2  waits\n");
    CHECK(bench.answer({"task", "list", "--ready"}).size() == 1);
    CHECK(bench({"task", "done", "1", "--on", "2026-03-08"}).out == "task 1  done\n");
    const json ready = bench.answer({"task", "list", "--ready"});
    REQUIRE(ready.size() == 1);
    CHECK(ready[0].at("title") == "fit the spring");

    const Ran logged = bench({"log", "-", "--on", "7 Mar 2026", "--hours", "1 1/2", "--part", "H7",
                              "--photo", first, "--photo", second, "--task", "1"},
                             "Cleaned the **hanger**.\nIt is cracked.\n");
    CHECK(logged.out == "entry 1\n");
    const Ran log = bench({"log", "--list"});
    CHECK(log.out == "entry 1  7 Mar 2026  1.5 h  H7, task 1, photo " + first + ", photo " +
                         second + "\n    Cleaned the hanger.\n    It is cracked.\n");

    CHECK(holds(bench({"find", "crack"}).out, "entry 1"));
    CHECK(holds(bench({"find", "photos"}).out, "nothing found")); // a verb's name is a word, too

    CHECK(bench({"undo"}).out == "undone: wrote the entry of 7 Mar 2026\n");
    CHECK(bench({"log", "--list"}).out == "no entries\n");
    CHECK(bench({"redo"}).out == "redone: wrote the entry of 7 Mar 2026\n");
    CHECK(bench({"log", "--list"}).out == log.out);
}

TEST_CASE("all photos of one take-in are one step back") {
    Bench bench;
    fs::create_directories(bench.folder / "in");
    make_picture(bench.folder / "in/a.jpg", 1);
    make_picture(bench.folder / "in/b.jpg", 2);
    CHECK(bench({"take-in", (bench.folder / "in").string()}).code == 0);
    CHECK(bench.answer({"photos"}).size() == 2);
    CHECK(bench({"undo"}).code == 0);
    CHECK(bench.answer({"photos"}).empty());
}

TEST_CASE("the notebook is named by an option before or after the verb, or by the environment") {
    Bench bench;
    const fs::path elsewhere = bench.folder.path();
    CHECK(run(elsewhere, {"--notebook", "book", "part", "list"}).out == "no parts\n");
    CHECK(run(elsewhere, {"part", "list", "--notebook", "book"}).out == "no parts\n");
    CHECK(run(elsewhere, {"part", "list"}, {}, "FETTLEBOOK=book").out == "no parts\n");
    CHECK(run(elsewhere, {"--json", "part", "list", "--notebook", "book"}).parsed() ==
          json::array());
    CHECK(run(elsewhere, {"part", "list"}).code == 1);
}

TEST_CASE("a folder whose name stands in brackets can be taken in") {
    Bench bench;
    fs::create_directories(bench.folder / "[1936, shed]");
    make_picture(bench.folder / "[1936, shed]/a.jpg", 1);
    const Ran ran = run(bench.folder.path(), {"--notebook", "book", "take-in", "[1936, shed]"});
    CHECK(ran.out == "taken 1, already held 0, tied by tag 0, unreadable 0\n");
}

TEST_CASE("the demo notebook is made and holds something of everything") {
    TempFolder folder;
    const Ran made = run(folder.path(), {"demo", "drover", "--json"});
    REQUIRE_MESSAGE(made.code == 0, made.err);
    for (const char* field : {"photos", "parts", "entries"})
        CHECK(made.parsed().at(field).get<int>() > 0);
    CHECK(run(folder.path(), {"--notebook", "drover", "log", "--list"}).code == 0);
    const Ran again = run(folder.path(), {"demo", "drover"});
    CHECK(again.code == 1);
    CHECK(again.one_sentence());
}

TEST_CASE("an entry with marks is listed by its words, JSON gives it as it was typed") {
    Bench bench;
    const std::string typed = "**Hanger off.** Pin *seized*.\n\n12. first\n14. second\n\n> oil";
    CHECK(bench({"part", "add", "spring hanger", "--tag", "H7"}).code == 0);
    CHECK(bench({"log", typed, "--on", "2026-03-07", "--part", "H7"}).code == 0);
    const Ran listed = bench({"log", "--list"});
    CHECK(holds(listed.out,
                "    Hanger off. Pin seized.\n    12. first\n    14. second\n      oil\n"));
    CHECK(bench.answer({"log", "--list"})[0].at("text") == typed);
    CHECK(holds(bench({"part", "show", "H7"}).out, "Hanger off. Pin seized."));
    const Ran found = bench({"find", "seized"});
    CHECK(holds(found.out, "Hanger off. Pin seized."));
    CHECK_FALSE(holds(found.out, "*"));
}
