#include "fixture.h"

using namespace fettle;

TEST_CASE("a part keeps everything that was said of it") {
    Desk desk;
    auto position = must(add_position(desk.book, {.vehicle = desk.drover,
                                                  .group = "Rear suspension",
                                                  .number = "204-17",
                                                  .name = "Spring hanger"}));
    Part part;
    part.tag = "H7";
    part.name = "rear spring hanger";
    part.position = position;
    part.vehicle = desk.drover;
    part.origin = Origin::new_old_stock;
    part.condition = Condition::cleaned;
    part.decision = Decision::hold;
    part.maker = "Orrinvale Forge";
    part.place = "shelf 3, left";
    part.from = "Wenna Tarrow";
    part.cost = Money{1250, "GBP"};
    part.quantity = 2;
    part.acquired = must(parse_day("2026-01-10"));
    part.note = "stamped faintly";
    must(add_part(desk.book, part));

    auto back = must(part_tagged(desk.book, "h7")); // tags are read in any case
    CHECK(back.name == part.name);
    CHECK(back.position == position);
    CHECK(back.position_name == "Spring hanger");
    CHECK(back.origin == part.origin);
    CHECK(back.condition == part.condition);
    CHECK(back.decision == part.decision);
    CHECK(back.maker == part.maker);
    CHECK(back.place == part.place);
    CHECK(back.from == part.from);
    CHECK(back.cost == part.cost);
    CHECK(back.quantity == 2);
    CHECK(back.acquired == part.acquired);
    CHECK(back.note == part.note);
}

TEST_CASE("a part without a tag is given the next free one") {
    Desk desk;
    desk.part("P1", "pin");
    CHECK(must(add_part(desk.book, {.name = "bush"})).tag == "P2");
}

TEST_CASE("parts that cannot be are refused with the field and what is accepted") {
    Desk desk;
    desk.part("H7", "hanger");
    CHECK(holds(sentence(add_part(desk.book, {.tag = "h7", .name = "other"})), "hanger"));
    CHECK(holds(sentence(add_part(desk.book, {.tag = "H 8", .name = "other"})), "letters, digits"));
    CHECK(holds(sentence(add_part(desk.book, {.tag = "H8", .name = " "})), "part name"));
    CHECK(holds(sentence(add_part(desk.book, {.tag = "H8", .name = "x", .quantity = 0})),
                "quantity"));
    CHECK(must(list_parts(desk.book)).size() == 1);
}

TEST_CASE("single fields are set by name from typed text") {
    Desk desk;
    desk.part("H7", "hanger");
    CHECK(must(set_part_field(desk.book, "H7", "condition", "As-Found")).condition ==
          Condition::as_found);
    CHECK(must(set_part_field(desk.book, "H7", "origin", "new old stock")).origin ==
          Origin::new_old_stock);
    CHECK(must(set_part_field(desk.book, "H7", "cost", "12.5 gbp")).cost == Money{1250, "GBP"});
    CHECK(must(set_part_field(desk.book, "H7", "cost", "")).cost == std::nullopt);
    CHECK(must(set_part_field(desk.book, "H7", "vehicle", "drover")).vehicle == desk.drover);

    CHECK(holds(sentence(set_part_field(desk.book, "H7", "condition", "shiny")), "as found"));
    CHECK(holds(sentence(set_part_field(desk.book, "H7", "colour", "red")), "condition"));
    CHECK(holds(sentence(set_part_field(desk.book, "H7", "quantity", "two")), "two"));
    CHECK(holds(sentence(set_part_field(desk.book, "H7", "position", "99")), "99"));
    CHECK(holds(sentence(set_part_field(desk.book, "Z9", "note", "x")), "Z9"));
}

TEST_CASE("parts are listed by tag and narrowed by words and position") {
    Desk desk;
    desk.part("S2", "shackle pin");
    auto hanger = desk.part("H7", "spring hanger");
    hanger.maker = "Orrinvale Forge";
    must(set_part(desk.book, hanger));
    auto parts = must(list_parts(desk.book));
    REQUIRE(parts.size() == 2);
    CHECK(parts[0].tag == "H7");
    CHECK(must(list_parts(desk.book, {.words = "orrin hang"})).size() == 1);
    CHECK(must(list_parts(desk.book, {.words = "orrin pin"})).empty());
}
