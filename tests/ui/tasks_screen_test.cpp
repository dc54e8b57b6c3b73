#include "ui/screens/tasks.h"
#include "ui/workshop.h"

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::Driver;
using fettle::ui::testing::Workshop;

namespace {

constexpr Chord kNew{'N'}, kDone{'D'}, kKeep{'K', true};

struct Bench : Workshop {
    TasksState tasks;
    Driver begin() {
        return drive([this](Page& page) { draw_tasks(page, context, tasks); });
    }
};

} // namespace

TEST_CASE("tasks that would wait for each other are refused with the sentence beside the needs") {
    Bench bench;
    const auto strip = bench.task("strip the axle");
    const auto paint = bench.task("paint the axle", {strip});
    lead_to(bench.tasks, {"tasks", strip.value});
    auto driver = bench.begin();
    driver.click("task.needs");
    driver.type("paint");
    driver.press(Key::enter);
    CHECK(driver.shows("task.need." + std::to_string(paint.value)));
    driver.press(kKeep);
    CHECK(holds(driver.expect_visible("task.needs.error").label, "circle"));
    CHECK(must(task_by_id(bench.book, strip)).needs.empty());
    driver.click("task.need." + std::to_string(paint.value) + ".out");
    driver.press(kKeep);
    CHECK(driver.shows("tasks.ready"));
}

TEST_CASE("what can be done stands before what waits, and a key marks a task done") {
    Bench bench;
    const auto paint = bench.task("paint the axle");
    const auto strip = bench.task("strip the axle");
    auto needing = must(task_by_id(bench.book, paint));
    needing.needs = {strip};
    must(keep_task(bench.book, needing));
    auto driver = bench.begin();
    const std::string ready = "tasks.row." + std::to_string(strip.value);
    const std::string waits = "tasks.row." + std::to_string(paint.value);
    CHECK(driver.value("tasks.ready") == "1");
    CHECK(driver.expect_visible(ready).rect.bottom <= driver.expect_visible(waits).rect.top);
    CHECK(holds(driver.value(waits + ".words"), "strip the axle"));

    driver.press(kDone); // the frame is on the first task
    CHECK(must(task_by_id(bench.book, strip)).state == TaskState::done);
    CHECK(driver.value(waits + ".words") == "ready");
    must(bench.book.undo());
    driver.settle();
    CHECK(holds(driver.value(waits + ".words"), "strip the axle"));
}

TEST_CASE("a task is added by keyboard, wrong figures are refused beside their fields") {
    Bench bench;
    auto driver = bench.begin();
    CHECK(driver.shows("tasks.empty"));
    driver.press(kNew);
    driver.type("prime the hangers");
    driver.click("task.hours");
    driver.type("a while");
    driver.click("task.temperature");
    driver.type("10 kg");
    driver.press(kKeep);
    CHECK(holds(driver.expect_visible("task.hours.error").label, "a while"));
    CHECK(holds(driver.expect_visible("task.temperature.error").label, "10 kg"));
    CHECK(must(list_tasks(bench.book, today())).empty());
    driver.click("task.hours");
    driver.press(Chord{'A', true});
    driver.type("1 1/2");
    driver.click("task.temperature");
    driver.press(Chord{'A', true});
    driver.type("50 F");
    driver.press(kKeep);
    const auto tasks = must(list_tasks(bench.book, today()));
    REQUIRE(tasks.size() == 1);
    CHECK(tasks[0].task.estimate_hours == 1.5);
    // 50 °F is 10 °C exactly: (50 - 32) * 5 / 9.
    REQUIRE(tasks[0].task.least_temperature_c.has_value());
    CHECK(*tasks[0].task.least_temperature_c == doctest::Approx(10));
}

TEST_CASE("a key puts the task into the entry being written") {
    Bench bench;
    const auto strip = bench.task("strip the axle");
    auto driver = bench.begin();
    driver.press(Chord{'E'});
    CHECK(bench.draft.tasks == std::vector{strip});
}
