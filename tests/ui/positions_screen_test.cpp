// Positions, alternates, taking in a list, what is missing, lots and assemblies, by their widgets.
#include "notebook/consignments.h"
#include "notebook/part_pieces.h"
#include "ui/screens/parts/parts.h"
#include "ui/workshop.h"

#include <fstream>
#include <iterator>

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::Driver;
using fettle::ui::testing::Workshop;

namespace {

constexpr Chord kKeep{'K', true}, kAll{'A', true};

struct Stores : Workshop {
    SideWork work{[] {}};
    PartsState parts;
    Driver begin() {
        return drive([this](Page& page) { draw_parts(page, context, work, parts); });
    }
    PositionId position(const std::string& number, const std::string& name, int quantity = 1,
                        const std::string& group = "Rear axle") {
        return must(add_position(book, {.vehicle = drover,
                                        .group = group,
                                        .number = number,
                                        .name = name,
                                        .quantity = quantity}));
    }
    Part part_for(const std::string& tag, PositionId at, int quantity = 1) {
        return must(add_part(book, {.tag = tag,
                                    .name = "piece " + tag,
                                    .position = at,
                                    .vehicle = drover,
                                    .quantity = quantity}));
    }
    std::string list_file(const std::string& text) {
        const auto file = folder / "list.csv";
        std::ofstream(file, std::ios::binary) << text;
        return file.string();
    }
    std::vector<PositionFill> held() { return must(list_positions(book, drover)); }
};

} // namespace

TEST_CASE("a list is previewed by row and column, its columns matched, and taken in whole") {
    Stores stores;
    auto driver = stores.begin();
    driver.press(Chord{'P'});
    driver.click("positions.empty.step");
    driver.type(stores.list_file("No,Thing,Qty\r\n1,pin,2\r\n2,bush,two\r\n"));
    driver.press(Key::enter);
    // No column is headed as a name, and one quantity is none.
    CHECK(driver.value("positions.import.does").empty());
    CHECK(driver.expect_visible("positions.import.does").label ==
          "0 new, 0 changed, 0 as they were");
    driver.click("positions.import.name.2");
    CHECK(driver.expect_visible("positions.import.does").label ==
          "1 new, 0 changed, 0 as they were");
    CHECK(holds(driver.expect_visible("positions.import.trouble.0").label, "Row 3, Qty: \"two\""));
    CHECK_FALSE(driver.expect_visible("positions.import.take").enabled);
    CHECK(stores.held().empty());
    driver.click("positions.import.quantity.0"); // none: each row counts one
    driver.press(kKeep);
    REQUIRE(stores.held().size() == 2);
    CHECK(stores.held()[1].position.name == "bush");
    CHECK(driver.shows("positions.row.2"));
    must(stores.book.undo());
    CHECK(stores.held().empty());
}

TEST_CASE("a file in Windows-1252 is read once that is said") {
    Stores stores;
    open_list(stores.parts, stores.list_file("No,Name\r\n1,H\xE4nger\r\n"));
    auto driver = stores.begin();
    CHECK(holds(driver.expect_visible("positions.import.path.error").label, "not in UTF-8"));
    driver.click("positions.import.1252");
    driver.settle();
    driver.press(kKeep);
    REQUIRE(stores.held().size() == 1);
    CHECK(stores.held()[0].position.name == "Hänger");
}

TEST_CASE(
    "positions are typed one after the other, and a number in use is refused beside its field") {
    Stores stores;
    stores.position("R5", "bolt");
    auto driver = stores.begin();
    driver.press(Chord{'P'});
    driver.settle();
    driver.press(Chord{'N'});
    driver.type("R5"); // the caret is in the number
    driver.click("positions.form.name");
    driver.type("washer");
    driver.press(kKeep);
    CHECK(holds(driver.expect_visible("positions.form.number.error").label, "R5"));
    driver.click("positions.form.number");
    driver.press(kAll);
    driver.type("R6");
    driver.press(kKeep);
    CHECK(holds(driver.expect_visible("positions.form.added").label, "added R6, washer"));
    REQUIRE(stores.held().size() == 2);
    CHECK(stores.held()[1].position.group == "Rear axle"); // of the row one came from
    driver.press(Key::escape);                             // out of the field
    driver.settle();
    driver.press(Key::escape);
    driver.settle();
    driver.click("positions.row.R6");
    driver.reveal("position.edit.quantity");
    driver.click("position.edit.quantity");
    driver.press(kAll);
    driver.type("4");
    driver.press(Key::enter);
    CHECK(stores.held()[1].position.quantity == 4);
}

