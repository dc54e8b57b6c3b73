#include "ui/frame/register.h"

#include <doctest/doctest.h>

using namespace fettle::ui;

namespace {
Noted noted(const char* key, Rect rect, Rect clip = {0, 0, 100, 100}) {
    Noted one;
    one.key = key;
    one.rect = rect;
    one.clip = clip;
    return one;
}
} // namespace

TEST_CASE("the register holds this frame's widgets and forgets the last frame's") {
    Register reg;
    reg.begin_frame();
    reg.note(noted("log.save", {0, 0, 10, 10}));
    reg.note(noted("log.drop", {20, 0, 30, 10}));
    CHECK(reg.keys() == std::vector<std::string>{"log.drop", "log.save"});
    reg.begin_frame();
    CHECK(reg.find("log.save") == nullptr);
}

TEST_CASE("frames are counted while a widget stands still, and start anew when it moves") {
    Register reg;
    for (int i = 0; i < 3; ++i) {
        reg.begin_frame();
        reg.note(noted("a", {0, 0, 10, 10}));
    }
    CHECK(reg.find("a")->frames == 3);
    reg.begin_frame();
    reg.note(noted("a", {0, 5, 10, 15}));
    CHECK(reg.find("a")->frames == 1);
}

TEST_CASE("what lies outside its clip is not visible, and what is cut shows the rest") {
    Register reg;
    reg.begin_frame();
    reg.note(noted("out", {0, 200, 10, 210}));
    reg.note(noted("cut", {90, 90, 110, 110}));
    CHECK_FALSE(reg.find("out")->visible());
    CHECK(reg.find("cut")->visible());
    CHECK(reg.find("cut")->shown() == Rect{90, 90, 100, 100});
}

TEST_CASE("a key used twice in one frame is reported") {
    Register reg;
    reg.begin_frame();
    reg.note(noted("a", {0, 0, 10, 10}));
    reg.note(noted("a", {0, 20, 10, 30}));
    CHECK(reg.used_twice() == std::vector<std::string>{"a"});
}
