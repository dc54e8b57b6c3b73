// Lots of which some are used, assemblies in their pieces, and the life of a part.
#include "fixture.h"
#include "notebook/condition_steps.h"
#include "notebook/consignments.h"
#include "notebook/measurements.h"
#include "notebook/part_life.h"
#include "notebook/part_pieces.h"

using namespace fettle;

namespace {

struct Axle : Desk {
    Part axle = must(add_part(book, {.tag = "D1",
                                     .name = "differential",
                                     .vehicle = drover,
                                     .condition = Condition::cleaned,
                                     .place = "bench",
                                     .from = "Ansel",
                                     .acquired = day("2026-01-10")}));
    static Day day(const std::string& text) { return must(parse_day(text)); }
    std::vector<Part> split() {
        return must(split_part(book, axle.id, {{"crown wheel"}, {"bolt", 10}, {"pinion", 1, "PN"}},
                               day("2026-02-01")));
    }
    Part again(const std::string& tag) { return must(part_tagged(book, tag)); }
    ConsignmentId send(const std::string& tag) {
        const auto id =
            must(keep_consignment(book, {.firm = "Hebble Lane", .purpose = "grinding"}));
        must(put_on(book, id, {.part = again(tag).id}));
        must(send_consignment(book, id, day("2026-02-10")));
        return id;
    }
};

} // namespace

TEST_CASE("pieces of a lot are used and taken back, never more than are at hand") {
    Axle bench;
    auto bag = bench.part("B24", "bolts");
    bag.quantity = 24;
    must(set_part(bench.book, bag));
    must(use_pieces(bench.book, bag.id, 7));
    CHECK(bench.again("B24").used == 7);
    CHECK(bench.again("B24").left() == 17);
    CHECK(holds(sentence(use_pieces(bench.book, bag.id, 18)), "17 of 24 are at hand"));
    CHECK(holds(sentence(use_pieces(bench.book, bag.id, -8)), "7 of B24 are used"));
    must(use_pieces(bench.book, bag.id, -1));
    CHECK(bench.again("B24").used == 6);
    must(bench.book.undo());
    CHECK(bench.again("B24").used == 7);
    CHECK(holds(sentence(set_part_field(bench.book, "B24", "used", "25")), "0 to its quantity"));
    CHECK(holds(sentence(set_part_field(bench.book, "B24", "used", "-1")), "\"-1\""));
    // Only what is left can be sent, and a bag cannot hold less than is used and away.
    const auto id = must(keep_consignment(bench.book, {.firm = "Hebble Lane", .purpose = "zinc"}));
    CHECK(holds(sentence(put_on(bench.book, id, {.part = bag.id, .pieces = 18})),
                "at most 17 can go"));
    must(put_on(bench.book, id, {.part = bag.id, .pieces = 10}));
    CHECK(holds(sentence(set_part_field(bench.book, "B24", "quantity", "16")),
                "10 of its pieces away and 7 used"));
    must(set_part_field(bench.book, "B24", "quantity", "17"));
}

TEST_CASE("an assembly is split into pieces that take over what is known of it") {
    Axle bench;
    const auto pieces = bench.split();
    REQUIRE(pieces.size() == 3);
    CHECK(bench.again("D1").split_on == Axle::day("2026-02-01"));
    const auto bolts = bench.again("D1-2");
    CHECK(bolts.name == "bolt");
    CHECK(bolts.quantity == 10);
    CHECK(bolts.condition == Condition::cleaned);
    CHECK(bolts.place == "bench");
    CHECK(bolts.within_tag == "D1");
    CHECK(bench.again("PN").within == bench.axle.id);
    CHECK(holds(sentence(split_part(bench.book, bench.axle.id, {{"x"}}, today())),
                "in its pieces since 1 Feb 2026"));
    must(bench.book.undo());
    CHECK_FALSE(bench.again("D1").split_on);
    CHECK_FALSE(part_tagged(bench.book, "PN"));
    CHECK(holds(sentence(split_part(bench.book, bench.axle.id, {}, today())), "no pieces"));
    // A tag in use takes the whole act back.
    bench.part("H7", "hanger");
    CHECK(holds(sentence(split_part(bench.book, bench.axle.id, {{"a"}, {"b", 1, "H7"}}, today())),
                "H7"));
    CHECK_FALSE(bench.again("D1").split_on);
    CHECK(must(list_parts(bench.book)).size() == 2);
}

