#include "notebook/consignments.h"
#include "ui/screens/tasks/tasks.h"
#include "ui/workshop.h"

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::Driver;
using fettle::ui::testing::Workshop;

namespace {

constexpr Chord kNew{'N'}, kDone{'D'}, kKeep{'K', true};

struct TasksRoom : Workshop {
    TasksState tasks;
    Driver begin() {
        return drive([this](Page& page) { draw_tasks(page, context, tasks); });
    }
};

} // namespace

TEST_CASE("tasks that would wait for each other are refused with the sentence beside the needs") {
    TasksRoom bench;
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
    TasksRoom bench;
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
    TasksRoom bench;
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
    TasksRoom bench;
    const auto strip = bench.task("strip the axle");
    auto driver = bench.begin();
    driver.press(Chord{'E'});
    CHECK(bench.draft.tasks == std::vector{strip});
}

namespace {

// Strip, then two ways to the paint; the longer is the longest chain. And one task on its own.
struct Chain : TasksRoom {
    TaskId strip = add("strip the axle", 2), measure = add("measure the pins", 1, {strip}),
           bushes = add("make bushes", 6, {strip}), paint = add("paint it", 3, {measure, bushes}),
           bolts = add("sort the bolts", 1);
    Driver driver = begin();

    TaskId add(const char* title, double hours, std::vector<TaskId> needs = {}) {
        return must(
            keep_task(book, {.title = title, .estimate_hours = hours, .needs = std::move(needs)}));
    }
    static std::string node(TaskId id) { return "tasks.node." + std::to_string(id.value); }
    void draw() {
        driver.press(Chord{'P'});
        driver.settle();
    }
    Rect at(TaskId id) { return driver.expect_visible(node(id)).rect; }
};

const Chord kAlong{static_cast<int>(Key::right), true}, kBack{static_cast<int>(Key::left), true};

} // namespace

TEST_CASE("the picture runs from left to right and tells the longest chain in words") {
    Chain room;
    room.draw();
    CHECK(room.at(room.strip).right < room.at(room.measure).left);
    CHECK(room.at(room.strip).right < room.at(room.bushes).left);
    CHECK(room.at(room.bushes).right < room.at(room.paint).left);
    CHECK(room.at(room.bolts).top > room.at(room.bushes).bottom); // on its own, below
    CHECK(holds(room.driver.expect_visible("tasks.chain").label,
                "3 tasks, 11 h: strip the axle → make bushes → paint it"));
    CHECK(room.driver.value(Chain::node(room.bushes)) == "waits, 2 of 3 in the longest chain");
    CHECK(room.driver.value(Chain::node(room.measure)) == "waits");
    CHECK(room.driver.value(Chain::node(room.bolts)) == "ready");
    CHECK(room.stage.reg().used_twice().empty());
}

TEST_CASE("a task of the picture is opened by a click, or found and opened by keys alone") {
    Chain room;
    room.draw();
    room.driver.click(Chain::node(room.paint));
    CHECK(room.driver.value("task.title") == "paint it");
    room.driver.press(Key::escape); // out of the field
    room.driver.press(Key::escape);
    room.driver.settle();
    CHECK(room.driver.shows("tasks.picture")); // back to where one was
    room.driver.press(kBack);
    CHECK(room.driver.expect_visible("tasks.picture.at").label != "paint it");
    room.driver.press(kBack);
    CHECK(room.driver.expect_visible("tasks.picture.at").label == "strip the axle");
    room.driver.press(kAlong);
    CHECK(room.driver.expect_visible("tasks.picture.at").label != "strip the axle");
    room.driver.press(kBack);
    // Along the chain: from its first task to the second.
    room.driver.press(Chord{'L'});
    CHECK(room.driver.expect_visible("tasks.picture.at").label == "make bushes");
    room.driver.press(Key::enter);
    CHECK(room.driver.value("task.title") == "make bushes");
}

TEST_CASE("the picture is moved by dragging and arrows, and comes closer by wheel and keys") {
    Chain room;
    for (int i = 0; i < 60; ++i) // too many to be seen whole
        room.add(("step " + std::to_string(i)).c_str(), 1, {TaskId{room.bolts.value + i}});
    room.driver.settle();
    room.draw();
    const Rect before = room.at(room.strip);
    room.driver.drag("tasks.picture", -150, -60);
    room.driver.settle();
    const Rect dragged = room.at(room.strip);
    CHECK(dragged.left < before.left - 100);
    CHECK(room.driver.shows("tasks.picture")); // a drag opens nothing
    room.driver.press(Key::left);
    CHECK(room.at(room.strip).left > dragged.left);
    const float width = room.at(room.strip).width();
    room.driver.wheel("tasks.picture", -1);
    room.driver.settle();
    room.driver.press(Chord{'0'});
    room.driver.settle();
    CHECK(room.at(room.strip).width() < width);
    const float small = room.at(room.strip).width();
    room.driver.press(Chord{'='});
    room.driver.press(Chord{'='});
    CHECK(room.at(room.strip).width() > small * 1.4F);
}

