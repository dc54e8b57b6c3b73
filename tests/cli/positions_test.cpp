// Parts lists, single positions, alternates, lots and assemblies, and what is missing, as typed.
#include "run.h"

#include <fstream>
#include <iterator>

using namespace cli_tests;

namespace {

const fs::path kLists = FETTLEBOOK_SOURCE_DIR "/tests/notebook/data/lists";

struct Stores : Bench {
    std::string file(const std::string& name, const std::string& text) const {
        const auto path = folder / name;
        std::ofstream(path, std::ios::binary) << text;
        return path.string();
    }
    std::string read(const fs::path& path) const {
        std::ifstream in(path, std::ios::binary);
        return {std::istreambuf_iterator<char>(in), {}};
    }
};

} // namespace

TEST_CASE("a parts list is previewed, taken in whole, and listed with what lacks") {
    Stores stores;
    const auto list = (kLists / "semicolon.csv").string(); // by LibreOffice, see its README.md
    const auto before = stores.dump();
    const json wish = stores.answer({"positions", list, "--preview"});
    CHECK(wish.at("adds") == 5);
    CHECK(stores.dump() == before);
    CHECK(stores.answer({"positions", list}).at("adds") == 5);
    CHECK(stores.answer({"positions", list}).at("adds") == 0); // as they were
    const json held = stores.answer({"positions"});
    REQUIRE(held.size() == 5);
    CHECK(held[0].at("position") == "C3"); // without a group, first
    CHECK(held[0].at("missing") == 24);
    stores.refused({"positions", (kLists / "windows-1252.csv").string()}, "Windows-1252");
    CHECK(stores.answer({"positions", (kLists / "windows-1252.csv").string(), "--windows-1252"})
              .at("changes") == 0); // the same list
}

TEST_CASE("wrong fields are told by row and column, each, and nothing is half taken in") {
    Stores stores;
    const auto list = stores.file("list.csv", "No,Name,Qty\r\n1,pin,2\r\n2,,1\r\n3,bush,two\r\n");
    const auto before = stores.dump();
    const Ran ran = stores({"positions", list});
    CHECK(ran.code == 1);
    CHECK(holds(ran.err, "Row 3, Name: it is blank"));
    CHECK(holds(ran.err, "Row 4, Qty: \"two\""));
    CHECK(holds(ran.err, "Nothing was taken in."));
    CHECK(stores.dump() == before);
    // Without headings the columns are told by number.
    const auto bare = stores.file("bare.csv", "pin,7,x\r\n");
    CHECK(stores
              .answer({"positions", bare, "--column", "name=1", "--column", "number=2", "--column",
                       "group=3", "--column", "quantity=9"})
              .at("adds") == 1);
    CHECK(stores.answer({"positions"})[0].at("name") == "pin");
    stores.refused({"positions", bare, "--column", "colour=1"}, "names no column");
    stores.refused({"positions", (stores.folder / "none.csv").string()}, "none.csv cannot be read");
    stores.refused({"positions", stores.folder.path().string()}, "it is a folder");
}

TEST_CASE("positions are typed, changed and removed one by one, on the vehicle named") {
    Stores stores;
    const json added = stores.answer({"position", "add", "R5", "Crown wheel bolt", "--group",
                                      "Rear axle", "--quantity", "10", "--spec", "7/16 in BSF"});
    CHECK(added.at("quantity") == 10);
    stores.refused({"position", "add", "R5", "again"}, "R5 is on this vehicle already");
    stores.refused({"position", "add", "R6", "bolt", "--quantity", "some"}, "\"some\"");
    CHECK(stores.answer({"position", "set", "R5", "quantity=8", "number=R7"}).at("position") ==
          "R7");
    stores.refused({"position", "set", "R7", "colour=red"}, "group, number, name, quantity, spec");
    stores.refused({"position", "show", "R5"}, "no position with the number or name \"R5\"");
    CHECK(stores.answer({"position", "remove", "R7"}).at("removed") == "R7");
    CHECK(stores.answer({"positions"}).empty());
    CHECK(stores({"undo"}).code == 0);
    CHECK(stores.answer({"positions"}).size() == 1);
}

TEST_CASE("parts for one position stand side by side with reasons, and the user chooses") {
    Stores stores;
    stores.answer({"position", "add", "R2", "Bevel pinion"});
    stores.answer({"part", "add", "pinion", "--tag", "A1", "--position", "R2", "--origin",
                   "original", "--condition", "repaired"});
    stores.answer({"part", "add", "pinion", "--tag", "B1", "--position", "R2", "--origin",
                   "reproduction", "--cost", "195 GBP"});
    stores.answer({"part", "add", "pinion", "--tag", "C1", "--cost", "40 GBP"});
    stores.answer(
        {"send", "--to", "Hebble Lane", "--for", "measuring", "--on", "2026-03-01", "B1"});
    const json shown = stores.answer({"position", "show", "R2"});
    REQUIRE(shown.at("parts").size() == 2);
    const json& one = shown.at("parts")[0];
    CHECK(one.at("for") == json::array({"the original", "is repaired", "at hand"}));
    CHECK(one.at("against") == json::array());
    CHECK(holds(shown.at("parts")[1].at("against").dump(), "with Hebble Lane since 1 Mar 2026"));
    CHECK(stores.answer({"position", "choose", "R2", "A1"}).at("chosen") == "A1");
    CHECK(holds(stores({"position", "show", "R2"}).out, "A1  pinion  (chosen)\n"));
    stores.refused({"position", "choose", "R2", "C1"}, "not intended for it");
    CHECK(stores.answer({"position", "choose", "R2", "none"}).at("chosen") == "");
}

