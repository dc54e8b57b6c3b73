// How marked text stands in the Log: what is where, by the register.
#include "ui/frame/fonts.h"
#include "workroom_fixture.h"

#include <imgui.h>

using namespace fettle;
using namespace fettle::ui;
using fettle::ui::testing::WorkroomTest;

namespace {

struct MarkedLog : WorkroomTest {
    explicit MarkedLog(const std::string& text)
        : key("log." + std::to_string(entry("2026-03-07", text).value) + ".text") {
        driver().press(Key::f3);
        driver().settle();
    }
    const Noted& at(int number) {
        const Noted* found = bench->stage.reg().find(key + "." + std::to_string(number));
        REQUIRE(found != nullptr);
        return *found;
    }
    std::string said(int number) { return at(number).label + ": " + at(number).value; }
    std::string key;
};

} // namespace

TEST_CASE("the log draws headings, lists, quotes and code, each where it belongs") {
    MarkedLog log("# Springs\nPin **seized**,\n*not* broken\n## Found\n- leaf 4\n    1. worn\n\n"
                  "> Heat\n\n```\ntorque  40\n```\n");
    CHECK(log.said(0) == "heading 1: Springs");
    CHECK(log.said(1) == "paragraph: Pin seized,\nnot broken");
    CHECK(log.said(2) == "heading 2: Found");
    CHECK(log.said(3) == "item: •");
    CHECK(log.said(4) == "paragraph: leaf 4");
    CHECK(log.said(5) == "item: 1.");
    CHECK(log.said(6) == "paragraph: worn");
    CHECK(log.said(7) == "quoted paragraph: Heat");
    CHECK(log.said(8) == "code: torque  40");
    CHECK(log.at(0).rect.height() > log.at(2).rect.height()); // the larger face
    CHECK(log.at(1).rect.height() == doctest::Approx(2 * log.at(2).rect.height())); // two lines
    const float left = log.at(1).rect.left;
    CHECK(log.at(3).rect.left == left);
    CHECK(log.at(4).rect.left > log.at(3).rect.right); // hangs behind its mark
    CHECK(log.at(4).rect.top == log.at(3).rect.top);
    CHECK(log.at(5).rect.left == log.at(4).rect.left);
    CHECK(log.at(6).rect.left > log.at(5).rect.right);
    CHECK(log.at(7).rect.left > left); // behind the bar
    for (int number = 1; number < 9; ++number)
        CHECK(log.at(number).rect.top >= log.at(number - 1).rect.top);
}

TEST_CASE(
    "a long word goes on in the next line, and lists deep within each other stay on the page") {
    MarkedLog log(std::string(600, 'w') +
                  "\n\n- a\n  - b\n    - c\n      - d\n        - e\n"
                  "          - f\n            - " +
                  std::string(300, 'x'));
    const Noted* whole = log.bench->stage.reg().find(log.key);
    REQUIRE(whole != nullptr);
    CHECK(log.at(0).rect.height() > 2 * 16);
    for (int number = 0; number <= 14; ++number) {
        CAPTURE(number);
        CHECK(log.at(number).rect.left >= whole->rect.left);
        CHECK(log.at(number).rect.right <= whole->rect.right + 1);
    }
}

TEST_CASE("strong words, emphasis and code have faces of their own, or the text's where they are "
          "missing") {
    ImFontAtlas atlas;
    const Fonts fonts = build_fonts(atlas, 1.0F);
    REQUIRE(fonts.trouble == "");
    const auto name = [](const ImFont* font) { return std::string(font->GetDebugName()); };
    CHECK(name(fonts.body).starts_with("Cabin-Regular"));
    CHECK(name(fonts.strong).starts_with("Cabin-SemiBold.otf"));
    CHECK(name(fonts.emphasis).starts_with("Cabin-Italic"));
    CHECK(name(fonts.strong_emphasis).starts_with("Cabin-SemiBoldItalic"));
    CHECK(name(fonts.code).starts_with("DejaVuSansMono"));
    for (const ImFont* font : {fonts.strong, fonts.emphasis, fonts.strong_emphasis, fonts.code})
        for (const ImWchar letter : std::vector<ImWchar>{'a', 'Z', '0', '9', 0xD8, 0xB0})
            CHECK(font->FindGlyphNoFallback(letter) != nullptr);
    CHECK(fonts.code->GetCharAdvance('i') == fonts.code->GetCharAdvance('m'));
    const Fonts without = build_fonts(atlas, 1.0F, {}, "/nowhere");
    CHECK(without.strong == without.body);
    CHECK(without.code == without.body);
}
