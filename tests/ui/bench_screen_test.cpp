// Bench as one meets it: the first screen, its three lists, the hours of today, and where each
// thing leads.
#include "notebook/bench.h"
#include "notebook/runs.h"
#include "notebook/weather.h"
#include "workroom_fixture.h"

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::Workbench;
using fettle::ui::testing::WorkroomTest;

namespace {

Day days_ago(int days) {
    return std::chrono::sys_days(today()) - std::chrono::days(days);
}

// Strip (2 h) unlocks painting, which wants warmth; the pins of the third are at a machine shop.
struct BenchRoom : WorkroomTest {
    TaskId strip = add({.title = "strip the axle", .estimate_hours = 2.0});
    TaskId stand = add({.title = "make a stand", .estimate_hours = 6.0});
    TaskId paint = add({.title = "paint it",
                        .estimate_hours = 3.0,
                        .least_temperature_c = 10.0,
                        .needs = {strip}});
    PositionId place = must(add_position(
        book, {.vehicle = drover, .group = "Axle", .number = "A1", .name = "King pin"}));
    Part pin = must(add_part(
        book,
        {.tag = "P3", .name = "king pin", .position = place, .condition = Condition::cleaned}));
    TaskId fit = add({.title = "fit the pin", .positions = {{place, Condition::cleaned}}});

    BenchRoom() { driver().settle(); }
    TaskId add(const Task& task) { return must(keep_task(book, task)); }
    static std::string key(TaskId id) { return "bench.task." + std::to_string(id.value); }
    ConsignmentId send(int days, int due_in) {
        const auto id = must(keep_consignment(
            book, {.firm = "Hebble Lane", .purpose = "grinding", .due_on = days_ago(-due_in)}));
        must(put_on(book, id, {.part = pin.id}));
        must(send_consignment(book, id, days_ago(days)));
        driver().settle();
        return id;
    }
    float left(const std::string& where) { return driver().expect_visible(where).rect.left; }
    float top(const std::string& where) { return driver().expect_visible(where).rect.top; }
};

} // namespace

TEST_CASE("a notebook opens on the bench, which is first among the screens") {
    BenchRoom room;
    CHECK(room.bench->room->screen_keys().front() == "bench");
    CHECK(room.driver().shows("bench.ready"));
    room.driver().press(Key::f3);
    CHECK_FALSE(room.driver().shows("bench.ready"));
    room.driver().press(Key::f2);
    CHECK(room.driver().shows("bench.ready"));
    CHECK(room.bench->stage.reg().used_twice().empty());
}

TEST_CASE("the bench of an empty notebook says what to do first, and each step leads there") {
    WorkroomTest test;
    CHECK(test.driver().shows("bench.empty"));
    test.driver().click("bench.first.entry");
    test.driver().type("First evening.");
    CHECK(test.driver().value("entry.text") == "First evening.");
    test.driver().press({static_cast<int>(Key::a), true});
    test.driver().press(Key::del);
    test.driver().settle();
    // The caret is where the first thing is to be typed.
    for (const auto& [step, field] : {std::pair{"bench.first.photos", "photos.path"},
                                      {"bench.first.part", "parts.form.name"},
                                      {"bench.first.task", "task.title"}}) {
        CAPTURE(step);
        test.driver().press(Key::f2);
        test.driver().settle();
        test.driver().click(step);
        test.driver().settle();
        CHECK_FALSE(test.driver().shows("bench.empty"));
        test.driver().type("spring");
        CHECK(test.driver().value(field) == "spring");
    }
}

TEST_CASE("three lists stand side by side, and the hours typed for today sort what fits") {
    BenchRoom room;
    CHECK(room.left("bench.ready") < room.left("bench.waits"));
    CHECK(room.left("bench.waits") < room.left("bench.look"));
    CHECK(room.driver().value("bench.ready") == "3"); // the pin is at hand
    CHECK(holds(room.bench->said(BenchRoom::key(room.strip) + ".words"), "unlocks 1 task at once"));
    CHECK_FALSE(room.driver().shows("bench.longer"));

    room.driver().press(Chord{'H'}); // puts the caret into the hours
    room.driver().type("3");
    room.driver().press(Key::enter);
    room.driver().settle();
    CHECK(must(hours_of_day(room.book, today())) == 3);
    CHECK(holds(room.bench->said("bench.fitting"), "2 tasks fit 3 h"));
    CHECK(room.top(BenchRoom::key(room.strip)) < room.top("bench.longer"));
    CHECK(room.top("bench.longer") < room.top(BenchRoom::key(room.stand)));

    room.bench->type_into("bench.hours", "some");
    room.driver().press(Key::enter);
    room.driver().settle();
    CHECK(holds(room.bench->said("bench.hours.error"), "some"));
    CHECK(must(hours_of_day(room.book, today())) == 3);
    room.bench->type_into("bench.hours", "90 min");
    room.driver().press(Key::enter);
    room.driver().settle();
    CHECK(must(hours_of_day(room.book, today())) == 1.5);
    must(room.book.undo());
    room.driver().settle();
    CHECK(room.driver().value("bench.hours") == "3");
}

