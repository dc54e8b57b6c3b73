#include "workroom_fixture.h"

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::Driver;
using fettle::ui::testing::WorkroomTest;

namespace {

constexpr Chord kKeys{static_cast<int>(Key::f1)}, kLarger{static_cast<int>(Key::equals), true},
    kSmaller{static_cast<int>(Key::minus), true}, kAsFirst{static_cast<int>(Key::digit_0), true};

struct KeysTest : WorkroomTest {
    // Everything the list says of one part of the room: "Ctrl F find; ..."
    std::string listed(const std::string& part) {
        std::string said;
        for (const std::string& key : bench->stage.reg().keys())
            if (key.starts_with("keys.of." + part + ".")) {
                const Noted& line = *bench->stage.reg().find(key);
                said += line.value + " " + line.label + "; ";
            }
        return said;
    }
    bool is_open() { return driver().shows("keys.close"); }
};

} // namespace

TEST_CASE("F1 lists what can be pressed here, on every screen its own") {
    KeysTest test;
    test.part("H7", "spring hanger");
    test.driver().press(Key::f5);
    CHECK_FALSE(test.is_open());
    test.driver().press(kKeys);
    REQUIRE(test.is_open());
    for (const auto* key : {"F2 Bench", "F11 Money", "Ctrl O People", "Ctrl B Build book",
                            "Ctrl F find", "F12 Dark paper", "Ctrl 0 "})
        CHECK_MESSAGE(holds(test.listed("The room"), key), key);
    CHECK(holds(test.listed("The entry"), "Ctrl P "));
    CHECK(holds(test.listed("The entry"), "F9 fold away"));
    CHECK(holds(test.listed("Parts"), "N add a part"));
    CHECK(test.bench->stage.reg().used_twice().empty());
    test.driver().press(Key::f6); // the screens can be gone through while the list lies over them
    REQUIRE(test.is_open());
    CHECK(test.listed("Parts").empty());
    CHECK(holds(test.listed("Tasks"), "N add"));
    test.driver().press(kKeys);
    CHECK_FALSE(test.is_open());
}

TEST_CASE("every screen's keys differ from each other") {
    KeysTest test;
    for (const std::string& screen : test.bench->room->screen_keys()) {
        CAPTURE(screen);
        test.bench->room->show({screen});
        test.driver().press(kKeys);
        REQUIRE(test.is_open());
        std::map<std::string, std::string> acts;
        for (const KeyNoted& key : test.bench->stage.reg().noted_keys()) {
            const auto [at, fresh] = acts.emplace(key.keys, key.act);
            CHECK_MESSAGE(fresh, key.keys << ": " << at->second << ", " << key.act);
        }
        CHECK(acts.size() > 20);
        test.driver().press(kKeys);
    }
}

TEST_CASE("Esc closes the list of keys and nothing below it") {
    KeysTest test;
    const auto hanger = test.part("H7", "spring hanger");
    test.bench->room->show({"parts", hanger.id.value});
    test.driver().settle();
    REQUIRE(test.driver().shows("part.back"));
    test.driver().press(kKeys);
    test.driver().press(Key::escape);
    CHECK_FALSE(test.is_open());
    CHECK(test.driver().shows("part.back"));
    test.driver().press(Key::escape);
    CHECK_FALSE(test.driver().shows("part.back"));
}

TEST_CASE("the list of keys is opened and closed by the pointer too") {
    KeysTest test;
    test.driver().click("keys.row");
    REQUIRE(test.is_open());
    test.driver().click("keys.close");
    CHECK_FALSE(test.is_open());
}

TEST_CASE("letters are made larger and smaller within bounds, by key and by press") {
    KeysTest test;
    const auto scale = [&] { return test.bench->room->state().text_scale; };
    CHECK(test.bench->said("size") == "Size 100 %");
    test.driver().press(kLarger);
    CHECK(test.bench->said("size") == "Size 110 %");
    test.driver().click("size.smaller");
    test.driver().press(kSmaller);
    CHECK(test.bench->said("size") == "Size 90 %");
    for (int i = 0; i < 12; ++i)
        test.driver().press(kSmaller);
    CHECK(scale() == kLeastScale);
    for (int i = 0; i < 12; ++i)
        test.driver().press(kLarger);
    CHECK(scale() == kMostScale);
    test.driver().click("entry.text"); // while one types as well
    test.driver().press(kAsFirst);
    CHECK(scale() == 1);
}