TEST_CASE("a key leaves in the picture only what hangs on a task, and brings the rest back") {
    Chain room;
    room.draw();
    room.driver.press(kAlong); // from strip to one of the two after it
    room.driver.press(Chord{'L'});
    const std::string at = room.driver.expect_visible("tasks.picture.at").label;
    room.driver.press(Chord{'O'});
    room.driver.settle();
    CHECK_FALSE(room.driver.shows(Chain::node(room.bolts)));
    CHECK(room.driver.shows(Chain::node(room.strip)));
    CHECK(room.driver.expect_visible("tasks.picture.at").label == at);
    CHECK(room.driver.value("tasks.picture.only") == "yes");
    room.driver.press(kAlong); // the keys are still on the picture
    CHECK(room.driver.expect_visible("tasks.picture.at").label != at);
    room.driver.click("tasks.picture.only");
    room.driver.settle();
    CHECK(room.driver.shows(Chain::node(room.bolts)));
}

TEST_CASE("what is done leaves the picture, and comes back into it when asked for") {
    Chain room;
    room.draw();
    must(set_task_state(room.book, room.strip, TaskState::done, today()));
    room.driver.settle();
    CHECK_FALSE(room.driver.shows(Chain::node(room.strip)));
    room.driver.click("tasks.picture.over");
    room.driver.settle();
    CHECK(room.driver.value(Chain::node(room.strip)) == "done");
    // Done from the picture by its key, and the picture goes on: the chain begins with it now.
    room.driver.click("tasks.picture.over");
    room.driver.settle();
    room.driver.press(Chord{'D'});
    room.driver.settle();
    CHECK(must(task_by_id(room.book, room.bushes)).state == TaskState::done);
    CHECK_FALSE(room.driver.shows(Chain::node(room.bushes)));
}

TEST_CASE("an open task says down to the part what it waits for, and leads to who has it") {
    TasksRoom bench;
    const auto place = must(add_position(
        bench.book,
        {.vehicle = bench.drover, .group = "Axle", .number = "A1", .name = "King pin"}));
    const Part pin = must(add_part(
        bench.book,
        {.tag = "P3", .name = "king pin", .position = place, .condition = Condition::cleaned}));
    const auto out = must(keep_consignment(
        bench.book, {.firm = "Hebble Lane", .purpose = "grinding", .due_on = today()}));
    must(put_on(bench.book, out, {.part = pin.id}));
    must(send_consignment(bench.book, out, must(parse_day("2026-03-03"))));
    const auto fit = must(keep_task(
        bench.book, {.title = "fit the pin", .positions = {{place, Condition::cleaned}}}));
    const auto drive = bench.task("drive", {fit});
    lead_to(bench.tasks, {"tasks", drive.value});
    auto driver = bench.begin();
    CHECK(driver.expect_visible("task.reason.0").label == "task 1, fit the pin");
    CHECK(holds(driver.expect_visible("task.reason.1").label,
                "P3 is with Hebble Lane since 3 Mar 2026"));
    driver.click("task.reason.1.0");
    REQUIRE(bench.context.go.has_value());
    CHECK(bench.context.go->screen == "parts");
    CHECK(bench.context.go->record == pin.id.value);
    driver.click("task.reason.1.1");
    CHECK(bench.context.go->screen == "sent_out");
    CHECK(bench.context.go->record == out.value);

    // A delivery is added to what it waits for by a few letters, and left out again.
    driver.click("task.deliveries");
    driver.type("hebble");
    driver.press(Key::enter);
    driver.press(kKeep);
    CHECK(must(task_by_id(bench.book, drive)).deliveries == std::vector{out});
    lead_to(bench.tasks, {"tasks", drive.value});
    driver.settle();
    driver.reveal("task.delivery." + std::to_string(out.value) + ".out");
    driver.click("task.delivery." + std::to_string(out.value) + ".out");
    driver.press(kKeep);
    CHECK(must(task_by_id(bench.book, drive)).deliveries.empty());
}

TEST_CASE("a task is dropped by a key, and thousands of tasks draw only what is in sight") {
    TasksRoom bench;
    must(bench.book.act("many", [&](store::Database& database) -> Done {
        for (int i = 0; i < 5000; ++i)
            database.run("INSERT INTO tasks(title) VALUES (?)", "task " + std::to_string(i));
        for (int i = 100; i < 5000; ++i)
            database.run("INSERT INTO task_needs(task_id, needs_id) VALUES (?, ?)", i + 1,
                         i - 60 - i % 37);
        return done();
    }));
    auto driver = bench.begin();
    driver.press(Chord{'X'});
    CHECK(must(task_by_id(bench.book, bench.tasks.at)).state != TaskState::done);
    const auto noted = [&](const std::string& start) {
        return std::ranges::count_if(bench.stage.reg().keys(),
                                     [&](const auto& key) { return key.starts_with(start); });
    };
    CHECK(noted("tasks.row.") < 120); // two notes a row
    driver.scroll_to("tasks.list.waits", 4000);
    driver.settle();
    CHECK(noted("tasks.row.") < 120);
    driver.press(Chord{'P'});
    driver.settle();
    CHECK(noted("tasks.node.") > 5);
    CHECK(noted("tasks.node.") < 200);
    driver.press(Chord{'0'}); // as much of it as can be shown
    driver.settle();
    CHECK(noted("tasks.node.") > 200);
}
