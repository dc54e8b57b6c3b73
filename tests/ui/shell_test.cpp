#include "driver.h"
#include "ui/shell.h"
#include "ui/widgets/fields.h"

#include <doctest/doctest.h>

using namespace fettle::ui;
using fettle::ui::testing::Driver;

namespace {

struct Room {
    ShellShown shown;
    ShellState state;
    ShellAsked last, ever;
    std::string entry, drawn;
    Headless stage;
    Driver driver;

    Room() : shown(make()), driver(stage, [this](Page& page) { draw(page); }) {}

    ShellShown make() {
        ShellShown made;
        made.title = "Quernmore Drover 1936";
        made.entry_title = "Entry, 7 Mar 2026";
        made.draw_entry = [this](Page& page) { text_area(page, "entry.text", entry, 6); };
        const auto screen = [this](const char* key, const char* label, Key chord) {
            return Screen{key, label, {static_cast<int>(chord)}, "", [this, key](Page& page) {
                              drawn = key;
                              words(page, key);
                          }};
        };
        made.screens = {screen("log", "Log", Key::f1), screen("photos", "Photos", Key::f2)};
        return made;
    }

    void draw(Page& page) {
        last = draw_shell(page, shown, state);
        ever.stop |= last.stop;
        ever.undo |= last.undo;
        ever.find_entered |= last.find_entered;
        ever.set_day |= last.set_day;
        ever.entry_opened |= last.entry_opened;
    }
};

} // namespace

TEST_CASE("the first screen is shown at the start and others by word or by key") {
    Room room;
    CHECK(room.drawn == "log");
    room.driver.click("screens.photos");
    CHECK(room.drawn == "photos");
    room.driver.press(Key::f1);
    CHECK(room.drawn == "log");
}

TEST_CASE("the entry folds away with one key and keeps what was written") {
    Room room;
    room.driver.click("entry.text");
    room.driver.type("Spring down.");
    room.driver.press(Key::f9);
    CHECK_FALSE(room.driver.shows("entry.text"));
    room.driver.click("screens.photos");
    room.driver.press(Key::f9);
    CHECK(room.ever.entry_opened);
    CHECK(room.driver.value("entry.text") == "Spring down.");
}

TEST_CASE("find takes the caret by its key and hands over what was typed") {
    Room room;
    room.driver.press({static_cast<int>(Key::f), true});
    room.driver.type("hanger");
    CHECK(room.state.find == "hanger");
    room.driver.press(Key::enter);
    CHECK(room.ever.find_entered);
}

TEST_CASE("the day's figures are typed once and handed over as typed") {
    Room room;
    room.driver.click("day.set");
    room.driver.click("day.air");
    room.driver.type("11 °C");
    room.driver.press(Key::tab);
    room.driver.type("72 %");
    room.driver.press(Key::enter);
    CHECK(room.ever.set_day);
    CHECK(room.state.air_typed == "11 °C");
    CHECK(room.state.humidity_typed == "72 %");
}

TEST_CASE("the bottom line stops long work, undoes the last act and shows trouble") {
    Room room;
    CHECK_FALSE(room.driver.shows("undo"));
    room.shown.work = Work{"taken in 38 of 60", 0.6, true};
    room.shown.last_act = "tied 3 photos to hanger H7";
    room.shown.can_undo = true;
    room.driver.settle();
    room.driver.click("work.stop");
    CHECK(room.ever.stop);
    room.driver.click("undo");
    CHECK(room.ever.undo);
    room.ever.undo = false;
    room.driver.press({static_cast<int>(Key::z), true});
    CHECK(room.ever.undo);
    room.shown.trouble = "The notebook cannot be written: the disk is full.";
    room.driver.settle();
    CHECK(room.driver.value("trouble") == room.shown.trouble);
}

TEST_CASE("undoing letters in a field does not undo the last act") {
    Room room;
    room.shown.last_act = "tied 3 photos to hanger H7";
    room.shown.can_undo = true;
    room.driver.click("entry.text");
    room.driver.type("a");
    room.driver.press({static_cast<int>(Key::z), true});
    CHECK_FALSE(room.ever.undo);
}

TEST_CASE("everything of the room stays on the screen from 1024 by 640 to 4K at double scale") {
    struct Size {
        float width, height, scale;
    };
    for (const Size& size :
         {Size{1024, 640, 1}, Size{1280, 800, 1}, Size{1920, 1080, 1.5F}, Size{3840, 2160, 2}}) {
        CAPTURE(size.width);
        Room room;
        Theme theme;
        theme.scale = size.scale;
        room.stage.stage().set_theme(theme);
        room.stage.resize(size.width, size.height);
        room.shown.last_act = "tied 3 photos to hanger H7";
        room.shown.can_undo = true;
        room.driver.settle(4);
        for (const char* key :
             {"title", "day.set", "find", "screens.photos", "entry.fold", "entry.text", "undo"}) {
            CAPTURE(key);
            const Noted& noted = room.driver.expect_visible(key);
            CHECK(noted.shown().width() == doctest::Approx(noted.rect.width()));
            CHECK(noted.shown().height() == doctest::Approx(noted.rect.height()));
        }
        CHECK(room.stage.reg().used_twice().empty());
    }
}

TEST_CASE("the entry that was folded away is brought back by its row, too") {
    Room room;
    room.driver.click("entry.fold");
    CHECK_FALSE(room.driver.shows("entry.text"));
    room.driver.click("entry.row");
    CHECK(room.ever.entry_opened);
    CHECK(room.driver.shows("entry.text"));
}

TEST_CASE("large letters in a small window show the screen or the entry, one at a time") {
    Room room;
    Theme theme;
    theme.scale = 1.75F;
    room.stage.stage().set_theme(theme);
    room.stage.resize(1024, 700);
    room.driver.settle(4);
    CHECK(room.drawn == "log");
    CHECK_FALSE(room.driver.shows("entry.text"));
    const Noted& row = room.driver.expect_visible("screens.photos");
    CHECK(row.shown().width() == doctest::Approx(row.rect.width()));

    room.driver.press(Key::f9);
    room.drawn.clear();
    room.driver.click("entry.text");
    room.driver.type("Spring down.");
    CHECK(room.entry == "Spring down.");
    CHECK(room.drawn.empty());

    room.driver.press(Key::f2);
    CHECK(room.drawn == "photos");
    CHECK_FALSE(room.driver.shows("entry.text"));

    room.stage.resize(1920, 1080); // there is room for both again
    room.driver.settle(4);
    CHECK(room.driver.value("entry.text") == "Spring down.");
}