TEST_CASE("groups fold, another vehicle is a key away") {
    Stores stores;
    stores.position("F1", "spring", 1, "Front");
    stores.position("R5", "bolt", 10);
    const auto other = must(add_vehicle(stores.book, {.name = "Other"}));
    must(add_position(stores.book, {.vehicle = other, .number = "9", .name = "axle"}));
    auto driver = stores.begin();
    driver.press(Chord{'P'});
    driver.settle();
    CHECK(driver.shows("positions.row.F1"));
    CHECK(driver.expect_visible("positions.row.R5.name").value == "get 10 of 10");
    driver.click("positions.group.0");
    driver.settle();
    CHECK_FALSE(driver.shows("positions.row.F1"));
    CHECK(driver.shows("positions.row.R5"));
    driver.press(Chord{'G'}); // something is folded: all unfold
    driver.settle();
    CHECK(driver.shows("positions.row.F1"));
    driver.press(Chord{'V'});
    driver.settle();
    CHECK(driver.shows("positions.row.9"));
    CHECK_FALSE(driver.shows("positions.row.F1"));
}

TEST_CASE("alternates stand side by side with reasons, and the one to use is pressed") {
    Stores stores;
    const auto at = stores.position("R2", "Bevel pinion");
    auto original = stores.part_for("A1", at);
    original.origin = Origin::original;
    must(set_part(stores.book, original));
    const auto copy = stores.part_for("B1", at);
    auto driver = stores.begin();
    driver.press(Chord{'P'});
    driver.click("positions.row.R2");
    CHECK(driver.expect_visible("position.for.A1.0").label == "the original");
    CHECK(driver.expect_visible("position.part.A1").rect.top ==
          driver.expect_visible("position.part.B1").rect.top);
    driver.reveal("position.use.B1");
    driver.click("position.use.B1");
    CHECK(must(position_by_id(stores.book, at)).chosen == copy.id);
    driver.settle();
    driver.click("position.use.B1"); // leaves it open
    CHECK_FALSE(must(position_by_id(stores.book, at)).chosen);
    // A part for it is begun with its number and name.
    driver.press(Chord{'N'});
    driver.settle();
    driver.press(kKeep);
    const auto parts = must(list_parts(stores.book, {.position = at}));
    CHECK(parts.size() == 3);
}

TEST_CASE(
    "what is missing leads to what is on its way and might fit, and is written as CSV and PDF") {
    Stores stores;
    const auto at = stores.position("R5", "Bolt", 10);
    const auto ordered = stores.part_for("B4", at, 4);
    must(add_part(stores.book, {.tag = "X1", .name = "bolt, spare"}));
    const auto way = must(keep_consignment(
        stores.book, {.inward = true, .firm = "Hebble Lane", .purpose = "bought"}));
    must(put_on(stores.book, way, {.part = ordered.id}));
    auto driver = stores.begin();
    driver.press(Chord{'M'});
    driver.settle();
    CHECK(driver.value("missing.row.1.get") == "get 6 of 10");
    driver.click("missing.row.1.away.0");
    CHECK(stores.context.go->screen == "sent_out");
    driver.click("missing.row.1.fits.0");
    CHECK(stores.context.go->screen == "parts");
    driver.press(Chord{'C'});
    driver.settle();
    CHECK(holds(driver.expect_visible("missing.written").label, "missing.csv"));
    driver.press(Chord{'W'});
    driver.settle();
    CHECK(holds(driver.expect_visible("missing.written").label, "missing.pdf"));
    std::ifstream csv(stores.book.folder() / "papers" / "missing.csv", std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(csv), {}};
    CHECK(holds(text, ",R5,Bolt,,10,0,0,0,4,6,"));
    driver.click("missing.row.1");
    driver.settle();
    CHECK(holds(driver.expect_visible("position.name").label, "R5"));
}

TEST_CASE(
    "nothing is missing where all is there, and where nothing is asked for the way is shown") {
    Stores stores;
    auto driver = stores.begin();
    driver.press(Chord{'M'});
    driver.settle();
    CHECK_FALSE(driver.shows("missing.none"));
    driver.click("missing.empty.step");
    driver.settle();
    CHECK(driver.shows("positions.add"));
    const auto at = stores.position("R5", "Bolt");
    stores.part_for("B4", at);
    driver.press(Chord{'M'});
    driver.settle();
    CHECK(driver.shows("missing.none"));
    CHECK_FALSE(driver.shows("missing.empty"));
}

TEST_CASE("within its group what is missing can be put in the order of what is to get") {
    Stores stores;
    stores.position("R5", "Bolt", 2);
    stores.position("R6", "Nut", 10);
    auto driver = stores.begin();
    driver.press(Chord{'M'});
    driver.settle();
    const auto top = [&driver](int row) {
        return driver.expect_visible("missing.row." + std::to_string(row)).rect.top;
    };
    CHECK(top(1) < top(2));
    driver.click("missing.head.get");
    driver.click("missing.head.get"); // the most first
    driver.settle();
    CHECK(top(2) < top(1));
}

