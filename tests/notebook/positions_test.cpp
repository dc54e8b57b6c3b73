// Positions and what is there for them: counting, choosing, what is missing.
#include "base/csv.h"
#include "fixture.h"
#include "notebook/consignments.h"
#include "notebook/missing.h"

using namespace fettle;

namespace {

struct Stores : Desk {
    PositionId bolts = must(add_position(book, {.vehicle = drover,
                                                .group = "Rear axle",
                                                .number = "R5",
                                                .name = "Crown wheel bolt",
                                                .quantity = 10}));
    Part lot(const std::string& tag, int quantity, PositionId at) {
        return must(add_part(book, {.tag = tag,
                                    .name = "bolts in a bag",
                                    .position = at,
                                    .vehicle = drover,
                                    .quantity = quantity}));
    }
    ConsignmentId send(PartId part, int pieces, bool inward = false) {
        const auto id = must(keep_consignment(
            book, {.inward = inward, .firm = "Saltash Row", .purpose = "zinc flake"}));
        must(put_on(book, id, {.part = part, .pieces = pieces}));
        must(send_consignment(book, id, must(parse_day("2026-03-01"))));
        return id;
    }
    PositionFill fill(const std::string& number = "R5") {
        for (auto& one : must(list_positions(book, drover)))
            if (one.position.number == number) return one;
        FAIL("no such position");
        return {};
    }
};

} // namespace

TEST_CASE("what is out, on its way or used is not on hand, and only what is nowhere is to be got") {
    Stores stores;
    CHECK(stores.fill().to_get() == 10);
    auto bag = stores.lot("R5B", 6, stores.bolts);
    CHECK(stores.fill().on_hand == 6);
    bag.used = 2;
    must(set_part(stores.book, bag));
    CHECK(stores.fill().on_hand == 4);
    CHECK(stores.fill().used == 2);
    CHECK(stores.fill().missing() == 4); // the two used are in their place
    stores.send(bag.id, 3);
    CHECK(stores.fill().on_hand == 1);
    CHECK(stores.fill().out == 3);
    CHECK(stores.fill().missing() == 7);
    CHECK(stores.fill().to_get() == 4);
    const auto ordered = stores.lot("R5C", 3, stores.bolts);
    const auto way = stores.send(ordered.id, 3, true);
    CHECK(stores.fill().on_hand == 1);
    CHECK(stores.fill().coming == 3);
    CHECK(stores.fill().to_get() == 1);
    // What was lost on the way is not waited for any longer.
    must(settle_item(stores.book, way, ordered.id, "lost", must(parse_day("2026-03-09"))));
    CHECK(stores.fill().coming == 0);
    CHECK(stores.fill().on_hand == 1);
    CHECK(stores.fill().to_get() == 4);
}

TEST_CASE(
    "scrap, what is to be replaced or held, and what belongs to another vehicle fills nothing") {
    Stores stores;
    auto bag = stores.lot("R5B", 10, stores.bolts);
    CHECK(stores.fill().missing() == 0);
    for (const auto& [field, value, back] :
         {std::array{"condition", "scrap", "as found"}, std::array{"decision", "replace", "reuse"},
          std::array{"decision", "hold", "reuse"}}) {
        CAPTURE(value);
        must(set_part_field(stores.book, "R5B", field, value));
        CHECK(stores.fill().on_hand == 0);
        must(set_part_field(stores.book, "R5B", field, back));
        CHECK(stores.fill().on_hand == 10);
    }
    must(add_vehicle(stores.book, {.name = "Other"}));
    must(set_part_field(stores.book, "R5B", "vehicle", "Other"));
    CHECK(stores.fill().on_hand == 0);
}

TEST_CASE("positions are changed and removed, and what hangs on one keeps it") {
    Stores stores;
    auto at = must(position_by_id(stores.book, stores.bolts));
    at.quantity = 12;
    at.spec = "7/16 in BSF";
    must(set_position(stores.book, at));
    CHECK(must(find_position(stores.book, "R5")).quantity == 12);
    at.number = " ";
    CHECK(holds(sentence(set_position(stores.book, at)), "position number is empty"));
    must(add_position(stores.book, {.vehicle = stores.drover, .number = "R6", .name = "washer"}));
    at.number = "R6";
    CHECK(holds(sentence(set_position(stores.book, at)), "R6 is on this vehicle already"));
    const auto bag = stores.lot("R5B", 6, stores.bolts);
    CHECK(holds(sentence(remove_position(stores.book, stores.bolts)), "R5B is intended for it"));
    must(remove_position(stores.book, must(find_position(stores.book, "R6")).id));
    CHECK(must(list_positions(stores.book, stores.drover)).size() == 1);
    must(stores.book.undo());
    CHECK(must(list_positions(stores.book, stores.drover)).size() == 2);
    // The same number on two vehicles: the vehicle says which.
    const auto other = must(add_vehicle(stores.book, {.name = "Other"}));
    must(add_position(stores.book, {.vehicle = other, .number = "R5", .name = "bolt"}));
    CHECK(holds(sentence(find_position(stores.book, "R5")), "or its vehicle"));
    CHECK(must(find_position(stores.book, "R5", other)).name == "bolt");
}