TEST_CASE("it goes together from all its pieces, and not while one is out or scrap") {
    Axle bench;
    CHECK(holds(sentence(join_part(bench.book, bench.axle.id, today())), "it is not split"));
    bench.split();
    must(set_part_field(bench.book, "D1-1", "condition", "finished"));
    must(set_part_field(bench.book, "D1-2", "condition", "finished"));
    must(set_part_field(bench.book, "PN", "condition", "repaired"));
    const auto sent = bench.send("PN");
    CHECK(sentence(join_part(bench.book, bench.axle.id, today())) ==
          "D1 cannot be put together: PN is with Hebble Lane since 10 Feb 2026 for grinding "
          "(consignment 1).");
    must(receive(bench.book, sent,
                 {.items = {{bench.again("PN").id}}, .on = Axle::day("2026-02-20")}));
    must(set_part_field(bench.book, "D1-1", "condition", "scrap"));
    CHECK(holds(sentence(join_part(bench.book, bench.axle.id, today())), "D1-1 is scrap"));
    must(set_part_field(bench.book, "D1-1", "within", "")); // another is put in its place
    bench.part("CW", "crown wheel, another");
    must(set_part_field(bench.book, "CW", "condition", "finished"));
    must(set_part_field(bench.book, "CW", "within", "d1"));
    must(join_part(bench.book, bench.axle.id, Axle::day("2026-03-01")));
    CHECK_FALSE(bench.again("D1").split_on);
    CHECK(bench.again("D1").condition == Condition::repaired); // the pinion's
    CHECK(holds(sentence(set_part_field(bench.book, "CW", "within", "")), "split D1 first"));
    CHECK(holds(sentence(set_part_field(bench.book, "D1", "within", "CW")), "split CW first"));
    must(bench.book.undo());
    CHECK(bench.again("D1").split_on);
    CHECK(holds(sentence(set_part_field(bench.book, "D1", "within", "D1")), "piece of itself"));
}

TEST_CASE("what is within an assembly goes where it goes") {
    Axle bench;
    const auto position = must(add_position(
        bench.book, {.vehicle = bench.drover, .number = "R2", .name = "Bevel pinion"}));
    bench.split();
    must(set_part_field(bench.book, "PN", "position", "R2"));
    const auto on_hand = [&] { return must(list_positions(bench.book, bench.drover))[0].on_hand; };
    const auto id =
        must(keep_consignment(bench.book, {.firm = "Hebble Lane", .purpose = "grinding"}));
    CHECK(holds(sentence(put_on(bench.book, id, {.part = bench.axle.id})), "lies in its pieces"));
    must(join_part(bench.book, bench.axle.id, today()));
    CHECK(on_hand() == 1);
    CHECK(holds(sentence(put_on(bench.book, id, {.part = bench.again("PN").id})), "within D1"));
    bench.send("D1");
    CHECK(on_hand() == 0);
    const auto away = must(whereabouts(bench.book, bench.again("PN").id));
    REQUIRE(away.size() == 1);
    CHECK(away[0].within == "D1");
    CHECK(holds(away_words(away[0], today()), "within D1 with Hebble Lane"));
    CHECK(holds(sentence(split_part(bench.book, bench.axle.id, {}, today())), "Hebble Lane"));
    CHECK(position.value > 0);
}

TEST_CASE("a piece is typed by its name, with how many before it") {
    const auto piece = must(parse_piece(" 10 x crown wheel bolt "));
    CHECK(piece.name == "crown wheel bolt");
    CHECK(piece.quantity == 10);
    CHECK(must(parse_piece("4× pin")).quantity == 4);
    CHECK(must(parse_piece("2 inch pin")).name == "2 inch pin");
    CHECK(holds(sentence(parse_piece("0 x pin")), "whole number from 1"));
    CHECK(holds(sentence(parse_piece(" ")), "no name"));
}

