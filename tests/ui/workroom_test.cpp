#include "desk/worked.h"
#include "notebook/drafts.h"
#include "notebook/weather.h"
#include "workroom_fixture.h"

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::Workbench;
using fettle::ui::testing::WorkroomTest;

namespace {

constexpr Chord kWrite{static_cast<int>(Key::enter), true};
constexpr Chord kUndo{static_cast<int>(Key::z), true};
constexpr Chord kRedo{static_cast<int>(Key::z), true, true};
constexpr Chord kFind{static_cast<int>(Key::f), true};
constexpr Chord kPutIn{static_cast<int>(Key::p), true};

// The room with the log shown, where what is written is seen.
struct LogTest : WorkroomTest {
    LogTest() { show_log(); }
    void show_log() {
        driver().press(Key::f3);
        driver().settle();
    }
};

// Puts shim.stack into the entry by a few letters of its name.
void put_in_shim_stack(WorkroomTest& test) {
    test.driver().press(kPutIn);
    test.driver().type("shim st");
    test.driver().press(Key::enter);
    test.driver().settle(5);
}

std::string log_key(EntryId id, const std::string& rest) {
    return "log." + std::to_string(id.value) + "." + rest;
}

} // namespace

TEST_CASE("an empty log says what it is for") {
    LogTest test;
    CHECK(test.driver().shows("log.empty"));
}

TEST_CASE("an entry is written by typing and stands in the log and the notebook") {
    LogTest test;
    test.driver().click("entry.text");
    test.driver().type("Spring down.");
    test.bench->type_into("entry.hours", "1 1/2");
    test.driver().press(kWrite);
    const auto entries = must(list_entries(test.book));
    REQUIRE(entries.size() == 1);
    CHECK(entries.front().text == "Spring down.");
    CHECK(entries.front().hours == 1.5);
    CHECK(to_iso(entries.front().day) == to_iso(today()));
    test.driver().settle();
    CHECK(test.driver().value(log_key(entries.front().id, "text")) == "Spring down.");
    CHECK(test.driver().value("entry.text").empty());
    CHECK(test.driver().value("entry.hours").empty());
}

TEST_CASE("a worked sheet in the entry says what is wrong, then calculates, and is kept") {
    LogTest test;
    put_in_shim_stack(test);
    // 5/16 in is 0.3125 in; 0.25 + 0.05 + 0.0125 in is the same by adding.
    test.bench->type_into("entry.sheet.0.target", "5/16 in");
    test.bench->type_into("entry.sheet.0.tin", "1/4 in; 50 parsecs");
    test.driver().settle();
    const std::string wrong = test.bench->said("entry.sheet.0.tin.error");
    CHECK(holds(wrong, "parsecs"));
    test.bench->type_into("entry.sheet.0.tin", "1/4 in; 50 thou; 12.5 thou; 100 thou");
    REQUIRE(test.bench->until(
        [&] { return holds(test.bench->said("entry.sheet.0.result.sum"), "0.3125"); }));
    CHECK_FALSE(test.bench->stage.reg().find("entry.sheet.0.tin.error"));
    // 5/16 in = 7.9375 mm exactly, since an inch is 25.4 mm.
    CHECK(holds(test.bench->said("entry.sheet.0.result.sum"), "7.938"));
    test.driver().press(kWrite);
    const auto entries = must(list_entries(test.book));
    REQUIRE(entries.size() == 1);
    REQUIRE(entries.front().results.size() == 1);
    const auto answer = must(desk::answer_of(entries.front().results.front()));
    CHECK(*calc::output_si(answer, "sum") == doctest::Approx(0.0079375).epsilon(1e-9));
    test.driver().settle(5);
    CHECK(test.bench->stage.reg().find(log_key(entries.front().id, "result.0.result.sum")));
}

TEST_CASE("a sheet that cannot be worked out stops the writing with a sentence and loses nothing") {
    LogTest test;
    test.driver().click("entry.text");
    test.driver().type("Shimmed.");
    put_in_shim_stack(test);
    test.bench->type_into("entry.sheet.0.tin", "twelve");
    test.driver().press(kWrite);
    CHECK(holds(test.bench->said("entry.error"), "twelve"));
    CHECK(must(list_entries(test.book)).empty());
    CHECK(test.bench->said("entry.text") == "Shimmed.");
}

