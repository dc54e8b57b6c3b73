#include "fixture.h"

using namespace fettle;

TEST_CASE("vehicles have names of their own") {
    Desk desk;
    CHECK(holds(sentence(add_vehicle(desk.book, {.name = "Drover"})), "already"));
    CHECK(holds(sentence(add_vehicle(desk.book, {.name = ""})), "vehicle name"));
    must(set_vehicle(desk.book, {.id = desk.drover, .name = "Drover", .year = 1936}));
    CHECK(must(vehicle_named(desk.book, "drover")).year == 1936);
    CHECK(holds(sentence(vehicle_named(desk.book, "Lurcher")), "Lurcher"));
}

TEST_CASE("a position lacks what its quantity asks for and the parts on hand do not give") {
    Desk desk;
    auto bolts = must(add_position(desk.book, {.vehicle = desk.drover,
                                               .group = "Rear suspension",
                                               .number = "204-3",
                                               .name = "Centre bolt",
                                               .quantity = 3}));
    must(add_part(desk.book, {.name = "bolts", .position = bolts, .quantity = 2}));
    must(add_part(desk.book,
                  {.name = "bent bolt", .position = bolts, .condition = Condition::scrap}));
    auto fills = must(list_positions(desk.book, desk.drover));
    REQUIRE(fills.size() == 1);
    CHECK(fills[0].on_hand == 2);
    CHECK(fills[0].missing() == 1);
}

TEST_CASE("positions are found by number or by name, and ambiguity is asked back") {
    Desk desk;
    for (const char* number : {"1", "2"})
        must(add_position(
            desk.book, {.vehicle = desk.drover, .group = "Axle", .number = number, .name = "Pin"}));
    CHECK(must(find_position(desk.book, "2")).number == "2");
    CHECK(holds(sentence(find_position(desk.book, "pin")), "Several"));
    CHECK(holds(
        sentence(add_position(
            desk.book, {.vehicle = desk.drover, .group = "Axle", .number = "2", .name = "Bush"})),
        "already"));
}