TEST_CASE("a cold day keeps a task waiting on the bench until it is warm enough") {
    BenchRoom room;
    must(set_task_state(room.book, room.strip, TaskState::done, today()));
    must(set_weather(room.book, today(), {.temperature_c = 6}));
    room.driver().settle();
    CHECK(holds(room.bench->said(BenchRoom::key(room.paint) + ".words"),
                "at least 10 °C; today 6 °C"));
    CHECK(room.left(BenchRoom::key(room.paint)) > room.left("bench.ready") + 50);
    must(set_weather(room.book, today(), {.temperature_c = 12}));
    room.driver().settle();
    CHECK(room.left(BenchRoom::key(room.paint)) < room.left("bench.waits"));
    CHECK(holds(room.bench->said("bench.fitting"), "12 °C"));
}

TEST_CASE("what is out says with whom and since when, leads there, and overdue needs a look") {
    BenchRoom room;
    const auto id = room.send(12, 3);
    const std::string out = "bench.out." + std::to_string(id.value);
    CHECK(room.left(out) > room.left("bench.ready") + 50);
    CHECK(room.left(out) < room.left("bench.look"));
    CHECK(holds(room.bench->said(out + ".words"), "out 12 days"));
    CHECK(holds(room.bench->said(out + ".words"), "P3"));
    const std::string fit = BenchRoom::key(room.fit);
    CHECK(holds(room.bench->said(fit + ".words"), "P3 is with Hebble Lane since"));
    room.driver().reveal(fit + ".to.1");
    room.driver().click(fit + ".to.1");
    room.driver().settle();
    CHECK(room.driver().shows("sent_out.row." + std::to_string(id.value)));

    auto head = must(consignment_by_id(room.book, id));
    head.due_on = days_ago(2);
    must(keep_consignment(room.book, head));
    room.driver().press(Key::f2);
    room.driver().settle();
    CHECK(room.left(out) > room.left("bench.waits") + 50);
    CHECK(holds(room.bench->said(out + ".words"), "overdue 2 days"));
}

TEST_CASE("what came back needs a look until it is looked at, by one press or by writing of it") {
    BenchRoom room;
    const auto id = room.send(12, 3);
    must(receive(room.book, id, {.items = {{room.pin.id}}, .on = days_ago(2)}));
    room.driver().settle();
    const std::string arrival = "bench.arrival." + std::to_string(id.value) + ".P3";
    CHECK(holds(room.bench->said(arrival + ".words"), "back from Hebble Lane 2 days ago"));
    room.driver().reveal(arrival + ".seen");
    room.driver().click(arrival + ".seen");
    room.driver().settle();
    CHECK_FALSE(room.driver().shows(arrival));
    room.driver().click("undo");
    room.driver().settle();
    room.driver().reveal(arrival);
    room.driver().click(arrival);
    room.driver().settle();
    CHECK_FALSE(room.driver().shows("bench.ready")); // on the part's page
}

TEST_CASE("untied photos, runs to confirm and a draft need a look and lead to where it is done") {
    BenchRoom room;
    const auto tagged = room.photo("a.jpg", "2026-03-07T10:00:00");
    room.photo("b.jpg", "2026-03-07T10:02:00");
    must(note_tags(room.book, tagged, {"P3"}));
    must(propose_runs(room.book));
    room.driver().settle();
    CHECK(holds(room.bench->said("bench.runs.words"), "tag"));
    CHECK(room.driver().shows("bench.untied"));
    room.driver().click("entry.text");
    room.driver().type("Half a sentence");
    room.driver().settle();
    CHECK(room.bench->said("bench.draft.words") == "Half a sentence");
    room.driver().press(Key::f9); // folded away, it is opened again
    room.driver().settle();
    CHECK_FALSE(room.driver().shows("entry.text"));
    room.driver().reveal("bench.draft");
    room.driver().click("bench.draft");
    room.driver().settle();
    room.driver().type(" more");
    CHECK(room.driver().value("entry.text") == "Half a sentence more");
    room.driver().reveal("bench.untied");
    room.driver().click("bench.untied");
    room.driver().settle();
    CHECK_FALSE(room.driver().shows("bench.ready"));
}

TEST_CASE("by keys alone: the first task has the keyboard, D finishes it, E writes of it, Enter "
          "opens it") {
    BenchRoom room;
    room.driver().press(Key::f3);
    room.driver().press(Key::f2);
    room.driver().settle();
    room.driver().press(Chord{'E'});
    room.bench->pause();
    CHECK(must(kept_draft(room.book)).tasks == std::vector{room.strip}); // it unlocks most
    room.driver().press(Chord{'D'});
    room.driver().settle();
    CHECK(must(task_by_id(room.book, room.strip)).state == TaskState::done);
    room.driver().press(Key::f3);
    room.driver().press(Key::f2);
    room.driver().settle();
    room.driver().press(Key::down); // to the next
    room.driver().settle();
    room.driver().press(Key::enter);
    room.driver().settle();
    CHECK(room.driver().shows("task.title"));
}

TEST_CASE("in a narrow window the lists stand below each other and all of it can be reached") {
    BenchRoom room;
    room.bench->stage.resize(1024, 640);
    room.driver().settle();
    CHECK(room.left("bench.ready") == doctest::Approx(room.left("bench.waits")));
    room.driver().reveal("bench.look");
    CHECK(room.driver().shows("bench.look"));
}