TEST_CASE("what was written is taken back and done again by key") {
    LogTest test;
    test.driver().click("entry.text");
    test.driver().type("Spring down.");
    test.driver().press(kWrite);
    REQUIRE(must(list_entries(test.book)).size() == 1);
    test.driver().press(kUndo);
    CHECK(must(list_entries(test.book)).empty());
    test.driver().press(kRedo);
    CHECK(must(list_entries(test.book)).size() == 1);
}

TEST_CASE("an entry is removed from the log and comes back with undo") {
    LogTest test;
    const EntryId id = test.entry("2026-03-07", "Spring down.");
    test.driver().settle();
    test.driver().click(log_key(id, "remove"));
    CHECK(must(list_entries(test.book)).empty());
    test.driver().click("undo");
    CHECK(must(list_entries(test.book)).size() == 1);
}

TEST_CASE("the draft is kept in a pause of typing and stands there at the next start") {
    LogTest test;
    test.driver().click("entry.text");
    test.driver().type("Half a sentence");
    CHECK(must(kept_draft(test.book)).text.empty()); // typing goes on
    CHECK(test.bench->said("entry.kept") == "not yet saved");
    test.bench->pause();
    CHECK(must(kept_draft(test.book)).text == "Half a sentence");
    CHECK(test.bench->said("entry.kept").starts_with("saved as a draft "));
    test.bench.reset();
    test.bench = std::make_unique<Workbench>(test.book, test.sheets);
    CHECK(test.driver().value("entry.text") == "Half a sentence");
}

TEST_CASE("what was typed less than a pause ago is kept when the room is left") {
    LogTest test;
    test.driver().click("entry.text");
    test.driver().type("Last words");
    test.bench.reset();
    CHECK(must(kept_draft(test.book)).text == "Last words");
}

TEST_CASE("screens change by key and the entry keeps its text, F9 folds it away and back") {
    LogTest test;
    test.driver().click("entry.text");
    test.driver().type("Spring down.");
    int number = 0;
    for (const std::string& screen : test.bench->room->screen_keys()) {
        CAPTURE(screen);
        test.driver().press(static_cast<Key>(static_cast<int>(Key::f2) + number++)); // F9 is taken
        number += number == 7 ? 1 : 0;
        CHECK(test.driver().value("entry.text") == "Spring down.");
        CHECK(test.bench->stage.reg().used_twice().empty());
    }
    test.driver().press(Key::f9);
    CHECK_FALSE(test.driver().shows("entry.text"));
    test.driver().press(Key::f9);
    CHECK(test.driver().value("entry.text") == "Spring down.");
}

TEST_CASE("the day's figures are kept for today, and wrong ones say what is accepted") {
    LogTest test;
    test.driver().click("day.set");
    test.bench->type_into("day.air", "warm");
    test.driver().press(Key::enter);
    test.driver().settle();
    CHECK(holds(test.bench->said("day.error"), "warm"));
    test.bench->type_into("day.air", "50 °F");
    test.bench->type_into("day.humidity", "72");
    test.driver().press(Key::enter);
    test.driver().settle();
    const Weather weather = must(weather_on(test.book, today()));
    REQUIRE(weather.temperature_c);
    CHECK(*weather.temperature_c == doctest::Approx(10)); // (50 - 32) / 1.8
    CHECK(*weather.humidity == doctest::Approx(0.72));
    CHECK(holds(test.bench->said("day.figures"), "10 °C"));
}

TEST_CASE("find lists what holds the words and leads to the record") {
    LogTest test;
    const Part part = test.part("H7", "spring hanger");
    const EntryId id = test.entry("2026-03-07", "Magneto cleaned.");
    test.driver().press(kFind);
    test.driver().type("magn");
    CHECK(test.driver().shows("find.0"));
    test.driver().press(Key::enter);
    test.driver().settle(5);
    CHECK(test.driver().shows(log_key(id, "text")));
    test.bench->type_into("find", "hanger");
    test.driver().click("find.0");
    test.driver().settle();
    CHECK_FALSE(test.driver().shows("find.0"));
    CHECK(test.bench->stage.reg().find("part.tag"));
}

