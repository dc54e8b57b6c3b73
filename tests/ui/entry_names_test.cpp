// Names put into the entry at the caret, by the keys and the pointer of the real widgets.
#include "base/names_in_text.h"
#include "notebook/drafts.h"
#include "workroom_fixture.h"

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::Workbench;
using fettle::ui::testing::WorkroomTest;

namespace {

constexpr Chord kAtCaret{static_cast<int>(Key::t), true};
constexpr Chord kUndo{static_cast<int>(Key::z), true};
constexpr Chord kAll{static_cast<int>(Key::a), true};
constexpr Chord kCopy{static_cast<int>(Key::c), true};
constexpr Chord kPaste{static_cast<int>(Key::v), true};
constexpr Chord kWrite{static_cast<int>(Key::enter), true};

struct CaretTest : WorkroomTest {
    Part hanger = part("H7", "spring hanger");
    Part horn = part("H17", "horn bracket");
    TaskId ream = task("Ream the shackle bush");
    PhotoId shot = photo("a1", "2026-03-07T10:00:00");
    std::string part_mark = "[H7 spring hanger](part:" + std::to_string(hanger.id.value) + ")";

    CaretTest() {
        driver().press(Key::f3);
        driver().click("entry.text");
    }
    std::string text() { return driver().value("entry.text"); }
    EntryDraft kept() {
        bench->pause();
        return must(kept_draft(book));
    }
    void take(const std::string& letters) {
        driver().press(kAtCaret);
        driver().type(letters);
        driver().press(Key::enter);
        driver().settle();
    }
    bool open() { return driver().shows("entry.at_caret.keys"); }
    // The sentences about names, in their order.
    std::string told() {
        std::string all;
        for (int i = 0; driver().shows("entry.name." + std::to_string(i)); ++i)
            all += bench->said("entry.name." + std::to_string(i)) + "\n";
        return all;
    }
};

} // namespace

TEST_CASE("a few letters at the caret put a part into the text and tie it") {
    CaretTest test;
    test.driver().type("Took off the ");
    test.driver().press(kAtCaret);
    REQUIRE(test.open());
    test.driver().type("hang");
    CHECK(test.text() == "Took off the hang"); // letters as any others
    CHECK(test.driver().expect_visible("entry.at_caret.match.0").label == "H7   spring hanger");
    CHECK_FALSE(test.driver().shows("entry.at_caret.match.1"));
    test.driver().press(Key::enter);
    test.driver().settle();
    CHECK_FALSE(test.open());
    CHECK(test.text() == "Took off the " + test.part_mark);
    test.driver().type(", seized."); // the caret stands behind it
    CHECK(test.text() == "Took off the " + test.part_mark + ", seized.");
    const auto draft = test.kept();
    CHECK(draft.text == test.text());
    CHECK(draft.parts == std::vector{test.hanger.id});
    test.bench.reset();
    test.bench = std::make_unique<Workbench>(test.book, test.sheets);
    CHECK(test.text() == "Took off the " + test.part_mark + ", seized.");
    CHECK(test.driver().shows("entry.part." + std::to_string(test.hanger.id.value)));
}

TEST_CASE("the list opens at the word before the caret, arrows choose and a press takes") {
    CaretTest test;
    SUBCASE("by arrows") {
        test.driver().type("off: h");
        test.driver().press(kAtCaret);
        const auto second = test.driver().expect_visible("entry.at_caret.match.1").label;
        test.driver().press(Key::down);
        test.driver().press(Key::up);
        test.driver().press(Key::down);
        test.driver().press(Key::enter);
        test.driver().settle();
        CHECK(second == "H7   spring hanger");
        CHECK(test.text() == "off: " + test.part_mark);
    }
    SUBCASE("by the pointer, and typing goes on behind it") {
        test.driver().type("off: hang and away");
        for (int i = 0; i < 9; ++i)
            test.driver().press(Key::left);
        test.driver().press(kAtCaret);
        test.driver().click("entry.at_caret.match.0");
        test.driver().settle(5);
        CHECK(test.text() == "off: " + test.part_mark + " and away");
        test.driver().type("!");
        CHECK(test.text() == "off: " + test.part_mark + "! and away");
    }
    SUBCASE("with the caret elsewhere it comes into the text") {
        test.driver().type("off: ");
        test.driver().click("entry.hours");
        test.take("hang");
        CHECK(test.text() == "off: " + test.part_mark);
    }
    CHECK(test.kept().parts == std::vector{test.hanger.id});
}

