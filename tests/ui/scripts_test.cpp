#include "ui/frame/fonts.h"
#include "ui/frame/headless.h"
#include "ui/frame/page.h"
#include "ui/frame/scripts.h"

#include <doctest/doctest.h>
#include <imgui.h>

using namespace fettle::ui;

TEST_CASE("letters far from Europe's are gathered, signs and broken bytes are not") {
    std::set<std::uint16_t> letters;
    add_far_letters("rear hanger → 3∕8 in, ½ h, Пружина, ✓", letters);
    CHECK(letters.empty());
    add_far_letters("後部 ばね", letters);
    CHECK(letters == std::set<std::uint16_t>{0x5F8C, 0x90E8, 0x3070, 0x306D});
    letters.clear();
    add_far_letters("\xE5\xBE", letters); // cut within a letter
    add_far_letters("\xED\xFF\x41", letters);
    CHECK(letters.empty());
}

// The examples of reordering in UAX 9, "Reordering Resolved Levels" (L2), with Hebrew letters for
// its capitals; the joined forms are those of the Unicode chart of Arabic Presentation Forms-B.
TEST_CASE("a line written from the right is drawn from the left, figures within it as they are") {
    CHECK(as_drawn("spring 42") == "spring 42");
    CHECK(as_drawn("קפיץ") == "ץיפק");
    CHECK(as_drawn("car is קפיץ") == "car is ץיפק");
    CHECK(as_drawn("קפיץ 42") == "42 ץיפק");
    CHECK(as_drawn("קפיץ\nleaf") == "ץיפק\nleaf");
    // BEH, YEH, TEH: initial FE91, medial FEF4, final FE96, from the right.
    CHECK(as_drawn("بيت") == "\xEF\xBA\x96\xEF\xBB\xB4\xEF\xBA\x91");
    // LAM and ALEF are one letter, FEFB, and leave nothing beside it.
    CHECK(as_drawn("لا") == "\xEF\xBB\xBB");
}

// The program's own sentences run from the left, whatever name they begin with.
TEST_CASE("a line can be told to run from the left, and each sign knows where it comes from") {
    CHECK(as_drawn("קפיץ: out") == "out :ץיפק");
    CHECK(as_drawn("קפיץ: out", Reading::from_left) == "ץיפק: out");
    const auto signs = in_drawn_order("a קפ");
    REQUIRE(signs.size() == 4);
    CHECK(signs[0].sign == "a");
    CHECK(signs[2].sign == "פ");
    CHECK(signs[2].from == 4); // behind one letter of one byte, a blank and one of two bytes
    CHECK(signs[3].from == 2);
    CHECK(in_drawn_order("").empty());
}

TEST_CASE("names in Chinese, Japanese and Korean are set once they are to be shown") {
    Headless stage(Theme{}, 800, 600);
    const auto draw = [](Page& page) { words(page, "後部ばね 스프링"); };
    const auto holds = [&](ImWchar letter) {
        return stage.stage().fonts().body->FindGlyphNoFallback(letter) != nullptr;
    };
    CHECK_FALSE(holds(0x5F8C));
    CHECK(stage.frame(draw)); // wants another frame, with the letters
    CHECK_FALSE(stage.frame(draw));
    static constexpr ImWchar kShown[] = {0x5F8C, 0x90E8, 0x3070, 0x306D, 0xC2A4, 0xD504, 0xB9C1};
    for (const ImWchar letter : kShown)
        CHECK(holds(letter));
    CHECK(stage.stage().fonts().trouble.empty());
}

TEST_CASE("a letter that no face holds is asked for once") {
    Headless stage(Theme{}, 800, 600);
    const auto draw = [](Page& page) { words(page, "\xEE\x80\x81"); }; // U+E001, private use
    stage.frame(draw);
    CHECK_FALSE(stage.frame(draw));
}