TEST_CASE("the life of a part runs from where it came from to where it is, by its days") {
    Axle bench;
    must(set_part_field(bench.book, "D1", "cost", "120 GBP"));
    must(set_condition(bench.book, bench.axle.id, Condition::repaired, Axle::day("2026-02-03")));
    must(keep_measurement(bench.book, {.part = bench.axle.id,
                                       .feature = "backlash",
                                       .day = Axle::day("2026-02-02"),
                                       .sheet = "fit.wear",
                                       .plugin_version = "1",
                                       .answer = "{}",
                                       .verdict = "reuse"}));
    must(write_entry(bench.book, {.day = Axle::day("2026-02-04"),
                                  .hours = 1.5,
                                  .text = "Meshed it.\nSecond line.",
                                  .parts = {bench.axle.id}}));
    const auto sent = bench.send("D1");
    must(receive(bench.book, sent, {.items = {{bench.axle.id}}, .on = Axle::day("2026-02-20")}));
    std::vector<std::string> told;
    for (const auto& line : must(life_of(bench.book, bench.axle.id)))
        told.push_back(to_iso(line.day) + " " + line.kind + ": " + line.words);
    CHECK(told == std::vector<std::string>{
                      "2026-01-10 came: from Ansel, for 120.00 GBP",
                      "2026-01-10 condition: cleaned",
                      "2026-02-02 measured: backlash: reuse",
                      "2026-02-03 condition: repaired",
                      "2026-02-04 work: Meshed it.",
                      "2026-02-10 out: to Hebble Lane for grinding",
                      "2026-02-20 back: came from Hebble Lane",
                  });
    CHECK(must(costs_of_part(bench.book, bench.axle.id)) == std::vector{Money{12000, "GBP"}});
}

TEST_CASE("a lot is divided into two bags with tags of their own, the cost stays with the first") {
    Axle bench;
    auto bag = bench.part("B24", "bolts");
    bag.quantity = 24;
    bag.place = "drawer 4";
    bag.cost = Money{2160, "GBP"};
    must(set_part(bench.book, bag));
    must(set_condition(bench.book, bag.id, Condition::cleaned, Axle::day("2026-02-03")));
    must(use_pieces(bench.book, bag.id, 3));
    // 24 less the 3 used: 21 are free.
    CHECK(sentence(divide_lot(bench.book, bag.id, 22)) ==
          "22 pieces of B24 cannot go into another bag: accepted are 1 to 21.");
    CHECK(holds(sentence(divide_lot(bench.book, bag.id, 0)), "accepted are 1 to 21"));
    CHECK(holds(sentence(divide_lot(bench.book, bag.id, 7, "D1")), "on another part already"));
    CHECK(bench.again("B24").quantity == 24);
    const auto other = must(divide_lot(bench.book, bag.id, 7, "B7"));
    CHECK(bench.again("B24").quantity == 17);
    CHECK(bench.again("B24").used == 3);
    CHECK(bench.again("B24").cost == Money{2160, "GBP"});
    CHECK(bench.again("B7").quantity == 7);
    CHECK(bench.again("B7").used == 0);
    CHECK(bench.again("B7").place == "drawer 4");
    CHECK_FALSE(bench.again("B7").cost);
    const auto steps = must(list_condition_steps(bench.book, other.id));
    REQUIRE(steps.size() == 2); // as found, and cleaned on the day given
    CHECK(std::ranges::count(steps, Axle::day("2026-02-03"), &ConditionStep::on) == 1);
    must(bench.book.undo());
    CHECK(bench.again("B24").quantity == 24);
    CHECK_FALSE(part_tagged(bench.book, "B7"));
    // Pieces on a consignment, packed ones too, stay with the lot.
    bench.send("B24");
    CHECK(sentence(divide_lot(bench.book, bag.id, 1)) ==
          "B24 cannot be divided: no piece of it is free.");
    CHECK(holds(sentence(divide_lot(bench.book, bench.axle.id, 1)), "it is a single piece"));
}

