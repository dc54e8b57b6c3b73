// Bad input: exit code 1, one sentence that names the value, and nothing changed in the notebook.
#include "notebook/notebook.h"
#include "run.h"

using namespace cli_tests;

namespace {

struct Refusal {
    std::vector<std::string> arguments;
    std::string named; // must stand in the sentence
};

} // namespace

TEST_CASE("what cannot be taken as typed is refused in one sentence and changes nothing") {
    Bench bench;
    const std::string photo = bench.photo("a.jpg", 1);
    CHECK(bench({"part", "add", "axle", "--tag", "A1"}).code == 0);
    CHECK(bench({"task", "add", "strip it"}).code == 0);
    const std::vector<Refusal> refusals = {
        {{"part", "show", "Z9"}, "Z9"},
        {{"part", "add", "axle", "--tag", "A1"}, "A1"},
        {{"part", "add", "axle", "--tag", "no tag"}, "no tag"},
        {{"part", "add", "axle", "--condition", "shiny"}, "shiny"},
        {{"part", "add", "axle", "--cost", "12.505 GBP"}, "12.505"},
        {{"part", "add", "axle", "--on", "2026-02-30"}, "2026-02-30"},
        {{"part", "set", "A1", "place=shelf 2", "condition=shiny"}, "shiny"},
        {{"part", "set", "A1", "colour=green"}, "colour"},
        {{"part", "set", "A1", "green"}, "green"},
        {{"tie", photo, "--part", "Z9"}, "Z9"},
        {{"tie", photo, "99", "--part", "A1"}, "99"},
        {{"tie", "four", "--part", "A1"}, "four"},
        {{"tie", photo, "--part", "A1", "--stage", "shiny"}, "shiny"},
        {{"tie", photo, "--task", "77"}, "77"},
        {{"photos", "--from", "2026-02-30"}, "2026-02-30"},
        {{"task", "add", "it", "--needs", "88"}, "88"},
        {{"task", "add", "it", "--position", "12-4=cleaned"}, "12-4"},
        {{"task", "add", "it", "--least-temperature", "15 furlongs"}, "15 furlongs"},
        {{"task", "done", "88"}, "88"},
        {{"log", "Cleaned.", "--on", "2026-02-30"}, "2026-02-30"},
        {{"log", "Cleaned.", "--hours", "all day"}, "all day"},
        {{"log", "Cleaned.", "--part", "Z9"}, "Z9"},
        {{"log", "Cleaned.", "--photo", "99"}, "99"},
        {{"log", "-"}, "empty"},
        {{"mark", photo, "--region", "1,2,3", "--reading", "QM"}, "1,2,3"},
        {{"mark", photo, "--region", "300,0,50,50", "--reading", "QM"}, "300,0,50,50"},
        {{"mark", photo, "--region", "1,1,5,5", "--reading", "QM", "--sure", "dunno"}, "dunno"},
        {{"mark", photo, "--region", "1,1,5,5", "--reading", "QM", "--seen-with",
          R"({"filters": {"flatten": 2}})"},
         "flatten"},
        {{"mark", photo, "--region", "1,1,5,5", "--reading", "QM", "--seen-with", "bright"},
         "bright"},
        {{"redo"}, "nothing to redo"},
    };
    for (const auto& refusal : refusals)
        bench.refused(refusal.arguments, refusal.named);
}

TEST_CASE("a named file that is no picture is refused by name") {
    Bench bench;
    write_file(bench.folder / "text.jpg", "this is no picture\n");
    make_picture(bench.folder / "whole.jpg", 1);
    write_file(bench.folder / "head.jpg", file_text(bench.folder / "whole.jpg").substr(0, 150));
    make_giant_png(bench.folder / "giant.png");
    for (const char* name : {"nowhere", "text.jpg", "head.jpg", "giant.png"})
        bench.refused({"take-in", (bench.folder / name).string()}, name);
}

TEST_CASE("half a picture is taken in, and said to be damaged") {
    Bench bench;
    make_picture(bench.folder / "whole.jpg", 1);
    const std::string whole = file_text(bench.folder / "whole.jpg");
    write_file(bench.folder / "half.jpg", whole.substr(0, whole.size() / 2));
    const Ran ran = bench({"take-in", (bench.folder / "half.jpg").string()});
    CHECK(ran.code == 0);
    CHECK(ran.out == "taken 1, already held 0, tied by tag 0, unreadable 0, damaged 1\n");
    CHECK_FALSE(bench.answer({"photos"})[0].at("damage").get<std::string>().empty());
}

TEST_CASE("a notebook of a newer version is left alone") {
    Bench bench;
    output_of("sqlite3 " + shell_word(bench.book / "notebook.db") + " 'PRAGMA user_version = 999'");
    bench.refused({"part", "list"}, "999");
    bench.refused({"part", "add", "axle"}, "999");
}

TEST_CASE("while somebody else writes, reading works and writing is refused") {
    Bench bench;
    const auto held = fettle::Notebook::open(bench.book, fettle::store::Access::write);
    REQUIRE(held.ok());
    bench.refused({"part", "add", "axle"}, "open");
    CHECK(bench({"part", "list"}).code == 0);
}

TEST_CASE("a folder without a notebook is named, with what to do") {
    TempFolder folder;
    const Ran ran = run(folder.path(), {"part", "list", "--notebook", "elsewhere"});
    CHECK(ran.code == 1);
    CHECK(ran.one_sentence());
    CHECK(holds(ran.err, "elsewhere"));
    CHECK_FALSE(fs::exists(folder / "elsewhere"));
}

TEST_CASE("a report that cannot be written out is a failure") {
    Bench bench;
    const std::string program = shell_word(FETTLEBOOK_BIN_DIR "/fettlebook");
    const Ran ran = run(bench.book, {"part", "list"});
    REQUIRE(ran.code == 0);
    const int status = std::system(
        ("cd " + shell_word(bench.book) + " && " + program + " part list >/dev/full 2>/dev/null")
            .c_str());
    CHECK(WEXITSTATUS(status) == 1);
}
