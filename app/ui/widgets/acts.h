// What can be pressed: buttons in three weights, links, tags, rows, check words, choices,
// splitters. Each notes itself in the register under its key. All answer true in the frame they
// were pressed (by pointer, Space or Enter) and can be reached with Tab.
#pragma once

#include "ui/frame/page.h"

#include <functional>
#include <string>
#include <vector>

namespace fettle::ui {

enum class Weight {
    next,  // the act that comes next: red lead, one to a screen
    plain, // other acts: a thin line around
    quiet, // a word alone
};

struct ButtonLook {
    Weight weight = Weight::plain;
    std::string_view key_hint = {}; // shown beside the label: "Ctrl S"
    bool enabled = true;
    float width = 0; // 0: as the words need
};
bool button(Page& page, std::string_view key, std::string_view label, const ButtonLook& look = {});

// A word that leads somewhere: a part, a task, a photo.
bool link(Page& page, std::string_view key, std::string_view label, Face face = Face::body);

// The code of a part as on its card; pressing it leads to the part.
bool tag_chip(Page& page, std::string_view key, std::string_view code);
float tag_width(const Page& page, std::string_view code); // in pixels, in the face that is set

struct RowLook {
    std::string_view label;
    std::string_view under = {}; // fine print below the label
    std::string_view aside = {}; // at the right edge
    Role aside_role = Role::pencil;
    std::string_view key_hint = {};
    bool selected = false;
    float height = Measure::kRow;
};
bool row(Page& page, std::string_view key, const RowLook& look);

// A list that draws only the rows in sight; a driver can ask for a row of it by number.
void rows(Page& page, std::string_view key, int count, float height,
          const std::function<void(int)>& draw);

// The height in pixels of a list that takes what is left of the page: never less than five rows,
// below which the page scrolls.
float list_height(const Page& page);

bool check(Page& page, std::string_view key, std::string_view label, bool& on);

// Something drawn that can be pressed or pointed at, of a size in pixels.
struct AreaPress {
    bool pressed = false;
    bool on = false; // the pointer or the keyboard is on it
};
struct AreaSize {
    float width = 0, height = 0;
};
AreaPress area(Page& page, std::string_view key, std::string_view label, std::string_view value,
               const AreaSize& size);

// The words side by side, the chosen one underlined. True when the choice changed.
bool choice(Page& page, std::string_view key, const std::vector<std::string>& options, int& chosen);

// A line between two columns that can be dragged; all in pixels.
struct Split {
    float& left; // the left column's width
    float least_left = 0, most_left = 0;
    float height = 0;
};
bool splitter(Page& page, std::string_view key, const Split& split);

struct Picture {
    void* texture = nullptr; // Texture::id()
    float width = 0, height = 0;
    float u0 = 0, v0 = 0, u1 = 1, v1 = 1;
    bool selected = false;
};
bool image(Page& page, std::string_view key, std::string_view label, const Picture& picture);

} // namespace fettle::ui
