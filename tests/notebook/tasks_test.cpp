#include "fixture.h"
#include "notebook/consignments.h"
#include "notebook/part_pieces.h"
#include "notebook/weather.h"

using namespace fettle;

namespace {

TaskStanding standing(Desk& desk, TaskId id, const char* today = "2026-03-07") {
    for (auto& each : must(list_tasks(desk.book, must(parse_day(today)))))
        if (each.task.id == id) return each;
    FAIL("the task is not listed");
    return {};
}

std::string waits(Desk& desk, TaskId id, const char* today = "2026-03-07") {
    return waits_in_words(standing(desk, id, today));
}

Day day(const char* text) {
    return must(parse_day(text));
}

// A shackle needs four pins, cleaned, of which there is one lot that can be sent out.
struct Pins : Desk {
    PositionId place = must(add_position(book, {.vehicle = drover,
                                                .group = "Springs",
                                                .number = "F5",
                                                .name = "Shackle pin",
                                                .quantity = 4}));
    TaskId fit = must(
        keep_task(book, {.title = "fit the shackles", .positions = {{place, Condition::cleaned}}}));

    Part pins(const std::string& tag, int pieces, Condition condition = Condition::cleaned,
              const std::string& kept = {}) {
        return must(add_part(book, {.tag = tag,
                                    .name = "shackle pins",
                                    .position = place,
                                    .condition = condition,
                                    .place = kept,
                                    .quantity = pieces}));
    }
    ConsignmentId send(const Part& part, int pieces, const char* due = "2026-03-20") {
        auto id = must(keep_consignment(
            book, {.firm = "Hebble Lane Machine Shop", .purpose = "grinding", .due_on = day(due)}));
        must(put_on(book, id, {.part = part.id, .pieces = pieces}));
        must(send_consignment(book, id, day("2026-03-03")));
        return id;
    }
};

} // namespace

TEST_CASE("a task waits for open tasks it needs, and is ready when they are done") {
    Desk desk;
    auto strip = desk.task("strip the pack");
    auto paint = desk.task("paint the leaves", {strip});
    CHECK(standing(desk, strip).ready());
    auto waiting = standing(desk, paint);
    REQUIRE(waiting.waits.size() == 1);
    CHECK(waiting.waits[0].words == "task 1, strip the pack");
    CHECK(waiting.waits[0].task == strip);
    must(set_task_state(desk.book, strip, TaskState::done, must(parse_day("2026-03-06"))));
    CHECK(standing(desk, paint).ready());
    CHECK_FALSE(standing(desk, strip).ready()); // done, not ready
}

TEST_CASE("a task waits for a position to be filled far enough along, scrap never counts") {
    Desk desk;
    auto pin = must(add_position(
        desk.book, {.vehicle = desk.drover, .group = "Axle", .number = "7", .name = "King pin"}));
    auto fit = must(keep_task(
        desk.book, {.title = "fit the king pin", .positions = {{pin, Condition::cleaned}}}));
    CHECK(waits(desk, fit) == "King pin, cleaned: no part for it yet");
    Part part{.tag = "K1", .name = "king pin", .position = pin};
    part = must(add_part(desk.book, part));
    for (auto [condition, ready] : {std::pair{Condition::stripped, false},
                                    {Condition::cleaned, true},
                                    {Condition::finished, true},
                                    {Condition::scrap, false}}) {
        part.condition = condition;
        must(set_part(desk.book, part));
        CAPTURE(word(condition));
        CHECK(standing(desk, fit).ready() == ready);
    }
}

