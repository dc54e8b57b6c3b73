// The rebuild at a glance, as a person meets it on Bench.
#include "notebook/costs.h"
#include "workroom_fixture.h"

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::WorkroomTest;

namespace {

struct Glance : WorkroomTest {
    void fill() {
        for (const char* group : {"Axle", "Engine"})
            must(add_position(book, {.vehicle = drover,
                                     .group = group,
                                     .number = std::string(group, 1) + "1",
                                     .name = "pin"}));
        must(add_part(book, {.tag = "P3",
                             .name = "pin",
                             .position = must(find_position(book, "E1")).id,
                             .condition = Condition::fitted}));
        must(write_entry(book, {.day = must(parse_day("2025-12-30")), .hours = 2.5, .text = "a"}));
        must(write_entry(book, {.day = must(parse_day("2026-02-01")), .text = "b"}));
        must(keep_cost(book, {.on = must(parse_day("2026-02-01")),
                              .amount = must(parse_money("12.50 GBP")),
                              .what = "oil"}));
        driver().settle();
    }
};

} // namespace

TEST_CASE(
    "a key leads from today's work to the rebuild and back, with figures by group and month") {
    Glance room;
    room.fill();
    CHECK_FALSE(room.driver().shows("rebuild.stands"));
    room.driver().press(Chord{'R'});
    CHECK(holds(room.driver().expect_visible("rebuild.stands").label,
                "1 fitted, 0 there, 1 missing"));
    CHECK(room.driver().value("rebuild.group.0") == "0 fitted, 0 there, 1 missing");
    CHECK(room.driver().value("rebuild.group.1") == "1 fitted, 0 there, 0 missing");
    CHECK(room.driver().value("rebuild.hours.all") == "2.5 h");
    CHECK(room.bench->stage.reg().find("rebuild.hours.2026-01")->value == "0 h in 0 entries");
    CHECK(room.bench->stage.reg().find("rebuild.spent.GBP.2026-02")->value == "12.50 GBP");
    CHECK(room.bench->stage.reg().used_twice().empty());
    room.driver().press(Chord{'R'});
    CHECK(room.driver().shows("bench.hours"));
}

TEST_CASE("the pointer over a month, or the keyboard on it, tells its figure in words") {
    Glance room;
    room.fill();
    room.driver().press(Chord{'R'});
    CHECK(room.driver().value("rebuild.hours.told").empty());
    room.driver().click("rebuild.hours.2025-12");
    CHECK(room.driver().value("rebuild.hours.told") == "Dec 2025:  2.5 h in 1 entry");
    room.driver().press(Key::right);
    CHECK(room.driver().value("rebuild.hours.told") == "Jan 2026:  0 h in 0 entries");
}

TEST_CASE("a group that is pressed leads to its positions") {
    Glance room;
    room.fill();
    room.driver().press(Chord{'R'});
    room.driver().click("rebuild.group.1");
    CHECK(room.driver().shows("positions.row.E1"));
    CHECK_FALSE(room.driver().shows("rebuild.stands"));
}

TEST_CASE("with nothing to show, the rebuild says what to do first") {
    Glance room;
    must(keep_task(room.book, {.title = "strip it"})); // else Bench itself is empty
    room.driver().settle();
    room.driver().press(Chord{'R'});
    CHECK(room.driver().shows("rebuild.empty"));
    room.driver().press(Chord{'P'});
    CHECK_FALSE(room.driver().shows("rebuild.empty"));
}