TEST_CASE("Esc leaves what was typed, and so do letters that fit nothing") {
    CaretTest test;
    test.driver().press(kAtCaret);
    test.driver().type("hang");
    test.driver().press(Key::escape);
    test.driver().settle();
    CHECK_FALSE(test.open());
    CHECK(test.text() == "hang");
    test.driver().type("er");
    CHECK(test.text() == "hanger"); // the caret has stayed
    test.driver().type(" ");
    test.driver().press(kAtCaret);
    test.driver().type("qqq");
    CHECK(test.bench->said("entry.at_caret.keys") == "Nothing fits.");
    test.driver().press(Key::enter);
    test.driver().settle();
    CHECK_FALSE(test.open());
    CHECK(test.text() == "hanger qqq\n");
    CHECK(test.kept().parts.empty());
}

TEST_CASE("Ctrl Z in the text takes a name back to the letters in one go") {
    CaretTest test;
    test.driver().type("Off: ");
    test.take("hang");
    REQUIRE(test.text() == "Off: " + test.part_mark);
    test.driver().press(kUndo);
    CHECK(test.text() == "Off: hang");
    test.driver().press(kUndo);
    CHECK(test.text() == "Off: han");
    test.driver().type("d");
    CHECK(test.text() == "Off: hand");
}

TEST_CASE("a task and a photo are named as well, and lead there from the log") {
    CaretTest test;
    test.take("ream");
    test.driver().type(" ");
    test.take("photo " + std::to_string(test.shot.value));
    test.driver().type(" ");
    test.take("H7");
    const std::string task = std::to_string(test.ream.value),
                      photo = std::to_string(test.shot.value);
    CHECK(test.text() == "[Ream the shackle bush](task:" + task + ") [photo " + photo +
                             "](photo:" + photo + ") " + test.part_mark);
    test.driver().press(kWrite);
    test.driver().settle(5);
    const auto entry = must(list_entries(test.book)).front();
    CHECK(entry.tasks == std::vector{test.ream});
    CHECK(entry.parts == std::vector{test.hanger.id});
    REQUIRE(entry.photos.size() == 1);
    const std::string key = "log." + std::to_string(entry.id.value) + ".text";
    CHECK(test.bench->said(key + ".0") ==
          "Ream the shackle bush photo " + photo + " H7 spring hanger");
    CHECK(test.driver().expect_visible(key + ".name.0").label == "Ream the shackle bush");
    SUBCASE("the part") {
        test.driver().click(key + ".name.2");
        test.driver().settle(5);
        CHECK(test.driver().shows("part.tag"));
    }
    SUBCASE("the photo") {
        test.driver().click(key + ".name.1");
        test.driver().settle(5);
        CHECK_FALSE(test.driver().shows(key));
    }
}

TEST_CASE("words deleted from the text untie nothing, and that is said") {
    CaretTest test;
    test.take("hang");
    CHECK(test.told().empty());
    test.driver().press(kAll);
    test.driver().press(kCopy);
    test.driver().press(Key::del);
    CHECK(test.text().empty());
    CHECK(test.told() == "H7 is no longer in the text: it stays tied until it is taken out.\n");
    CHECK(test.kept().parts == std::vector{test.hanger.id});
    SUBCASE("Ctrl Z brings the name back") {
        test.driver().press(kUndo);
        CHECK(test.text() == test.part_mark);
        CHECK(test.told().empty());
    }
    SUBCASE("taken out it is tied no more, and a pasted name asks") {
        test.driver().click("entry.part." + std::to_string(test.hanger.id.value) + ".out");
        test.driver().settle();
        CHECK(test.told().empty());
        CHECK(test.kept().parts.empty());
        test.driver().click("entry.text");
        test.driver().press(kPaste);
        CHECK(test.text() == test.part_mark);
        CHECK(test.told() == "H7 is named in the text and not tied.\n");
        CHECK(test.kept().parts.empty());
        test.driver().click("entry.name.0.tie");
        CHECK(test.told().empty());
        CHECK(test.kept().parts == std::vector{test.hanger.id});
    }
}