TEST_CASE("cold days and things not yet come keep a task waiting") {
    Desk desk;
    auto enamel = must(keep_task(
        desk.book, {.title = "enamel", .least_temperature_c = 15.0, .waits_for = "thinner"}));
    CHECK(waits(desk, enamel) == "thinner");
    auto task = must(task_by_id(desk.book, enamel));
    task.waits_for.clear();
    must(keep_task(desk.book, task));
    CHECK(standing(desk, enamel).ready()); // no temperature typed for today
    must(set_weather(desk.book, must(parse_day("2026-03-07")), {.temperature_c = 10.0}));
    CHECK(waits(desk, enamel) == "at least 15 °C; today 10 °C");
    CHECK(standing(desk, enamel, "2026-03-08").ready());
    // Asked what could be done if it were warmer: 15 °C is warm enough.
    for (const auto& [celsius, ready] : {std::pair{14.9, false}, {15.0, true}})
        CHECK(must(list_tasks(desk.book, must(parse_day("2026-03-07")), celsius)).front().ready() ==
              ready);
}

TEST_CASE("a circle of needs is refused with the circle named, and nothing is changed") {
    Desk desk;
    auto a = desk.task("a");
    auto b = desk.task("b", {a});
    auto c = desk.task("c", {b});
    auto first = must(task_by_id(desk.book, a));
    first.needs = {c};
    const auto refused = sentence(keep_task(desk.book, first));
    CHECK(holds(refused, "a (1) needs c (3) needs b (2) needs a (1)"));
    CHECK(must(task_by_id(desk.book, a)).needs.empty());
    first.needs = {a};
    CHECK(holds(sentence(keep_task(desk.book, first)), "itself"));
}

TEST_CASE("hours spent are those of the entries that name the task") {
    Desk desk;
    auto task = desk.task("strip the pack");
    for (double hours : {1.5, 2.0})
        must(write_entry(desk.book, {.day = must(parse_day("2026-03-07")),
                                     .hours = hours,
                                     .text = "leaf by leaf",
                                     .tasks = {task}}));
    CHECK(standing(desk, task).spent_hours == doctest::Approx(3.5));
}

TEST_CASE("a part that is out fills no position, and the task says who has it since when") {
    Pins desk;
    const Part pins = desk.pins("K1", 4);
    CHECK(standing(desk, desk.fit).ready());
    const auto out = desk.send(pins, 4);
    const auto waiting = standing(desk, desk.fit);
    REQUIRE(waiting.waits.size() == 1);
    CHECK(waiting.waits[0].words ==
          "Shackle pin, cleaned: 0 of 4, K1 is with Hebble Lane Machine Shop since 3 Mar 2026 for "
          "grinding, due 20 Mar 2026");
    CHECK(waiting.waits[0].on == WaitsOn::position);
    CHECK(waiting.waits[0].part == pins.id);
    CHECK(waiting.waits[0].consignment == out);
    // Three of four are back: still one short. All back: ready.
    must(receive(desk.book, out, {.items = {{pins.id, 3}}, .on = day("2026-03-10")}));
    CHECK(holds(waits(desk, desk.fit), "3 of 4, K1 is with Hebble Lane"));
    must(receive(desk.book, out, {.items = {{pins.id, 1}}, .on = day("2026-03-11")}));
    CHECK(standing(desk, desk.fit).ready());
    must(desk.book.undo());
    CHECK_FALSE(standing(desk, desk.fit).ready());
}

TEST_CASE("of a lot counts what is at hand and what is in its place, not what is away") {
    Pins desk;
    const Part lot = desk.pins("K1", 7);
    desk.send(lot, 2);
    CHECK(standing(desk, desk.fit).ready()); // 7 - 2 = 5
    must(use_pieces(desk.book, lot.id, 3));
    CHECK(standing(desk, desk.fit).ready()); // 3 in their place, 2 at hand
    Part fewer = must(part_by_id(desk.book, lot.id));
    fewer.quantity = 5;
    must(set_part(desk.book, fewer));
    CHECK(holds(waits(desk, desk.fit), "3 of 4")); // 5 - 2 away
}

