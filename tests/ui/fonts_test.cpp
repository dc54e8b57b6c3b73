#include "ui/frame/fonts.h"

#include <doctest/doctest.h>
#include <imgui.h>

#include <set>

using namespace fettle::ui;

TEST_CASE("the three sizes hold the signs a workshop writes, and letters of other languages") {
    ImFontAtlas atlas;
    const Fonts fonts = build_fonts(atlas, 1.0F);
    REQUIRE(fonts.trouble == "");
    static constexpr ImWchar kSigns[] = {
        0x00B0, 0x00B1, 0x00B5, 0x00B7, 0x00D7, 0x00D8, 0x00BD, 0x00BC, 0x00BE, 0x215B, 0x215C,
        0x215D, 0x215E, 0x03BC, 0x2013, 0x2019, 0x2032, 0x2033, 0x2044, 0x2103, 0x2190, 0x2192,
        0x2212, 0x2264, 0x2265, 0x2300, 0x00E9, 0x0142, 0x017D, 0x041C, 0x03A9};
    for (ImFont* font : {fonts.body, fonts.heading, fonts.fine})
        for (const ImWchar sign : kSigns) {
            CAPTURE(sign);
            CHECK(font->FindGlyphNoFallback(sign) != nullptr);
        }
}

TEST_CASE("figures are all of one width in every size") {
    for (const float scale : {1.0F, 1.5F, 2.0F}) {
        ImFontAtlas atlas;
        const Fonts fonts = build_fonts(atlas, scale);
        for (ImFont* font : {fonts.body, fonts.heading, fonts.fine}) {
            std::set<float> widths;
            for (ImWchar digit = '0'; digit <= '9'; ++digit)
                widths.insert(font->GetCharAdvance(digit));
            CHECK(widths.size() == 1);
        }
    }
}

TEST_CASE("fonts that are not there are named, and text can still be drawn") {
    ImFontAtlas atlas;
    const Fonts fonts = build_fonts(atlas, 1.0F, {}, "/nowhere");
    CHECK(fonts.trouble.find("/nowhere/opentype/cabin/Cabin-Regular.otf") != std::string::npos);
    CHECK(fonts.trouble.find("fonts-cabin") != std::string::npos);
    REQUIRE(fonts.body != nullptr);
    CHECK(fonts.body->FindGlyphNoFallback('A') != nullptr);
}
