// What every widget and view draws with: theme, fonts and the register, passed down by reference.
// Made anew for each frame by the Scene. The words functions set plain text; nothing here is
// clickable.
#pragma once

#include "ui/frame/fonts.h"
#include "ui/frame/register.h"
#include "ui/frame/soft_wrap.h"
#include "ui/frame/theme.h"

#include <map>
#include <string>
#include <string_view>

namespace fettle::ui {

struct Page {
    const Theme& theme;
    const Fonts& fonts;
    Register& reg;
    std::map<std::string, SoftWrap, std::less<>>& wraps; // of the fields of several lines, by key

    float px(float measure) const { return theme.px(measure); }
    unsigned tone(Role role, float opacity = 1.0F) const { return theme.packed(role, opacity); }
};

enum class Face { body, heading, fine };

// Sets the font for a scope.
class InFace {
  public:
    InFace(const Page& page, Face face);
    ~InFace();
    InFace(const InFace&) = delete;
    InFace& operator=(const InFace&) = delete;
};

// The width of a line that is pleasant to read: about 80 characters, or what is left of the window.
float reading_width(const Page& page);

void heading(Page& page, std::string_view text);
void body(Page& page, std::string_view text, Role role = Role::ink); // wrapped at the reading width
void fine_print(Page& page, std::string_view text, Role role = Role::pencil); // wrapped likewise
// One line, cut with … where the page ends.
void words(Page& page, std::string_view text, Role role = Role::ink);
void fine_words(Page& page, std::string_view text, Role role = Role::pencil);
// The text with line ends where it would be wider than `width`, at blanks alone.
std::string broken_to(const Page& page, std::string_view text, float width, Face face = Face::body);
// The width of a line in pixels.
float width_of(const Page& page, std::string_view text, Face face = Face::body);
// The text cut with … where it would be wider than `width`.
std::string cut_to(const Page& page, std::string_view text, float width, Face face = Face::body);
// The same where it would leave the page: for what stands at the cursor.
std::string cut_to_page(const Page& page, std::string_view text, Face face = Face::body);
// Lines in the face that is set, at a place of the window in pixels, rounded to whole ones; beside
// what is laid out.
// Every word that is drawn by hand goes this way: it may be a name written from the right.
void write_at(const Page& page, float x, float y, std::string_view text, Role role = Role::ink);
void rule(Page& page);                                // a line across
void gap(Page& page, float measure = Measure::kStep); // room downwards

// Notes the item drawn last under the key.
void note(Page& page, std::string_view key, std::string_view label, std::string_view value = {});
// Notes a rectangle that is no item of its own.
void note_area(Page& page, std::string_view key, std::string_view label, const Rect& area,
               std::string_view value = {});

// Pressed in this frame, outside of text fields unless `also_in_fields`.
struct Chord {
    int key = 0; // code of Key, or an ASCII capital
    bool ctrl = false, shift = false, alt = false;
};
bool pressed(const Chord& chord, bool also_in_fields = false);
std::string words_of(const Chord& chord); // "Ctrl F", "F9"

} // namespace fettle::ui
