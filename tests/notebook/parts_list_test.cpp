#include "fixture.h"
#include "notebook/parts_list.h"

#include <fstream>
#include <iterator>

using namespace fettle;

namespace {

const Vehicle& drover(const Desk& desk) {
    static Vehicle vehicle;
    vehicle = must(vehicle_named(desk.book, "Drover"));
    return vehicle;
}

ListPreview preview(const Desk& desk, const std::string& text) {
    const auto table = must(read_csv(text));
    return must(preview_list(desk.book, drover(desk).id, table, match_columns(table)));
}

} // namespace

TEST_CASE("columns are matched by the words that head them, in any order") {
    const auto table =
        must(read_csv("Part No.;QTY;Description;Section;Unknown\r\n12;2;hanger;Springs;x\r\n"));
    const auto columns = match_columns(table);
    CHECK(columns.has_heading);
    CHECK(columns[ListColumn::number] == 0);
    CHECK(columns[ListColumn::quantity] == 1);
    CHECK(columns[ListColumn::name] == 2);
    CHECK(columns[ListColumn::group] == 3);
    CHECK_FALSE(columns[ListColumn::spec]);
    const auto plain = match_columns(must(read_csv("Springs,12,hanger,2\r\n")));
    CHECK_FALSE(plain.has_heading);
    CHECK(plain[ListColumn::name] == 2);
    CHECK_FALSE(plain[ListColumn::spec]);
}

TEST_CASE("a list is taken in whole, as one act, and again it changes only what differs") {
    Desk desk;
    const std::string list = "group,number,name,quantity,spec\r\n"
                             "Springs,12,spring hanger,2,\"1 in pin, bushed\"\r\n"
                             "Springs,13,shackle plate,4.0,\r\n"
                             ",14,pin,,\r\n";
    const auto first = preview(desk, list);
    CHECK(first.troubles.empty());
    CHECK(first.adds == 3);
    must(take_in_list(desk.book, drover(desk).id, first));
    auto held = must(list_positions(desk.book, drover(desk).id));
    REQUIRE(held.size() == 3);
    CHECK(held[0].position.quantity == 1); // without a group, first
    CHECK(held[1].position.spec == "1 in pin, bushed");
    CHECK(held[2].position.quantity == 4);
    const auto again = preview(desk, "number,name,quantity\r\n12,spring hanger,2\r\n13,plate,4\r\n"
                                     "15,bush,2\r\n");
    CHECK(again.adds == 1);
    CHECK(again.changes == 2); // group and spec of both go
    must(take_in_list(desk.book, drover(desk).id, again));
    CHECK(must(list_positions(desk.book, drover(desk).id)).size() == 4);
    CHECK(desk.book.next_undo() == "took in a parts list, 3 positions");
    must(desk.book.undo());
    CHECK(must(find_position(desk.book, "13")).name == "shackle plate");
    const auto same = preview(desk, list);
    CHECK(same.adds + same.changes == 0);
}

TEST_CASE("troubles are told by row and column, and nothing is half taken in") {
    Desk desk;
    const auto found = preview(desk, "No,Name,Qty\r\n"
                                     "12,hanger,2\r\n"
                                     "\r\n"
                                     "13,,1\r\n"
                                     ",bush,one\r\n"
                                     "12,hanger,1.5\r\n"
                                     "12,hanger again,1\r\n"
                                     "16,pin,0\r\n");
    REQUIRE(found.troubles.size() == 6);
    CHECK(found.troubles[0].row == 4);
    CHECK(found.troubles[0].column == "Name");
    CHECK(holds(found.troubles[0].sentence, "Row 4, Name: it is blank"));
    CHECK(found.troubles[1].row == 5);
    CHECK(found.troubles[1].column == "No");
    CHECK(holds(found.troubles[2].sentence, "Row 5, Qty: \"one\""));
    CHECK(holds(found.troubles[3].sentence, "\"1.5\""));
    CHECK(holds(found.troubles[4].sentence, "stands in row 2 already"));
    CHECK(holds(found.troubles[5].sentence, "whole numbers from 1"));
    const auto refused = take_in_list(desk.book, drover(desk).id, found);
    CHECK(holds(sentence(refused), "Row 4"));
    CHECK(holds(sentence(refused), "5 more fields are wrong"));
    CHECK(must(list_positions(desk.book, drover(desk).id)).empty());
    CHECK(holds(sentence(take_in_list(desk.book, drover(desk).id, preview(desk, "No,Name\r\n"))),
                "no positions"));
}

TEST_CASE("a list is the same however a spreadsheet wrote it") {
    // Written by LibreOffice 7.4.7.2 from one table: data/lists/README.md.
    const std::filesystem::path lists = FETTLEBOOK_SOURCE_DIR "/tests/notebook/data/lists";
    const auto read = [&](const std::string& name) {
        std::ifstream in(lists / name, std::ios::binary);
        REQUIRE(in);
        return std::string(std::istreambuf_iterator<char>(in), {});
    };
    for (const std::string name :
         {"utf8.csv", "utf8-bom.csv", "semicolon.csv", "tab.csv", "bare.csv", "windows-1252.csv"}) {
        CAPTURE(name);
        Desk desk;
        const auto table = must(read_csv(
            read(name), name == "windows-1252.csv" ? CsvText::windows_1252 : CsvText::utf8));
        const auto columns = match_columns(table);
        const auto preview = must(preview_list(desk.book, desk.drover, table, columns));
        CHECK(preview.troubles.empty());
        must(take_in_list(desk.book, desk.drover, preview));
        // As typed into list.fods; the line end within a field becomes a blank, blanks around go.
        CHECK(must(list_positions(desk.book, desk.drover)).size() == 5);
        CHECK(must(find_position(desk.book, "F1")).name == "Spring pack, off side");
        CHECK(must(find_position(desk.book, "F1")).spec == "7 leaves, 1¾ in wide");
        CHECK(must(find_position(desk.book, "F5")).spec == "¾\" ground head to the outside");
        CHECK(must(find_position(desk.book, "F5")).quantity == 4);
        CHECK(must(find_position(desk.book, "R5")).name == "Crown wheel bolt, \"fitted\"");
        CHECK(must(find_position(desk.book, "C2")).name == "Hänger bolt");
        CHECK(must(find_position(desk.book, "C3")).group.empty());
    }
    for (const char* name : {"windows-1252.csv", "utf16.csv"})
        CHECK(holds(sentence(read_csv(read(name))), "is not in UTF-8"));
}
