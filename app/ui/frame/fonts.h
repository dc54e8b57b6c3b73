// The text face in three sizes, and for marked text in the body's size strong, emphasised and as
// code, set into Dear ImGui's atlas with FreeType.
// Letters are Cabin, figures and fractions Carlito (all of one width, and a nought that is no O),
// everything else DejaVu Sans; all three are matched by the height of their capitals.
#pragma once

#include <cstdint>
#include <set>
#include <string>

struct ImFont;
struct ImFontAtlas;

namespace fettle::ui {

struct Fonts {
    ImFont* body = nullptr;
    ImFont* heading = nullptr;
    ImFont* fine = nullptr;
    // Latin letters and signs alone: what else there is stands in `body`, which each of these is
    // where its face could not be read.
    ImFont* strong = nullptr;
    ImFont* emphasis = nullptr;
    ImFont* strong_emphasis = nullptr;
    ImFont* code = nullptr;
    std::string trouble; // a sentence when a face could not be read; text is still drawn without it
};

// Clears the atlas and fills it for the scale. Never fails: with no face at all, Dear ImGui's own
// bitmap letters stand in and `trouble` says so. Letters that the three faces lack and that are
// among `far` come from Noto Sans CJK, where it is installed. `root` is the folder of the system's
// fonts.
Fonts build_fonts(ImFontAtlas& atlas, float scale, const std::set<std::uint16_t>& far = {},
                  const std::string& root = "/usr/share/fonts");

} // namespace fettle::ui
