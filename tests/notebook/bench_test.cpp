#include "fixture.h"
#include "notebook/bench.h"
#include "notebook/condition_steps.h"
#include "notebook/runs.h"
#include "notebook/weather.h"

using namespace fettle;

namespace {

Day day(const char* text) {
    return must(parse_day(text));
}

struct Saltash : Desk {
    Part hanger = part("H7", "spring hanger"), plate = part("X1", "shackle plate");
    ConsignmentId id = must(keep_consignment(
        book,
        {.firm = "Saltash Row Blasting", .purpose = "machining", .due_on = day("2026-03-20")}));

    Saltash() {
        for (const Part* each : {&hanger, &plate})
            must(put_on(book, id, {.part = each->id}));
        must(send_consignment(book, id, day("2026-03-03")));
    }
    void came(const Part& which, const char* on) {
        must(receive(book, id,
                     {.items = {{which.id}}, .on = day(on), .condition = Condition::cleaned}));
    }
    std::string waiting() {
        std::string tags;
        for (const Arrival& arrival : must(arrivals_to_look_at(book)))
            tags += arrival.tag + " ";
        return tags;
    }
};

} // namespace

TEST_CASE("the bench of a new notebook has nothing on it and says so") {
    Desk desk;
    CHECK(must(on_bench(desk.book, day("2026-03-07"))).nothing_yet);
    desk.task("strip the axle");
    const auto bench = must(on_bench(desk.book, day("2026-03-07")));
    CHECK_FALSE(bench.nothing_yet);
    CHECK(bench.tasks.size() == 1);
}

TEST_CASE("what came waits for a look until an entry, a measurement, a later condition or a word") {
    Saltash desk;
    CHECK(desk.waiting().empty());
    desk.came(desk.hanger, "2026-03-10");
    desk.came(desk.plate, "2026-03-12");
    CHECK(desk.waiting() == "X1 H7 "); // the last first
    // An entry of the day before says nothing of what came.
    must(write_entry(desk.book,
                     {.day = day("2026-03-09"), .text = "packed", .parts = {desk.hanger.id}}));
    CHECK(desk.waiting() == "X1 H7 ");
    must(write_entry(desk.book,
                     {.day = day("2026-03-10"), .text = "clean", .parts = {desk.hanger.id}}));
    CHECK(desk.waiting() == "X1 ");
    must(looked_at(desk.book, desk.id, desk.plate.id, day("2026-03-12")));
    CHECK(desk.waiting().empty());
    must(desk.book.undo());
    CHECK(desk.waiting() == "X1 ");
    must(set_condition(desk.book, desk.plate.id, Condition::primed, day("2026-03-13")));
    CHECK(desk.waiting().empty());
    const Part other = desk.part("K1", "pin");
    CHECK(holds(sentence(looked_at(desk.book, desk.id, other.id, day("2026-03-13"))),
                "Nothing of this part has come"));
}

TEST_CASE("the bench holds what is packed, out and overdue, and nothing that is over") {
    Saltash desk;
    auto packed = must(keep_consignment(desk.book, {.firm = "Hebble Lane", .purpose = "grinding"}));
    CHECK(must(on_bench(desk.book, day("2026-03-07"))).consignments.size() == 2);
    const auto late = must(on_bench(desk.book, day("2026-03-25")));
    REQUIRE(late.consignments.size() == 2);
    CHECK(late.consignments[0].id == packed);
    CHECK(late.consignments[1].state(day("2026-03-25")) == ConsignmentState::overdue);
    desk.came(desk.hanger, "2026-03-10");
    desk.came(desk.plate, "2026-03-10");
    CHECK(must(on_bench(desk.book, day("2026-03-25"))).consignments.size() == 1);
}

TEST_CASE("the bench knows the day's hours and temperature, untied photos, runs and tags seen") {
    Saltash desk;
    const Day today = day("2026-03-07");
    must(set_weather(desk.book, today, {.temperature_c = 11}));
    must(set_hours_of_day(desk.book, today, 2.5));
    const auto seen = desk.photo("a.jpg", "2026-03-07T10:00:00");
    desk.photo("b.jpg", "2026-03-07T10:02:00");
    desk.photo("c.jpg", "2026-03-07T18:00:00");
    must(note_tags(desk.book, seen, {"H7"}));
    must(propose_runs(desk.book));
    const auto bench = must(on_bench(desk.book, today));
    CHECK(bench.hours == 2.5);
    CHECK(bench.temperature_c == 11);
    CHECK(bench.untied_photos == 2); // the one with the tag is tied by it
    CHECK(bench.runs_to_confirm == 1);
    REQUIRE(bench.seen.size() == 1);
    CHECK(bench.seen[0].consignment == desk.id);
    CHECK(bench.seen[0].tags == std::vector<std::string>{"H7"});
}
