// What a worked sheet is begun with: the day's weather, and the last trial of its task.
#include "desk/carrying.h"
#include "desk/places.h"
#include "desk/worked.h"
#include "notebook/fixture.h"
#include "notebook/weather.h"

using namespace fettle;

namespace {

struct TrialDesk : Desk {
    calc::Catalogue sheets{desk::calc_program(), {FETTLEBOOK_TRIAL_PLUGIN_DIR}};
    TaskId task = must(keep_task(book, {.title = "set up the rod"}));

    const calc::Sheet& sheet() { return *must(sheets.find_sheet("series.try")).sheet; }
    EntryId trial(const char* day, const char* reading, const char* side) {
        Entry entry{.day = must(parse_day(day)), .text = "a try", .tasks = {task}};
        const EntryId id = must(write_entry(book, entry));
        must(desk::work_on_entry(book, sheets, id, "series.try",
                                 {{"reading", reading}, {"side", side}, {"gauge", "7 mm"}}));
        return id;
    }
};

} // namespace

TEST_CASE("a sheet begun on a task goes on from its last result, in table and fields") {
    TrialDesk desk;
    desk.trial("2026-03-01", "9.5", "left");
    desk.trial("2026-03-02", "9.875", "right");
    const auto begun = must(
        desk::begun_inputs(desk.book, desk.sheet(), {must(parse_day("2026-03-03")), {desk.task}}));
    CHECK(begun.at("earlier") == "9.5 mm | left\n9.875 mm | right");
    CHECK(begun.at("gauge") == "7 mm");
    CHECK(begun.at("reading") == "10"); // not declared to go on
    // On no task nothing goes on.
    const auto alone =
        must(desk::begun_inputs(desk.book, desk.sheet(), {must(parse_day("2026-03-03"))}));
    CHECK(alone == calc::fresh_inputs(desk.sheet()));
}

TEST_CASE("an entry under change goes on from the trial before it, not from itself") {
    TrialDesk desk;
    desk.trial("2026-03-01", "9.5", "left");
    const EntryId second = desk.trial("2026-03-02", "9.875", "right");
    const auto begun = must(desk::begun_inputs(
        desk.book, desk.sheet(), {must(parse_day("2026-03-02")), {desk.task}, second}));
    CHECK(begun.at("earlier") == "9.5 mm | left");
}

TEST_CASE("the day's temperature and humidity fill the fields that ask for them") {
    TrialDesk desk;
    const Day day = must(parse_day("2026-03-03"));
    must(set_weather(desk.book, day, {.temperature_c = 11, .humidity = 0.72}));
    const auto begun = must(desk::begun_inputs(desk.book, desk.sheet(), {day}));
    CHECK(begun.at("air") == "11 °C");
    CHECK(begun.at("wet") == "72 %");
    // Another day keeps what the sheet shows by itself.
    const auto other =
        must(desk::begun_inputs(desk.book, desk.sheet(), {must(parse_day("2026-03-04"))}));
    CHECK(other.at("air") == "20");
}

TEST_CASE("the newest result of each sheet of a task is found, with how many there are") {
    TrialDesk desk;
    CHECK(must(desk::latest_results(desk.book, desk.task)).empty());
    desk.trial("2026-03-01", "9.5", "left");
    desk.trial("2026-03-02", "10", "right");
    const auto latest = must(desk::latest_results(desk.book, desk.task));
    REQUIRE(latest.size() == 1);
    CHECK(latest[0].kept == 2);
    CHECK(latest[0].day == must(parse_day("2026-03-02")));
    CHECK(latest[0].answer.tables.at(0).rows.size() == 2);
    CHECK(calc::has_note(latest[0].answer, calc::NoteLevel::reached));
}