TEST_CASE("what is taken out of the entry stays in the text as words alone") {
    CaretTest test;
    test.driver().type("Off: ");
    test.take("hang");
    test.driver().click("entry.part." + std::to_string(test.hanger.id.value) + ".out");
    test.driver().settle();
    CHECK(test.text() == "Off: H7 spring hanger");
    CHECK(test.told().empty());
    CHECK(test.kept().parts.empty());
}

TEST_CASE("a worked sheet stands where it was put in, and calculates as its inputs are typed") {
    CaretTest test;
    test.driver().type("Set up.");
    test.take("shim st");
    test.driver().type("And so to bed.");
    CHECK(test.text() ==
          "Set up.\n\n[Shim stack from the tin](sheet:shim.stack)\n\nAnd so to bed.");
    CHECK(test.bench->said("entry.sheet.0.place") == "stands in the text");
    // 5/16 in = 7.9375 mm exactly, since an inch is 25.4 mm; 0.25 + 0.05 + 0.0125 in is that.
    test.bench->type_into("entry.sheet.0.target", "5/16 in");
    test.bench->type_into("entry.sheet.0.tin", "1/4 in; 50 thou; 12.5 thou");
    REQUIRE(test.bench->until(
        [&] { return holds(test.bench->said("entry.sheet.0.result.sum"), "7.938"); }));
    test.driver().press(kWrite);
    test.driver().settle(5);
    const auto entry = must(list_entries(test.book)).front();
    const std::string key = "log." + std::to_string(entry.id.value) + ".";
    const auto top = [&](const std::string& of) {
        const Noted* noted = test.bench->stage.reg().find(key + of);
        REQUIRE(noted != nullptr);
        return noted->rect.top;
    };
    CHECK(test.bench->said(key + "text.0") == "Set up.");
    CHECK(test.bench->said(key + "result.0.title") == "Shim stack from the tin");
    CHECK(test.bench->said(key + "text_below.1.0") == "And so to bed.");
    CHECK_FALSE(test.driver().shows(key + "text.1")); // no words that the sheet says itself
    CHECK(top("text.0") < top("result.0.title"));
    CHECK(top("result.0.result.sum") < top("text_below.1.0"));
}

TEST_CASE("a sheet that is taken out leaves no empty place, and the next of its kind moves up") {
    CaretTest test;
    test.driver().type("One.");
    test.take("shim st");
    test.driver().type("Two.");
    test.take("shim st");
    CHECK(test.text() == "One.\n\n[Shim stack from the tin](sheet:shim.stack)\n\nTwo.\n\n"
                         "[Shim stack from the tin](sheet:shim.stack:2)\n\n");
    test.bench->type_into("entry.sheet.1.target", "5/16 in");
    test.driver().reveal("entry.sheet.0.out");
    test.driver().click("entry.sheet.0.out");
    test.driver().settle();
    CHECK(test.text() == "One.\n\nTwo.\n\n[Shim stack from the tin](sheet:shim.stack)\n\n");
    CHECK(test.told().empty());
    const auto draft = test.kept();
    REQUIRE(draft.sheets.size() == 1);
    CHECK(draft.sheets.front().inputs.at("target") == "5/16 in");
    test.driver().click("entry.text");
    test.driver().press(kAll);
    test.driver().press(Key::del);
    CHECK(test.told() ==
          "Shim stack from the tin is no longer in the text: it stands at the end of the entry.\n");
}

TEST_CASE("F1 lists the key of the list at the caret") {
    CaretTest test;
    test.driver().press(Key::f1);
    test.driver().settle();
    bool listed = false;
    for (const auto& key : test.bench->stage.reg().keys())
        listed = listed || key.starts_with("keys.of.The entry.Ctrl T.");
    CHECK(listed);
}