TEST_CASE(
    "parts on hold, to be replaced or held for another vehicle fill nothing, and it is said") {
    Pins desk;
    Part lot = desk.pins("K1", 4);
    const auto decided = [&](Decision decision, VehicleId vehicle) {
        lot.decision = decision;
        lot.vehicle = vehicle;
        must(set_part(desk.book, lot));
        return waits(desk, desk.fit);
    };
    const VehicleId other = must(add_vehicle(desk.book, {.name = "Parts lorry"}));
    CHECK(decided(Decision::hold, {}) == "Shackle pin, cleaned: 0 of 4, K1 is on hold");
    CHECK(decided(Decision::replace, {}) == "Shackle pin, cleaned: 0 of 4, K1 is to be replaced");
    CHECK(decided(Decision::reuse, other) ==
          "Shackle pin, cleaned: 0 of 4, K1 is held for another vehicle");
    CHECK(decided(Decision::reuse, desk.drover).empty());
}

TEST_CASE("a piece goes where its assembly goes, and the task says who has it") {
    Pins desk;
    const Part lot = desk.pins("K1", 4);
    const Part axle = desk.part("A1", "axle");
    must(join_part(desk.book, axle.id, day("2026-03-02"), {lot.id}));
    CHECK(standing(desk, desk.fit).ready());
    desk.send(axle, 1);
    CHECK(holds(waits(desk, desk.fit), "Shackle pin, cleaned: 0 of 4, K1 is with Hebble Lane"));
}

TEST_CASE("parts at hand say how far they are and where they are kept, lots add up") {
    Pins desk;
    desk.pins("K1", 2);
    desk.pins("K2", 2, Condition::stripped, "tin 3");
    CHECK(waits(desk, desk.fit) == "Shackle pin, cleaned: 2 of 4, K2 is stripped, kept: tin 3");
    desk.pins("K3", 2);
    CHECK(standing(desk, desk.fit).ready());
}

TEST_CASE("a task waits for a delivery until all of it has come or is settled") {
    Pins desk;
    const Part pins = desk.pins("K1", 4);
    const auto out = desk.send(pins, 4, "2026-03-05");
    const auto task = must(keep_task(desk.book, {.title = "paint the pins", .deliveries = {out}}));
    const auto waiting = standing(desk, task);
    REQUIRE(waiting.waits.size() == 1);
    CHECK(waiting.waits[0].words ==
          "consignment 1, grinding by Hebble Lane Machine Shop: out 4 days, overdue 2 days");
    CHECK(waiting.waits[0].consignment == out);
    must(receive(desk.book, out, {.items = {{pins.id, 3}}, .on = day("2026-03-06")}));
    CHECK_FALSE(standing(desk, task).ready());
    must(settle_consignment(desk.book, out, "one lost, paid", day("2026-03-07")));
    CHECK(standing(desk, task).ready());
    // The lost one still fills no position.
    CHECK(holds(waits(desk, desk.fit), "3 of 4"));
    CHECK(holds(sentence(keep_task(desk.book, {.title = "x", .deliveries = {ConsignmentId{9}}})),
                "no consignment \"9\""));
}

TEST_CASE("what holds a task up in the end is named along all that it needs") {
    Pins desk;
    desk.pins("K1", 4, Condition::stripped);
    const auto ream = desk.task("ream the bushes");
    const auto join = desk.task("put the spring together", {desk.fit, ream});
    const auto drive = desk.task("drive", {join});
    const auto tasks = must(list_tasks(desk.book, day("2026-03-07")));
    const auto held = held_up_by(TaskIndex(tasks), drive);
    REQUIRE(held.size() == 2);
    CHECK(held[0].at == desk.fit);
    CHECK(held[0].wait.words == "Shackle pin, cleaned: 0 of 4, K1 is stripped");
    CHECK(held[1].at == ream);
    CHECK(held[1].wait.words == "task 2, ream the bushes");
    CHECK(held_up_by(TaskIndex(tasks), ream).empty()); // ready itself
}

