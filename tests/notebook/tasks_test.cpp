#include "fixture.h"
#include "notebook/weather.h"

using namespace fettle;

namespace {

TaskStanding standing(Desk& desk, TaskId id, const char* today = "2026-03-07") {
    for (auto& each : must(list_tasks(desk.book, must(parse_day(today)))))
        if (each.task.id == id) return each;
    FAIL("the task is not listed");
    return {};
}

} // namespace

TEST_CASE("a task waits for open tasks it needs, and is ready when they are done") {
    Desk desk;
    auto strip = desk.task("strip the pack");
    auto paint = desk.task("paint the leaves", {strip});
    CHECK(standing(desk, strip).ready());
    auto waiting = standing(desk, paint);
    REQUIRE(waiting.waits.size() == 1);
    CHECK(holds(waiting.waits[0], "strip the pack"));
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
    CHECK(standing(desk, fit).waits == std::vector<std::string>{"King pin, cleaned"});
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
    CHECK(standing(desk, enamel).waits == std::vector<std::string>{"thinner"});
    auto task = must(task_by_id(desk.book, enamel));
    task.waits_for.clear();
    must(keep_task(desk.book, task));
    CHECK(standing(desk, enamel).ready()); // no temperature typed for today
    must(set_weather(desk.book, must(parse_day("2026-03-07")), {.temperature_c = 10.0}));
    CHECK(standing(desk, enamel).waits == std::vector<std::string>{"at least 15 °C; today 10 °C"});
    CHECK(standing(desk, enamel, "2026-03-08").ready());
}

TEST_CASE("a circle of needs is refused with the circle named, and nothing is changed") {
    Desk desk;
    auto a = desk.task("a");
    auto b = desk.task("b", {a});
    auto c = desk.task("c", {b});
    auto first = must(task_by_id(desk.book, a));
    first.needs = {c};
    const auto refused = sentence(keep_task(desk.book, first));
    CHECK(holds(refused, "1 needs 3 needs 2 needs 1"));
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
