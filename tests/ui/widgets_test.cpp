#include "driver.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/fields.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/readings.h"

#include <doctest/doctest.h>
#include <imgui.h>

using namespace fettle::ui;
using fettle::ui::testing::Driver;

namespace {

struct Form {
    std::string name, place, story;
    int saves = 0, entered = 0, chosen = 0, picked = -1;
    bool fitted = false;
    bool may_save = true;

    void draw(Page& page) {
        if (text_field(page, "form.name", name, {.label = "name", .width = 300}).entered) ++entered;
        text_field(page, "form.place", place, {.label = "kept in", .width = 300});
        if (button(page, "form.save", "Save", {.weight = Weight::next, .enabled = may_save}))
            ++saves;
        check(page, "form.fitted", "fitted", fitted);
        choice(page, "form.stage", {"before", "during", "after"}, chosen);
        text_area(page, "form.story", story, 6, {.label = "what was done", .width = 300});
    }
};

struct Room {
    Form form;
    Headless stage;
    Driver driver{stage, [this](Page& page) { form.draw(page); }};
};

} // namespace

TEST_CASE("a button is clicked by its key, once a click") {
    Room room;
    room.driver.click("form.save");
    CHECK(room.form.saves == 1);
    room.driver.click("form.save");
    CHECK(room.form.saves == 2);
}

TEST_CASE("a disabled button does nothing and a driver says so") {
    Room room;
    room.form.may_save = false;
    room.driver.settle();
    CHECK_THROWS_WITH(room.driver.click("form.save"), "form.save cannot be used at the moment");
    CHECK(room.form.saves == 0);
}

TEST_CASE("letters of other languages, fractions and signs are taken as typed") {
    Room room;
    room.driver.click("form.name");
    room.driver.type("5/16 ½ ü µ Łódź ° ±");
    CHECK(room.form.name == "5/16 ½ ü µ Łódź ° ±");
    CHECK(room.driver.value("form.name") == room.form.name);
}

TEST_CASE("Tab goes from field to field and on to the button, which Enter presses") {
    Room room;
    room.driver.click("form.name");
    room.driver.type("hanger");
    room.driver.press(Key::tab);
    room.driver.type("shelf 2");
    CHECK(room.form.name == "hanger");
    CHECK(room.form.place == "shelf 2");
    room.driver.press(Key::tab);
    CHECK(room.form.saves == 0);
    room.driver.press(Key::enter);
    CHECK(room.form.saves == 1);
}

TEST_CASE("Enter ends a line and is reported, Escape takes a line back to what it was") {
    Room room;
    room.form.name = "hanger";
    room.driver.click("form.name");
    room.driver.press(Key::end);
    room.driver.type(" H7");
    room.driver.press(Key::enter);
    CHECK(room.form.entered == 1);
    CHECK(room.form.name == "hanger H7");
    room.driver.click("form.name");
    room.driver.type("x");
    room.driver.press(Key::escape);
    CHECK(room.form.name == "hanger H7");
    CHECK(room.form.entered == 1);
}

TEST_CASE("Escape never throws away several lines of writing") {
    Room room;
    room.driver.click("form.story");
    room.driver.type("Took the spring down.");
    room.driver.press(Key::escape);
    CHECK(room.form.story == "Took the spring down.");
}

TEST_CASE("a long line is broken for the eye only") {
    Room room;
    const std::string line = "Took the near-side spring down to single leaves; the second leaf is "
                             "cracked at the clip and the rest cleaned up well.";
    room.driver.click("form.story");
    room.driver.type(line);
    CHECK(room.form.story == line);
    room.driver.press(Key::enter);
    room.driver.type("Next");
    CHECK(room.form.story == line + "\nNext");
}

TEST_CASE("ten clicks that arrive within one slow frame all count") {
    Room room;
    const Rect at = room.driver.expect_visible("form.save").rect;
    room.stage.input().push(PointerMove{at.left + 5, at.top + 5});
    for (int i = 0; i < 10; ++i) {
        room.stage.input().push(PointerButton{0, true});
        room.stage.input().push(PointerButton{0, false});
    }
    room.driver.drain();
    CHECK(room.form.saves == 10);
}

TEST_CASE("twenty-five Backspaces that arrive within one slow frame all count") {
    Room room;
    room.form.name = std::string(30, 'x');
    room.driver.click("form.name");
    room.driver.press(Key::end);
    for (int i = 0; i < 25; ++i) {
        room.stage.input().push(KeyStroke{Key::backspace, true});
        room.stage.input().push(KeyStroke{Key::backspace, false});
    }
    room.driver.drain();
    CHECK(room.form.name == "xxxxx");
}

TEST_CASE("letters and Backspace keep their order though they arrive together") {
    Room room;
    room.driver.click("form.name");
    InputQueue& input = room.stage.input();
    for (const char* letter = "abcd"; *letter != '\0'; ++letter) {
        input.push(Character{static_cast<unsigned>(*letter)});
        input.push(KeyStroke{Key::backspace, true});
        input.push(KeyStroke{Key::backspace, false});
        input.push(Character{static_cast<unsigned>(*letter)});
    }
    room.driver.drain();
    CHECK(room.form.name == "abcd");
}

TEST_CASE("a click in one field and letters behind it go into that field") {
    Room room;
    const Rect at = room.driver.expect_visible("form.place").rect;
    room.stage.input().push(PointerMove{at.left + 5, at.top + 5});
    room.stage.input().push(PointerButton{0, true});
    room.stage.input().push(PointerButton{0, false});
    room.stage.input().push(Character{'q'});
    room.driver.drain();
    CHECK(room.form.place == "q");
}