TEST_CASE("pieces of a lot are used, and an assembly comes apart and goes together") {
    Stores stores;
    stores.answer({"part", "add", "bolts", "--tag", "B24", "--quantity", "24"});
    CHECK(stores.answer({"part", "use", "B24", "7"}) ==
          json{{"tag", "B24"}, {"quantity", 24}, {"used", 7}, {"left", 17}});
    CHECK(stores.answer({"part", "use", "B24", "-2"}).at("used") == 5);
    stores.refused({"part", "use", "B24", "20"}, "19 of 24 are at hand");
    stores.refused({"part", "use", "B24", "some"}, "\"some\" is no number of pieces");
    stores.refused({"part", "split", "B24", "bolt"}, "it is a lot of 24");

    stores.answer({"part", "add", "differential", "--tag", "D1", "--on", "2026-01-10"});
    const json split =
        stores.answer({"part", "split", "D1", "crown wheel", "10 x bolt", "--on", "2026-02-01"});
    CHECK(split.at("split") == "2026-02-01");
    REQUIRE(split.at("pieces").size() == 2);
    CHECK(split.at("pieces")[1].at("tag") == "D1-2");
    CHECK(split.at("pieces")[1].at("quantity") == 10);
    stores.answer(
        {"send", "--to", "Hebble Lane", "--for", "measuring", "--on", "2026-02-02", "D1-1"});
    stores.refused({"part", "join", "D1"}, "D1-1 is with Hebble Lane since 2 Feb 2026");
    stores.answer({"receive", "1", "--all", "--on", "2026-02-09", "--condition", "repaired"});
    CHECK(stores.answer({"part", "join", "D1"}).at("split").is_null());
    CHECK(stores({"undo"}).code == 0);
    const json shown = stores.answer({"part", "show", "D1"});
    CHECK(shown.at("split") == "2026-02-01");
    CHECK(shown.at("pieces") == json::array({"D1-1", "D1-2"}));
    const json life = stores.answer({"part", "show", "D1-1"}).at("life");
    CHECK(life.back().at("words") == "came from Hebble Lane");
    CHECK(life.back().at("day") == "2026-02-09");
}

TEST_CASE("a lot is divided, and an assembly goes together from named parts and gives one back") {
    Stores stores;
    stores.answer({"part", "add", "bolts", "--tag", "B24", "--quantity", "24"});
    stores.answer({"part", "use", "B24", "2"});
    CHECK(holds(stores({"part", "list"}).out, "22 of 24 left"));
    const json both = stores.answer({"part", "divide", "B24", "7", "--tag", "B7"});
    REQUIRE(both.size() == 2);
    CHECK(both[0] == json{{"tag", "B24"}, {"quantity", 17}, {"used", 2}, {"left", 15}});
    CHECK(both[1] == json{{"tag", "B7"}, {"quantity", 7}, {"used", 0}, {"left", 7}});
    stores.refused({"part", "divide", "B24", "16"}, "accepted are 1 to 15");
    stores.refused({"part", "divide", "B24", "2", "--tag", "b7"}, "on another part already");
    CHECK(stores({"undo"}).code == 0);
    CHECK(stores.answer({"part", "show", "B24"}).at("quantity") == 24);

    stores.answer({"part", "add", "differential", "--tag", "D1"});
    stores.answer({"part", "add", "pinion", "--tag", "PN"});
    stores.answer({"part", "add", "case", "--tag", "DC"});
    stores.refused({"part", "join", "D1"}, "it is not split");
    CHECK(stores.answer({"part", "join", "D1", "PN", "DC"}).at("pieces").size() == 2);
    stores.refused({"part", "join", "PN", "D1"}, "it is within D1 itself");
    CHECK(stores.answer({"part", "take-out", "PN"}).at("pieces").size() == 1);
    stores.refused({"part", "take-out", "PN"}, "it is not a piece of an assembly");
    CHECK(
        stores.answer({"part", "split", "D1", "WH = 2 x planet wheel"}).at("pieces")[1].at("tag") ==
        "WH");
}

TEST_CASE("what is missing goes out as a list, as CSV and as a page") {
    Stores stores;
    stores.answer({"position", "add", "R5", "Crown wheel bolt", "--quantity", "10"});
    stores.answer({"part", "add", "bolts", "--tag", "B4", "--position", "R5", "--quantity", "4"});
    stores.answer({"part", "add", "crown wheel bolts, spare", "--tag", "X1", "--quantity", "3"});
    const auto csv = (stores.folder / "out.csv").string(),
               pdf = (stores.folder / "out.pdf").string();
    const json missing = stores.answer({"missing", "--csv", csv, "--pdf", pdf});
    REQUIRE(missing.size() == 1);
    CHECK(missing[0].at("missing") == 6);
    CHECK(missing[0].at("to_get") == 6);
    CHECK(missing[0].at("might_fit")[0].at("tag") == "X1");
    CHECK(stores.answer({"part", "list", "--missing"}) == missing);
    const auto written = stores.read(csv);
    CHECK(written.ends_with(",10,4,0,0,0,6,,\"X1 crown wheel bolts, spare × 3, intended for no "
                            "position\"\r\n"));
    const auto text = output_of("pdftotext -layout " + shell_word(pdf) + " -");
    CHECK(holds(text, "Crown wheel bolt"));
    CHECK(holds(text, "get 6 of 10"));
    CHECK(holds(text, "might fit: X1"));
    stores.refused({"missing", "--vehicle", "Nobody's"}, "Nobody's");
    stores.answer({"part", "set", "B4", "quantity=10"});
    CHECK(stores({"missing"}).out == "nothing is missing\n");
}
