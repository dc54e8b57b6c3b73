// book and since from the command line: what they write, what they say, what they refuse.
#include "run.h"

using namespace cli_tests;

namespace {

void fill(const Bench& bench) {
    CHECK(bench({"part", "add", "spring hanger", "--tag", "H7"}).code == 0);
    bench.photo("a.jpg", 1);
    CHECK(bench({"tie", "1", "--part", "H7", "--stage", "before"}).code == 0);
    CHECK(bench({"log", "Hanger off.", "--on", "2026-03-07", "--hours", "2", "--part", "H7",
                 "--photo", "1"})
              .code == 0);
}

} // namespace

TEST_CASE("book writes a PDF or a folder of HTML and says what is in it") {
    Bench bench;
    fill(bench);
    const auto pdf = (bench.folder / "book.pdf").string();
    const auto before = bench.dump();
    const json report = bench.answer({"book", pdf});
    CHECK(report.at("file") == pdf);
    CHECK(report.at("kind") == "pdf");
    CHECK(report.at("photos") == 1);
    CHECK(report.at("unreadable") == json::array());
    CHECK(output_of("pdfinfo " + shell_word(pdf) + " | awk '/^Pages/ {print $2}'") ==
          std::to_string(report.at("pages").get<int>()) + "\n");
    CHECK(holds(output_of("pdftotext " + shell_word(pdf) + " -"), "Hanger off."));
    const auto folder = (bench.folder / "out").string();
    const json html = bench.answer({"book", folder, "--by", "group", "--photo-size", "original"});
    CHECK(html.at("kind") == "html");
    CHECK(html.at("pages").is_null());
    CHECK(fs::exists(fs::path(folder) / "index.html"));
    CHECK(bench.dump() == before); // reading only
    CHECK(holds(bench({"book", pdf, "--part", "H7", "--without", "open-points"}).out,
                "pages in 2 chapters with 1 photo written to " + pdf));
}

TEST_CASE("since tells in Markdown what was done from a day on") {
    Bench bench;
    fill(bench);
    const auto folder = bench.folder / "tell";
    const json report =
        bench.answer({"since", "2026-03-01", folder.string(), "--to", "2026-03-31"});
    CHECK(report.at("photos") == 1);
    CHECK(report.at("from") == "2026-03-01");
    CHECK(report.at("to") == "2026-03-31");
    CHECK(holds(file_text(fs::path(report.at("file").get<std::string>())), "Hanger off."));
    CHECK(fs::exists(folder / "photos/photo-1.jpg"));
}

TEST_CASE("book refuses what it cannot make in one sentence") {
    Bench bench;
    fill(bench);
    const auto pdf = (bench.folder / "book.pdf").string();
    struct Case {
        std::vector<std::string> arguments;
        const char* said;
    };
    const Case cases[] = {
        {{"book", pdf, "--by", "size"}, "date or group"},
        {{"book", pdf, "--without", "jokes"}, "open points"},
        {{"book", pdf, "--photo-size", "7"}, "100 to 20000"},
        {{"book", pdf, "--part", "ZZ"}, "ZZ"},
        {{"book", pdf, "--consignment", "9"}, "9"},
        {{"book", pdf, "--vehicle", "Nobody"}, "Nobody"},
        {{"book", pdf, "--from", "2026-03-02", "--to", "2026-03-01"}, "first day"},
        {{"book", pdf, "--from", "yore"}, "yore"},
        {{"book", bench.book.string()}, "holds something else"},
        {{"since", "yore", pdf}, "yore"},
    };
    for (const auto& each : cases) {
        const Ran ran = bench(each.arguments);
        CAPTURE(ran.err);
        CHECK(ran.code == 1);
        CHECK(ran.one_sentence());
        CHECK(holds(ran.err, each.said));
    }
    CHECK_FALSE(fs::exists(pdf));
}

TEST_CASE("names typed into an entry are told as words, lead in the book and go out and come in") {
    Bench bench;
    CHECK(bench({"part", "add", "hanger [rear] 板ばね", "--tag", "H7"}).code == 0);
    const std::string photo = bench.photo("a.jpg", 1);
    const std::string typed =
        "Off came [H7 hanger \\[rear\\] 板ばね](part:1), see [the photo](photo:" + photo +
        ").\n\n[the shims](sheet:shim.stack)\n\nAnd so to bed.";
    CHECK(bench({"log", typed, "--part", "H7", "--photo", photo}).code == 0);
    CHECK(bench({"calc", "shim.stack", "target=31.5 thou", "tin=20 8 3.5 thou", "--entry", "1"})
              .code == 0);
    CHECK(holds(bench({"log", "--list"}).out,
                "    Off came H7 hanger [rear] 板ばね, see the photo.\n"
                "    the shims\n    And so to bed.\n"));
    CHECK(bench.answer({"log", "--list"})[0].at("text") == typed);
    const auto in_order = [](const std::string& text, const std::vector<std::string>& pieces) {
        std::size_t at = 0;
        for (const auto& piece : pieces) {
            CAPTURE(piece);
            at = text.find(piece, at);
            REQUIRE(at != std::string::npos);
        }
    };
    const auto read = [&](const std::string& file) {
        return output_of("cat " + shell_word((bench.folder / file).string()));
    };
    CHECK(bench({"book", (bench.folder / "html").string()}).code == 0);
    in_order(read("html/index.html"),
             {"<a href=\"#part-1\">H7 hanger [rear] 板ばね</a>", "<a href=\"#photo-" + photo,
              "Shim stack from the tin", "31.5 thou", "And so to bed.", "id=\"photo-" + photo,
              "id=\"part-1\""});
    CHECK(bench({"since", "2000-01-01", (bench.folder / "tell").string()}).code == 0);
    in_order(output_of("cat " + shell_word((bench.folder / "tell").string()) + "/*.md"),
             {"see the photo", "#### Shim stack from the tin", "And so to bed."});
    CHECK(bench({"data", "out", (bench.folder / "data").string(), "--photos"}).code == 0);
    CHECK(run(bench.folder.path(), {"data", "in", "data", "anew"}).code == 0);
    CHECK(run(bench.folder / "anew", {"log", "--list"}).out == bench({"log", "--list"}).out);
}