TEST_CASE("an assembly is put together from parts that lay loose, never in a circle") {
    Axle bench;
    auto pin = bench.part("PN", "pinion");
    auto case_ = bench.part("DC", "case");
    auto axle = bench.part("AX", "rear axle");
    for (const char* tag : {"PN", "DC", "D1"})
        must(set_part_field(bench.book, tag, "condition", "finished"));
    must(set_part_field(bench.book, "PN", "condition", "repaired"));
    must(join_part(bench.book, bench.axle.id, today(), {pin.id, case_.id}));
    CHECK(bench.again("PN").within_tag == "D1");
    CHECK(bench.again("D1").condition == Condition::repaired); // the pinion's
    CHECK(sentence(join_part(bench.book, case_.id, today(), {bench.axle.id})) ==
          "DC cannot be put together: it is within D1 itself.");
    CHECK(holds(sentence(join_part(bench.book, case_.id, today(), {case_.id})), "piece of itself"));
    CHECK(holds(sentence(join_part(bench.book, axle.id, today(), {pin.id})),
                "PN is a piece of D1; take it out of that first"));
    must(bench.book.undo()); // all in one step
    CHECK_FALSE(bench.again("PN").within);
    CHECK_FALSE(bench.again("DC").within);
    CHECK(bench.again("D1").condition == Condition::finished);
    bench.send("PN");
    CHECK(holds(sentence(join_part(bench.book, bench.axle.id, today(), {case_.id, pin.id})),
                "PN is with Hebble Lane since 10 Feb 2026"));
    CHECK_FALSE(bench.again("DC").within);
}

TEST_CASE("a piece is taken out of its assembly, which stays together, and not while it is out") {
    Axle bench;
    bench.split();
    must(join_part(bench.book, bench.axle.id, today()));
    must(take_out_piece(bench.book, bench.again("PN").id));
    CHECK_FALSE(bench.again("PN").within);
    CHECK_FALSE(bench.again("D1").split_on);
    CHECK(must(list_parts(bench.book, {.within = bench.axle.id})).size() == 2);
    CHECK(sentence(take_out_piece(bench.book, bench.again("PN").id)) ==
          "PN cannot be taken out: it is not a piece of an assembly.");
    must(bench.book.undo());
    CHECK(bench.again("PN").within_tag == "D1");
    bench.send("D1");
    CHECK(holds(sentence(take_out_piece(bench.book, bench.again("PN").id)),
                "PN cannot be taken out of D1: it is within D1 with Hebble Lane"));
}

TEST_CASE("a piece may be typed with its tag, and takes the maker over") {
    const auto piece = must(parse_piece("PN = 2 x bevel pinion"));
    CHECK(piece.tag == "PN");
    CHECK(piece.quantity == 2);
    CHECK(piece.name == "bevel pinion");
    CHECK(must(parse_piece("ratio a/b = 4 wheel")).tag.empty()); // no tag before it: a name
    CHECK(holds(sentence(parse_piece("PN =")), "no name"));
    Axle bench;
    must(set_part_field(bench.book, "D1", "maker", "Quernmore Motor Works"));
    must(split_part(bench.book, bench.axle.id, {piece}, today()));
    CHECK(bench.again("PN").maker == "Quernmore Motor Works");
}

TEST_CASE("undo names the fields of a part that were changed") {
    Axle bench;
    const auto after = [&](const std::string& field, const std::string& text) {
        must(set_part_field(bench.book, "D1", field, text));
        return bench.book.next_undo();
    };
    CHECK(after("place", "shelf 2") == "changed the place of D1");
    CHECK(after("from", "Hebble Lane") == "changed the seller of D1");
    auto part = bench.again("D1");
    part.place = "shelf 3";
    part.cost = Money{100, "GBP"};
    must(set_part(bench.book, part));
    CHECK(bench.book.next_undo() == "changed the place and cost of D1");
    part.name = "axle", part.place = "x", part.note = "y", part.maker = "z";
    must(set_part(bench.book, part));
    CHECK(bench.book.next_undo() == "changed part D1");
    auto bag = bench.part("B24", "bolts");
    bag.quantity = 24;
    must(set_part(bench.book, bag));
    must(use_pieces(bench.book, bag.id, 7));
    CHECK(bench.book.next_undo() == "used 7 pieces of B24, 17 left");
}