TEST_CASE("positions stand by group, and within it as a parts list counts") {
    Stores stores;
    for (const char* number : {"F10", "F2", "F2a", "F1"})
        must(add_position(
            stores.book,
            {.vehicle = stores.drover, .group = "Front", .number = number, .name = "x"}));
    std::string order;
    for (const auto& fill : must(list_positions(stores.book, stores.drover)))
        order += fill.position.number + " ";
    CHECK(order == "F1 F2 F2a F10 R5 ");
}

TEST_CASE(
    "the part to use is the user's choice among those intended, and ends when it goes elsewhere") {
    Stores stores;
    const auto chosen = [&] { return must(position_by_id(stores.book, stores.bolts)).chosen; };
    const auto one = stores.lot("R5B", 10, stores.bolts), other = stores.lot("R5C", 10, {});
    must(choose_part(stores.book, stores.bolts, one.id));
    CHECK(chosen() == one.id);
    CHECK(stores.book.next_undo() == "chose R5B for position R5");
    CHECK(holds(sentence(choose_part(stores.book, stores.bolts, other.id)), "not intended for it"));
    must(set_part_field(stores.book, "R5B", "condition", "scrap"));
    CHECK_FALSE(chosen());
    CHECK(holds(sentence(choose_part(stores.book, stores.bolts, one.id)), "scrap"));
    must(stores.book.undo());
    CHECK(chosen() == one.id);
    must(set_part_field(stores.book, "R5B", "position", ""));
    CHECK_FALSE(chosen());
    must(stores.book.undo());
    must(choose_part(stores.book, stores.bolts, {}));
    CHECK_FALSE(chosen());
}

TEST_CASE("the shopping list names what is on its way and what might fit, and only what is short") {
    Stores stores;
    const auto other = must(add_vehicle(stores.book, {.name = "Thirty"}));
    must(add_part(stores.book, {.tag = "X1", .name = "Bolt, crown wheel, old", .vehicle = other}));
    must(add_part(stores.book, {.tag = "X2", .name = "crown wheel"})); // not every word
    const auto there = must(
        add_position(stores.book, {.vehicle = other, .number = "9", .name = "crown wheel bolt"}));
    must(
        add_part(stores.book,
                 {.tag = "X3", .name = "set", .position = there, .vehicle = other, .quantity = 4}));
    const auto ordered = stores.lot("R5C", 3, stores.bolts);
    stores.send(ordered.id, 3, true);
    must(add_position(stores.book, {.vehicle = stores.drover, .number = "Z", .name = "whole"}));
    must(add_part(
        stores.book,
        {.tag = "Z1", .name = "whole", .position = must(find_position(stores.book, "Z")).id}));

    const auto lines = must(list_missing(stores.book, stores.drover));
    REQUIRE(lines.size() == 1);
    CHECK(lines[0].fill.missing() == 10);
    CHECK(lines[0].fill.to_get() == 7);
    REQUIRE(lines[0].away.size() == 1);
    const auto day = must(parse_day("2026-03-02"));
    CHECK(lines[0].away[0].words(day) == "R5C: 3 on the way from Saltash Row");
    REQUIRE(lines[0].might_fit.size() == 2);
    CHECK(lines[0].might_fit[0].words() == "X1 Bolt, crown wheel, old, held for Thirty");
    CHECK(lines[0].might_fit[1].words() == "X3 set × 4, held for Thirty");
    // The other vehicle's position has its four bolts.
    CHECK(must(list_missing(stores.book)).size() == 1);

    // RFC 4180: a heading, CRLF, fields with commas and quotes in quotes, as many in each record.
    const auto csv = missing_csv(lines, day);
    CHECK(csv.starts_with("vehicle,group,number,name,spec,quantity,on hand,in place,out,"
                          "on its way,to get,away,might fit\r\n"
                          "Drover,Rear axle,R5,Crown wheel bolt,,10,0,0,0,3,7,"
                          "R5C: 3 on the way from Saltash Row,\"X1 Bolt, crown wheel, old, held"));
    const auto table = must(read_csv(csv));
    REQUIRE(table.rows.size() == 2);
    CHECK(table.rows[1].fields.size() == table.rows[0].fields.size());
}
