// Measuring on the page of a part, pressed and typed as a person would.
#include "desk/measuring.h"
#include "workroom_fixture.h"

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::Driver;
using fettle::ui::testing::WorkroomTest;

namespace {

constexpr Chord kMeasure{'M'}, kKeep{'K', true}, kDecide{'D'};

struct PartBench : WorkroomTest {
    PositionId position = must(
        add_position(book, {.vehicle = drover, .group = "Axle", .number = "A1", .name = "pin"}));
    PartId pin = [this] {
        Part fresh;
        fresh.tag = "P3";
        fresh.name = "king pin";
        fresh.position = position;
        return must(add_part(book, fresh)).id;
    }();

    void limits(const std::string& wear_limit) {
        must(desk::set_limits(book, sheets,
                              {position, "pin diameter", {{"wear_limit", wear_limit}}}));
    }
    void open_page() {
        driver().press(Key::f5);
        driver().settle(3);
        driver().press(Key::enter); // the frame is on the first row
        REQUIRE(bench->until_shown("part.measure"));
    }
    // The sheet is worked out beside the window, again with each letter.
    bool until_judged(const std::string& verdict) {
        return bench->until(
            [&] { return bench->said("part.measure.sheet.result.verdict") == verdict; });
    }
    std::vector<Measurement> kept() { return must(list_measurements(book, pin)); }
    Decision decision() { return must(part_by_id(book, pin)).decision; }
};

} // namespace

TEST_CASE("readings are judged while they are typed, kept by one key and decided by another") {
    PartBench room;
    room.limits("0.9950 in");
    room.open_page();
    CHECK(room.bench->said("part.measured.0") == "not measured yet");
    room.driver().press(kMeasure);
    room.driver().settle(4);
    CHECK(room.bench->said("part.measure.sheet.wear_limit") == "0.9950 in");
    room.driver().type("1 0.9982 0"); // the caret is in the readings
    REQUIRE(room.until_judged("reuse"));
    room.driver().press(Key::enter);
    room.driver().type("1 0.9940 90");
    REQUIRE(room.until_judged("replace"));
    CHECK(room.kept().empty());
    room.driver().press(kKeep);
    REQUIRE(room.bench->until([&] { return room.kept().size() == 1; }));
    REQUIRE(room.bench->until_shown("part.measured.0"));
    CHECK(room.bench->said("part.measured.0") == "replace");
    CHECK(room.kept()[0].day == today());
    CHECK(room.decision() == Decision::undecided);
    CHECK(room.bench->until_shown("part.measured.0.chart.readings"));

    room.driver().press(kDecide);
    room.driver().settle(3);
    CHECK(room.decision() == Decision::replace);
    CHECK_FALSE(room.driver().shows("part.measured.0.decide"));
    must(room.book.undo());
    must(room.book.undo());
    CHECK(room.kept().empty());
}

TEST_CASE("a new feature is named, measured on another day, and its limits kept for the position") {
    PartBench room;
    room.open_page();
    room.driver().reveal("part.measure");
    room.driver().click("part.measure");
    room.driver().settle(4);
    room.driver().type("head height"); // the caret is in the feature
    room.bench->type_into("part.measure.day", "2026-02-21");
    room.bench->type_into("part.measure.note", "by lamplight");
    room.bench->type_into("part.measure.sheet.readings", "1 0.500");
    room.bench->type_into("part.measure.sheet.wear_limit", "0.490 in");
    REQUIRE(room.until_judged("reuse"));
    room.driver().reveal("part.measure.limits");
    room.driver().click("part.measure.limits");
    const auto limits = must(list_features(room.book, room.position));
    REQUIRE(limits.size() == 1);
    CHECK(limits[0].feature == "head height");
    CHECK(limits[0].typed.at("wear_limit") == "0.490 in");
    for (const char* of_the_day : {"readings", "mating", "instrument"})
        CHECK(limits[0].typed.count(of_the_day) == 0);
    room.driver().reveal("part.measure.keep");
    room.driver().click("part.measure.keep");
    REQUIRE(room.bench->until([&] { return room.kept().size() == 1; }));
    CHECK(to_iso(room.kept()[0].day) == "2026-02-21");
    CHECK(room.kept()[0].feature == "head height");
    CHECK(room.kept()[0].note == "by lamplight");
    REQUIRE(room.bench->until_shown("part.measured.0.decide"));
    room.driver().reveal("part.measured.0.decide");
    room.driver().click("part.measured.0.decide");
    CHECK(room.decision() == Decision::reuse);
}

TEST_CASE("a second day shows the sizes over time and the earlier verdict") {
    PartBench room;
    room.limits("0.9950 in");
    for (const auto& [reading, day] :
         {std::pair{"1 0.9990", "2026-01-10"}, {"1 0.9940", "2026-02-10"}})
        must(desk::measure(
            room.book, room.sheets,
            {room.pin, "pin diameter", {{"readings", reading}}, must(parse_day(day)), ""}));
    room.open_page();
    REQUIRE(room.bench->until_shown("part.measured.0.chart.over_time"));
    CHECK(room.bench->said("part.measured.0") == "replace");
    CHECK(holds(room.bench->said("part.measured.0.earlier.1"), "reuse"));
    room.driver().reveal("part.measured.0.all");
    room.driver().click("part.measured.0.all");
    CHECK(room.bench->until_shown("part.measured.0.result.working.0"));
    room.driver().reveal("part.measured.0.remove");
    room.driver().click("part.measured.0.remove");
    CHECK(room.kept().size() == 1);
    must(room.book.undo());
    room.driver().settle(3);
    room.driver().reveal("part.measured.0.again");
    room.driver().click("part.measured.0.again");
    room.driver().settle(4);
    CHECK(room.bench->said("part.measure.name") == "pin diameter");
    CHECK(room.bench->said("part.measure.sheet.readings").empty());
    // Esc leads out of the field, and then out of the form.
    while (room.bench->stage.reg().find("part.measure.leave")) {
        room.driver().press(Key::escape);
        room.driver().settle(3);
    }
    room.driver().reveal("part.measure"); // wherever the page was scrolled to
    room.driver().settle(3);
    CHECK(room.driver().shows("part.measure"));
    CHECK(room.kept().size() == 2);
}

TEST_CASE("what cannot be kept is said in the form, and nothing is lost") {
    PartBench room;
    room.open_page();
    room.driver().press(kMeasure);
    room.driver().settle(4);
    room.driver().press(kKeep);
    REQUIRE(room.bench->until_shown("part.measure.trouble"));
    room.driver().click("part.measure.name");
    room.driver().type("bore");
    room.bench->type_into("part.measure.day", "never");
    room.driver().press(kKeep);
    room.driver().settle(3);
    CHECK(holds(room.driver().expect_visible("part.measure.trouble").label + " " +
                    room.bench->said("part.measure.trouble"),
                "never"));
    CHECK(room.bench->said("part.measure.name") == "bore");
    CHECK(room.kept().empty());
}