TEST_CASE("an entry opens for changing, and one under way is offered to be written first") {
    LogTest test;
    const EntryId old = test.entry("2026-03-07", "Spring down.");
    test.driver().settle();
    test.driver().click("entry.text");
    test.driver().type("Under way.");
    test.driver().click(log_key(old, "change"));
    CHECK(test.driver().shows("entry.question"));
    CHECK(test.bench->said("entry.text") == "Under way.");
    test.driver().click("entry.write_first");
    test.driver().settle();
    CHECK(must(list_entries(test.book)).size() == 2);
    CHECK(test.bench->said("entry.title") == "Changing 7 Mar 2026");
    test.bench->type_into("entry.text", "Spring down, leaf 3 cracked.");
    test.driver().press(kWrite);
    CHECK(must(entry_by_id(test.book, old)).text == "Spring down, leaf 3 cracked.");
    CHECK(must(list_entries(test.book)).size() == 2);
}

TEST_CASE("letters typed at once after the key that leads the caret there are not lost") {
    LogTest test;
    auto& input = test.bench->stage.input();
    for (int i = 0; i < 2; ++i) { // fold away and back: the caret is then in the text
        input.push(KeyStroke{Key::f9, true});
        input.push(KeyStroke{Key::f9, false});
    }
    test.driver().type("Second half");
    CHECK(test.driver().value("entry.text") == "Second half");
}

TEST_CASE("a draft of the last evening is gone on with at its end") {
    LogTest test;
    test.driver().click("entry.text");
    test.driver().type("Half of it");
    test.bench.reset();
    test.bench = std::make_unique<Workbench>(test.book, test.sheets);
    test.driver().press(Key::f9);
    test.driver().press(Key::f9);
    test.driver().type(", and the rest");
    CHECK(test.driver().value("entry.text") == "Half of it, and the rest");
}

TEST_CASE("an entry put aside comes back as it was") {
    LogTest test;
    test.driver().click("entry.text");
    test.driver().type("Second thoughts");
    test.driver().click("entry.aside");
    CHECK(test.bench->said("entry.text") == "what was done"); // blank: only its label
    test.driver().click("entry.back");
    CHECK(test.driver().value("entry.text") == "Second thoughts");
}

TEST_CASE("a kept result is run again with the plugin of today, and the log says how it went") {
    LogTest test;
    put_in_shim_stack(test);
    test.driver().press(kWrite);
    const auto entries = must(list_entries(test.book));
    REQUIRE(entries.size() == 1);
    const std::string again = log_key(entries.front().id, "result.0.again");
    test.driver().settle(5);
    test.driver().reveal(again);
    test.driver().click(again);
    const std::string said = log_key(entries.front().id, "result.0.said");
    REQUIRE(test.bench->until_shown(said));
    CHECK(holds(test.bench->said(said), "gives the same today"));
}

TEST_CASE("parts and tasks are put in by a few letters and taken out again") {
    LogTest test;
    const Part part = test.part("H7", "spring hanger");
    test.driver().settle();
    test.driver().press(kPutIn);
    test.driver().type("h7");
    test.driver().press(Key::enter);
    const std::string key = "entry.part." + std::to_string(part.id.value);
    CHECK(test.driver().shows(key));
    CHECK(must(kept_draft(test.book)).parts.size() == 1);
    test.driver().click(key + ".out");
    CHECK_FALSE(test.driver().shows(key));
}

TEST_CASE("coming to the worked sheets, Enter opens the first one and Esc leads back") {
    LogTest test;
    test.driver().press(Key::f10);
    test.driver().settle(3);
    test.driver().press(Key::enter);
    CHECK(test.driver().shows("sheets.title"));
    test.driver().press(Key::escape);
    CHECK_FALSE(test.driver().shows("sheets.title"));
    CHECK(test.driver().shows("sheets.coat.weather")); // the first of the list
}

TEST_CASE("the list of screens says how many photos are untied") {
    LogTest test;
    CHECK(test.bench->said("screens.photos") == "Photos");
    must(add_photo(test.book, {.hash = "1", .file = "photos/x", .original_name = "x"}));
    test.driver().settle(3);
    CHECK(test.bench->said("screens.photos") == "1 untied");
}