TEST_CASE("what is next fits the hours, then unlocks most, then has most work after it") {
    Desk desk;
    const auto add = [&](const char* title, double hours, std::vector<TaskId> needs = {}) {
        return must(
            keep_task(desk.book, {.title = title, .estimate_hours = hours, .needs = needs}));
    };
    const auto lonely = add("sort the bolts", 1);
    const auto strip = add("strip the axle", 2);
    const auto casing = add("clean the casing", 2);
    const auto long_one = add("make a stand", 6);
    add("measure the pins", 1, {strip});
    add("measure the bushes", 1, {strip});
    const auto paint = add("paint the casing", 9, {casing});
    add("close the casing", 1, {paint});
    add("park it", 1, {long_one, strip});
    const auto tasks = must(list_tasks(desk.book, day("2026-03-07")));
    std::vector<TaskId> order;
    std::vector<bool> fits;
    for (const NextTask& next : what_next(tasks, 3)) {
        order.push_back(next.standing->task.id);
        fits.push_back(next.fits);
    }
    // Unlocked at once: strip 2, casing 1, lonely 0; the stand is too long for three hours.
    CHECK(order == std::vector{strip, casing, lonely, long_one});
    CHECK(fits == std::vector{true, true, true, false});
    const auto at = [&](TaskId id) { return *TaskIndex(tasks).find(id); };
    CHECK(at(strip).unlocks == 2);
    CHECK(at(strip).after.tasks == 3);
    CHECK(at(strip).after.hours == 3);
    CHECK(at(casing).after.hours == 10);
    // The longest chain: clean, paint, close: 12 h.
    std::vector<std::string> chain;
    for (const auto* standing : longest_chain(tasks))
        chain.push_back(standing->task.title);
    CHECK(chain ==
          std::vector<std::string>{"clean the casing", "paint the casing", "close the casing"});
    CHECK(at(strip).span.slack() ==
          9); // of 12 h: two of its own, and one each for what comes after
}

TEST_CASE("hours spent leave fewer to do, and a task without an estimate counts as one hour") {
    Desk desk;
    const auto task = must(keep_task(desk.book, {.title = "strip", .estimate_hours = 4.0}));
    const auto other = desk.task("look");
    for (double hours : {1.5, 2.0}) {
        must(write_entry(desk.book, {.day = day("2026-03-07"),
                                     .hours = hours,
                                     .text = "leaf by leaf",
                                     .tasks = {task, other}}));
    }
    CHECK(standing(desk, task).left_hours == 0.5);
    CHECK(standing(desk, other).left_hours == 0); // 3.5 h spent on what counts as one
    CHECK(standing(desk, desk.task("another")).left_hours == kHoursWithoutEstimate);
}

TEST_CASE("the hours of a day are kept beside its weather, 0 to 24, and can be taken back") {
    Desk desk;
    must(set_weather(desk.book, day("2026-03-07"), {.temperature_c = 11}));
    must(set_hours_of_day(desk.book, day("2026-03-07"), 3.5));
    CHECK(must(hours_of_day(desk.book, day("2026-03-07"))) == 3.5);
    CHECK(must(weather_on(desk.book, day("2026-03-07"))).temperature_c == 11);
    CHECK_FALSE(must(hours_of_day(desk.book, day("2026-03-08"))).has_value());
    CHECK(holds(sentence(set_hours_of_day(desk.book, day("2026-03-07"), 25)), "0 to 24"));
    CHECK(holds(sentence(set_hours_of_day(desk.book, day("2026-03-07"), -1)), "0 to 24"));
    must(desk.book.undo());
    CHECK_FALSE(must(hours_of_day(desk.book, day("2026-03-07"))).has_value());
}

TEST_CASE("a dropped task is waited for no longer, and holds no chain") {
    Desk desk;
    const auto strip = desk.task("strip");
    const auto paint = desk.task("paint", {strip});
    must(set_task_state(desk.book, strip, TaskState::dropped, day("2026-03-07")));
    CHECK(standing(desk, paint).ready());
    CHECK_FALSE(standing(desk, strip).ready());
    CHECK(longest_chain(must(list_tasks(desk.book, day("2026-03-07")))).empty());
}
