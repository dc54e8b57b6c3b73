// The window's own queue of input. Dear ImGui 1.86 keeps states, not events: a press and a release
// that arrive within one slow frame would cancel each other. The queue hands over only as much as
// one frame can tell apart and keeps the rest for the next. Knows nothing of GLFW: callbacks and
// tests push into it alike. UI thread only.
#pragma once

#include <deque>
#include <string>
#include <utility>
#include <variant>
#include <vector>

struct ImGuiIO;

namespace fettle::ui {

// Codes of the keys we name, as GLFW counts them; letters and digits are their ASCII capitals.
enum class Key : int {
    none = 0,
    space = 32,
    minus = 45,
    slash = 47,
    digit_0 = 48,
    equals = 61,
    a = 65,
    c = 67,
    e = 69,
    f = 70,
    n = 78,
    p = 80,
    s = 83,
    t = 84,
    v = 86,
    w = 87,
    x = 88,
    y = 89,
    z = 90,
    escape = 256,
    enter = 257,
    tab = 258,
    backspace = 259,
    insert = 260,
    del = 261,
    right = 262,
    left = 263,
    down = 264,
    up = 265,
    page_up = 266,
    page_down = 267,
    home = 268,
    end = 269,
    f1 = 290,
    f2 = 291,
    f3 = 292,
    f4 = 293,
    f5 = 294,
    f6 = 295,
    f7 = 296,
    f8 = 297,
    f9 = 298,
    f10 = 299,
    f11 = 300,
    f12 = 301,
    keypad_subtract = 333,
    keypad_add = 334,
    keypad_enter = 335,
    left_shift = 340,
    left_ctrl = 341,
    left_alt = 342,
    left_super = 343,
    right_shift = 344,
    right_ctrl = 345,
    right_alt = 346,
    right_super = 347,
};

struct PointerMove {
    float x = 0, y = 0; // window pixels from the top left
};
struct PointerButton {
    int button = 0; // 0 left, 1 right, 2 middle
    bool down = false;
};
struct Wheel {
    float across = 0, along = 0;
};
struct KeyStroke {
    Key key = Key::none;
    bool down = false;
};
struct Character {
    unsigned code_point = 0;
};
struct FilesDropped {
    std::vector<std::string> paths; // raw bytes as the system gave them
};
struct Focus {
    bool gained = false;
};
using InputEvent =
    std::variant<PointerMove, PointerButton, Wheel, KeyStroke, Character, FilesDropped, Focus>;

class InputQueue {
  public:
    void push(InputEvent event) { events_.push_back(std::move(event)); }
    bool empty() const { return events_.empty(); }

    // Hands over what one frame can tell apart. True: something is left and wants another frame.
    bool feed(ImGuiIO& io);

    // Files dropped since the last call, in order.
    std::vector<std::string> take_dropped() { return std::exchange(dropped_, {}); }

  private:
    std::deque<InputEvent> events_;
    std::vector<std::string> dropped_;
    int settling_ = 0; // frames until letters may follow a key that moved the caret
};

// Tells Dear ImGui where in KeysDown its own keys lie.
void map_keys(ImGuiIO& io);

} // namespace fettle::ui