TEST_CASE("copying and pasting goes through the clipboard") {
    Room room;
    room.form.name = "½ in";
    room.driver.click("form.name");
    room.driver.press({static_cast<int>(Key::a), true});
    room.driver.press({static_cast<int>(Key::c), true});
    CHECK(room.stage.stage().clipboard == "½ in");
    room.driver.click("form.place");
    room.driver.press({static_cast<int>(Key::v), true});
    CHECK(room.form.place == "½ in");
}

TEST_CASE("keys held while the window loses the focus are let go") {
    Room room;
    room.stage.input().push(KeyStroke{Key::left_ctrl, true});
    room.stage.input().push(Focus{false});
    room.driver.drain();
    room.driver.click("form.name");
    room.driver.type("a");
    CHECK(room.form.name == "a");
}

TEST_CASE("check words and choices answer to the pointer and say what they hold") {
    Room room;
    room.driver.click("form.fitted");
    CHECK(room.form.fitted);
    CHECK(room.driver.value("form.fitted") == "yes");
    room.driver.click("form.stage.2");
    CHECK(room.form.chosen == 2);
    CHECK(room.driver.value("form.stage.2") == "chosen");
    CHECK(room.driver.value("form.stage.0") == "");
}

TEST_CASE("what one aims at is at least 32 pixels high, at every scale") {
    for (const float scale : {1.0F, 1.5F, 2.0F}) {
        Theme theme;
        theme.scale = scale;
        Headless stage(theme, 1280 * scale, 800 * scale);
        Form form;
        Driver driver(stage, [&form](Page& page) { form.draw(page); });
        for (const char* key : {"form.name", "form.save", "form.fitted", "form.stage.0"})
            CHECK(driver.expect_visible(key).rect.height() >= 32 * scale);
    }
}

TEST_CASE("a wrong field says so below itself, and a right one shows the other system") {
    Headless stage;
    std::string typed = "12 thou";
    std::string_view error;
    Driver driver(stage, [&](Page& page) {
        field_with_unit(page, "shim.target", typed,
                        {.label = "target", .unit = "mm", .other = "0.3048 mm", .error = error});
    });
    CHECK(driver.shows("shim.target.other"));
    error = "target: write a length, as 0.3 mm or 12 thou";
    driver.settle();
    CHECK(driver.expect_visible("shim.target.error").label == error);
    CHECK_FALSE(driver.shows("shim.target.other"));
}

TEST_CASE("a field tells how what is written from the right reads") {
    Headless stage;
    std::string typed = "pin";
    Driver driver(stage, [&](Page& page) { text_field(page, "part.name", typed); });
    CHECK_FALSE(driver.shows("part.name.reads"));
    typed = "פין";
    driver.settle();
    CHECK(driver.shows("part.name.reads"));
    CHECK(driver.value("part.name") == typed);
}

TEST_CASE("no words have no width, and are cut to none") {
    Headless stage;
    stage.frame([](Page& page) {
        CHECK(width_of(page, {}) == 0);
        CHECK(cut_to(page, {}, 10).empty());
        CHECK(width_of(page, "pin") > 0);
    });
}

TEST_CASE("words and links that are too long are cut where the page ends, and noted whole") {
    Headless stage(Theme{}, 300, 200);
    const std::string name(200, 'w');
    Driver driver(stage, [&](Page& page) {
        words(page, name);
        note(page, "words", name);
        link(page, "link", name);
        words_beside(page, name);
        note(page, "beside", name);
    });
    driver.settle();
    for (const char* key : {"words", "link", "beside"}) {
        CAPTURE(key);
        const Noted& noted = driver.expect_visible(key);
        CHECK(noted.label == name);
        CHECK(noted.rect.right <= 300);
        CHECK(noted.rect.width() > 200);
    }
}

TEST_CASE("a row far down a long list is reached by its number and can be pressed") {
    Headless stage;
    int pressed_row = -1;
    Driver driver(stage, [&](Page& page) {
        ImGui::BeginChild("list", ImVec2(400, 300));
        rows(page, "parts", 20000, Measure::kRow, [&](int i) {
            const std::string key = "parts." + std::to_string(i);
            if (row(page, key, {.label = key})) pressed_row = i;
        });
        ImGui::EndChild();
    });
    CHECK_FALSE(driver.shows("parts.17321"));
    CHECK(stage.reg().keys().size() < 40);
    driver.scroll_to("parts", 17321);
    driver.click("parts.17321");
    CHECK(pressed_row == 17321);
    REQUIRE(driver.shows("parts.17321"));
    driver.wheel("parts.17321", -3);
    CHECK_FALSE(driver.shows("parts.17321"));
}

TEST_CASE("the line between two columns follows a drag and stops at its limits") {
    Headless stage;
    float left = 300;
    Driver driver(stage, [&left](Page& page) {
        ImGui::Dummy(ImVec2(left, 100));
        ImGui::SameLine(0, 0);
        splitter(page, "divide", {left, 200, 500, 100});
    });
    driver.drag("divide", 80, 0);
    CHECK(left == doctest::Approx(380));
    driver.drag("divide", 400, 0);
    CHECK(left == doctest::Approx(500));
}

TEST_CASE("stop beside long work is pressed, and the empty page offers its first step") {
    Headless stage;
    int stops = 0, steps = 0;
    Driver driver(stage, [&](Page& page) {
        if (progress(page, "work", {"taken in 38 of 60", 38.0 / 60})) ++stops;
        if (empty_page(page, "photos.empty", {"No photos yet.", "Take in a folder"})) ++steps;
    });
    driver.click("work.stop");
    driver.click("photos.empty.step");
    CHECK(stops == 1);
    CHECK(steps == 1);
    CHECK(driver.value("work") == "63 %");
}