TEST_CASE("on its page pieces of a lot are used, and an assembly is split and put together") {
    Stores stores;
    const auto bag = must(add_part(stores.book, {.tag = "B24", .name = "bolts", .quantity = 24}));
    const auto axle = must(add_part(stores.book, {.tag = "D1", .name = "differential"}));
    lead_to(stores.parts, {"parts", bag.id.value});
    {
        auto driver = stores.begin();
        driver.click("part.use");
        driver.type("7");
        driver.press(Key::enter);
        driver.settle();
        CHECK(driver.expect_visible("part.lot").label == "24 pieces, 7 used, 17 left");
        driver.click("part.use");
        driver.type("18");
        driver.press(Key::enter);
        driver.settle();
        CHECK(holds(driver.expect_visible("part.use.error").label, "17 of 24 are at hand"));
    }
    lead_to(stores.parts, {"parts", axle.id.value});
    auto driver = stores.begin();
    driver.click("part.pieces.begin");
    driver.click("part.pieces.typed");
    driver.type("crown wheel");
    driver.press(Key::enter);
    driver.type("10 x bolt");
    driver.click("part.pieces.split");
    driver.settle();
    CHECK(driver.shows("part.piece.D1-1"));
    CHECK(must(part_tagged(stores.book, "D1-2")).quantity == 10);
    must(set_part_field(stores.book, "D1-1", "condition", "scrap"));
    driver.settle();
    driver.click("part.pieces.join");
    driver.settle();
    CHECK(holds(driver.expect_visible("part.pieces.in.error").label, "D1-1 is scrap"));
    // It is taken out, and another put in its place.
    must(set_part_field(stores.book, "D1-1", "within", ""));
    must(add_part(stores.book, {.tag = "CW", .name = "crown wheel, another"}));
    driver.settle();
    driver.click("part.pieces.in");
    driver.type("CW");
    driver.press(Key::enter);
    driver.settle();
    CHECK(driver.shows("part.piece.CW"));
    driver.click("part.pieces.join");
    driver.settle();
    CHECK(driver.expect_visible("part.assembly").label == "together, of these pieces");
    must(stores.book.undo());
    CHECK(must(part_tagged(stores.book, "D1")).split_on);
}

TEST_CASE("on its page a lot is divided, and pieces go into an assembly and come out again") {
    Stores stores;
    const auto bag = must(add_part(stores.book, {.tag = "B24", .name = "bolts", .quantity = 24}));
    const auto axle = must(add_part(
        stores.book, {.tag = "D1", .name = "differential", .place = "bench", .from = "Ansel"}));
    must(add_part(stores.book, {.tag = "PN", .name = "pinion", .place = "shelf 2"}));
    const auto field = [&](Driver& driver, const std::string& key, const std::string& text) {
        driver.click(key);
        driver.type(text);
    };
    lead_to(stores.parts, {"parts", bag.id.value});
    {
        auto driver = stores.begin();
        field(driver, "part.divide", "30");
        driver.press(Key::enter);
        driver.settle();
        CHECK(holds(driver.expect_visible("part.divide.error").label, "accepted are 1 to 23"));
        CHECK(must(list_parts(stores.book)).size() == 3);
        driver.click("part.divide");
        driver.press(Chord{'A', true});
        driver.type("7");
        field(driver, "part.divide.tag", "B7");
        driver.press(Key::enter);
        driver.settle();
        CHECK(must(part_tagged(stores.book, "B7")).quantity == 7);
        CHECK(driver.expect_visible("part.lot").label == "17 pieces, 0 used, 17 left");
        CHECK(stores.context.go->screen == "parts");
    }
    lead_to(stores.parts, {"parts", axle.id.value});
    auto driver = stores.begin();
    CHECK(driver.expect_visible("part.whence").label == "from Ansel");
    CHECK(driver.expect_visible("part.where").label == "kept: bench");
    driver.click("part.pieces.put");
    field(driver, "part.pieces.in", "D1");
    driver.press(Key::enter);
    driver.settle();
    CHECK(holds(driver.expect_visible("part.pieces.in.error").label, "piece of itself"));
    driver.click("part.pieces.in");
    driver.press(Chord{'A', true});
    driver.type("PN");
    driver.press(Key::enter);
    driver.settle();
    CHECK(must(part_tagged(stores.book, "PN")).within == axle.id);
    driver.click("part.piece.PN");
    CHECK(stores.context.go->record == must(part_tagged(stores.book, "PN")).id.value);
    lead_to(stores.parts, {"parts", must(part_tagged(stores.book, "PN")).id.value});
    driver.settle();
    CHECK(driver.expect_visible("part.where").label == "within D1, differential, kept: bench");
    driver.click("part.within.out");
    driver.settle();
    CHECK_FALSE(must(part_tagged(stores.book, "PN")).within);
    CHECK(driver.expect_visible("part.where").label == "kept: shelf 2");
    must(stores.book.undo());
    CHECK(must(part_tagged(stores.book, "PN")).within == axle.id);
}
