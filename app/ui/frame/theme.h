// Colours, measures and sizes of the window in one place: named by what they are for, never by
// value. Colour never speaks alone; a word always stands with it.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

struct ImGuiStyle;

namespace fettle::ui {

struct Colour {
    std::uint8_t r = 0, g = 0, b = 0;
    bool operator==(const Colour&) const = default;
};

enum class Role {
    paper,      // ground
    sheet,      // what one writes on: entries, fields, worked sheets
    ink,        // text
    pencil,     // secondary text, units, hints
    rule,       // lines
    red_lead,   // the act that comes next, `stop` notes
    brass,      // cautions, waiting, out
    verdigris,  // ready, within limits, complete
    blue_steel, // what can be followed
};
inline constexpr std::size_t kRoleCount = 9;

// The roles that are used for words, and so must be readable on paper and on sheet.
inline constexpr std::array kTextRoles = {Role::ink,   Role::pencil,    Role::red_lead,
                                          Role::brass, Role::verdigris, Role::blue_steel};

enum class Light { day, night };

Colour colour_of(Role role, Light light);

// WCAG 2 contrast ratio of two colours, 1 to 21, from their relative luminances.
double contrast(Colour one, Colour other);

// Pixels before scaling: the 8-pixel measure and what is built from it.
struct Measure {
    static constexpr float kHair = 4, kStep = 8, kGap = 16, kMargin = 24;
    static constexpr float kRow = 36, kTarget = 32;
    static constexpr float kBody = 16, kHeading = 21, kFine = 13; // em sizes of the text face
};

struct Theme {
    Light light = Light::day;
    float scale = 1.0F; // monitor's content scale times the user's wish

    Colour colour(Role role) const { return colour_of(role, light); }
    unsigned packed(Role role, float opacity = 1.0F) const; // as ImU32
    float px(float measure) const;                          // scaled, to whole pixels
};

// Sets every colour and measure of the style anew; safe to call again after scale or light changed.
void apply(const Theme& theme, ImGuiStyle& style);

} // namespace fettle::ui
