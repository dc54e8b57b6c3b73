// Worked sheets in the window: fields that apply only sometimes, charts, trials that go on from one
// entry to the next, figures handed from sheet to sheet, and a task that says it is reached.
#include "desk/worked.h"
#include "notebook/drafts.h"
#include "notebook/tasks.h"
#include "notebook/weather.h"
#include "workroom_fixture.h"

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::Driver;
using fettle::ui::testing::Workbench;

namespace {

constexpr Chord kWrite{static_cast<int>(Key::enter), true};
constexpr Chord kPutIn{static_cast<int>(Key::p), true};
constexpr Chord kHandOn{.key = 'U', .ctrl = true};

// A room whose only plugin is that of tests/calc/series_plugin.
struct TrialRoom : Desk {
    calc::Catalogue sheets{FETTLEBOOK_BIN_DIR "/fettlebook-calc", {FETTLEBOOK_TRIAL_PLUGIN_DIR}};
    TaskId task = must(keep_task(book, {.title = "set up the rod"}));
    std::unique_ptr<Workbench> bench = std::make_unique<Workbench>(book, sheets);

    Driver& driver() { return bench->driver; }
    void put_in(const char* letters) {
        driver().press(kPutIn);
        driver().type(letters);
        driver().press(Key::enter);
        driver().settle(5);
    }
    void open_sheet() {
        driver().press(Key::f10);
        driver().settle(3);
        driver().reveal("sheets.series.try");
        driver().click("sheets.series.try");
        driver().settle(3);
    }
    void write_trial(const std::string& reading) {
        put_in("set up");
        put_in("series");
        bench->type_into("entry.sheet.0.reading", reading);
        driver().press(kWrite);
        REQUIRE(bench->until([&] { return must(kept_draft(book)).blank(); }));
    }
};

} // namespace

TEST_CASE("a field that does not apply is not shown, and comes when its choice is made") {
    TrialRoom room;
    room.open_sheet();
    CHECK_FALSE(room.driver().shows("sheets.series.try.width"));
    room.driver().reveal("sheets.series.try.way.1");
    room.driver().click("sheets.series.try.way.1");
    CHECK(room.driver().shows("sheets.series.try.width"));
    CHECK(room.bench->said("sheets.series.try.width").empty());
}

TEST_CASE("a chart tells the point under the pointer in metric and inch") {
    TrialRoom room;
    room.open_sheet();
    const std::string key = "sheets.series.try.result.chart.tries";
    REQUIRE(room.bench->until_shown(key));
    room.driver().reveal(key);
    const Noted* chart = room.bench->stage.reg().find(key);
    REQUIRE(chart != nullptr);
    CHECK(chart->label == "Try by try");
    // The only reading, 10 mm, lies somewhere on the chart: the pointer looks for it.
    std::string said;
    const Rect area = chart->shown();
    for (float y = area.top; y < area.bottom && said.empty(); y += 8)
        for (float x = area.left; x < area.right && said.empty(); x += 8) {
            room.bench->stage.input().push(PointerMove{x, y});
            room.driver().settle(1);
            if (const Noted* now = room.bench->stage.reg().find(key)) said = now->value;
        }
    CHECK(holds(said, "10.0 mm (0.394 in)"));
}

TEST_CASE(
    "a trial goes on from the one before, and the task shows the last and can be called done") {
    TrialRoom room;
    room.write_trial("9.5");
    room.put_in("set up");
    room.put_in("series");
    CHECK(must(kept_draft(room.book)).sheets.at(0).inputs.at("earlier") == "9.5 mm | middle");
    room.bench->type_into("entry.sheet.0.reading", "10");
    room.driver().press(kWrite);
    REQUIRE(room.bench->until([&] { return must(list_entries(room.book)).size() == 2; }));
    room.driver().press(Key::f6);
    room.driver().settle(3);
    room.driver().click("tasks.row." + std::to_string(room.task.value));
    room.driver().settle(3);
    const std::string worked = "task.worked.series.try";
    REQUIRE(room.bench->until_shown(worked));
    CHECK(holds(room.bench->said(worked), "the last of 2 results"));
    room.driver().reveal("task.reached");
    room.driver().click("task.reached");
    CHECK(must(task_by_id(room.book, room.task)).state == TaskState::done);
}

TEST_CASE("a task tied after the sheet still fills what nobody has touched") {
    TrialRoom room;
    room.write_trial("9.5");
    room.put_in("series");
    room.put_in("set up");
    CHECK(must(kept_draft(room.book)).sheets.at(0).inputs.at("earlier") == "9.5 mm | middle");
}

TEST_CASE("a task put in from its own screen fills untouched sheets too") {
    TrialRoom room;
    room.write_trial("9.5");
    room.put_in("series");
    room.driver().press(Key::f6);
    room.driver().settle(3);
    room.driver().click("tasks.entry");
    room.bench->pause();
    CHECK(must(kept_draft(room.book)).tasks == std::vector{room.task});
    CHECK(must(kept_draft(room.book)).sheets.at(0).inputs.at("earlier") == "9.5 mm | middle");
}

TEST_CASE("the day's temperature stands in a sheet that asks for it") {
    TrialRoom room;
    must(set_weather(room.book, today(), {.temperature_c = 11, .humidity = 0.72}));
    room.put_in("series");
    CHECK(must(kept_draft(room.book)).sheets.at(0).inputs.at("air") == "11 °C");
}

TEST_CASE("a figure is handed to the sheet that takes it on, by key and by a press in the entry") {
    TrialRoom room;
    room.open_sheet();
    REQUIRE(room.bench->until_shown("sheets.series.try.hand.series.try.gauge"));
    room.driver().press(kHandOn);
    room.driver().settle(5);
    CHECK(holds(room.bench->said("sheets.series.try.gauge"), "100 mm²"));
    room.put_in("series");
    const std::string hand = "entry.sheet.0.hand.series.try.side";
    REQUIRE(room.bench->until_shown(hand));
    room.driver().reveal(hand);
    room.driver().click(hand);
    room.bench->pause();
    const auto draft = must(kept_draft(room.book));
    REQUIRE(draft.sheets.size() == 2);
    CHECK(draft.sheets.at(1).inputs.at("side") == "middle");
}

TEST_CASE("a kept result that a newer plugin answers otherwise is shown beside the new answer") {
    TrialRoom room;
    room.write_trial("9.6");
    const auto entries = must(list_entries(room.book));
    Entry entry = entries.front();
    auto older = must(desk::answer_of(entry.results.at(0)));
    older.plugin_version = "0.9";
    older.outputs.at(1).si = 0.000091; // as an older plugin might have squared it
    entry.results.at(0) = desk::to_record(older);
    must(write_entry(room.book, entry));
    room.driver().settle(5);
    const std::string key = "log." + std::to_string(entry.id.value) + ".result.0.";
    room.driver().press(Key::f3);
    room.driver().settle(3);
    room.driver().reveal(key + "again");
    room.driver().click(key + "again");
    REQUIRE(room.bench->until_shown(key + "said"));
    CHECK(holds(room.bench->said(key + "said"), "gives another answer today"));
    CHECK(holds(room.bench->said(key + "result.square"), "91.0 mm²"));
    room.driver().reveal(key + "fresh.square");
    CHECK(holds(room.bench->said(key + "fresh.square"), "92.2 mm²"));
}
