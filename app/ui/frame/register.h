// What is on the screen in this frame, by stable dotted key: filled by the widget layer, read by
// tests and by whoever must point at a widget. Keys never change with the words shown. Rows that a
// long list skips are not drawn and so not noted: ask_row() brings them in.
#pragma once

#include "ui/frame/scripts.h"

#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace fettle::ui {

struct Rect {
    float left = 0, top = 0, right = 0, bottom = 0;

    float width() const { return right - left; }
    float height() const { return bottom - top; }
    bool empty() const { return right <= left || bottom <= top; }
    Rect within(const Rect& other) const;
    bool operator==(const Rect&) const = default;
};

struct Noted {
    std::string key;
    std::string label;
    std::string value;  // what a field, choice or figure shows
    std::string window; // Dear ImGui's name of the window it stands in
    Rect rect;
    Rect clip;
    bool enabled = true;
    int frames = 1; // how many frames in a row it has stood at the same place

    Rect shown() const { return rect.within(clip); }
    bool visible() const { return !shown().empty(); }
};

// A key and what it does here, by what the screen says beside its buttons.
struct KeyNoted {
    std::string keys; // "Ctrl F"
    std::string act;
    std::string part; // of the room, as it was named: "the entry"
    bool operator==(const KeyNoted&) const = default;
};

class Register {
  public:
    void begin_frame();
    void note(Noted noted);
    // Keys noted from here on belong to this part of the room.
    void name_part(std::string part) { part_ = std::move(part); }
    void note_key(std::string_view keys, std::string_view act); // none when `keys` is empty
    // In the order of drawing, each once.
    const std::vector<KeyNoted>& noted_keys() const { return keys_noted_; }

    // Text that is drawn without being noted.
    void see(std::string_view text) { add_far_letters(text, far_letters_); }
    // Letters in what was noted and seen, since the register was made, that the usual faces lack.
    const std::set<std::uint16_t>& far_letters() const { return far_letters_; }

    const Noted* find(std::string_view key) const;
    std::vector<std::string> keys() const; // sorted
    // Keys used by two widgets of one frame: a mistake in the screen.
    const std::vector<std::string>& used_twice() const { return used_twice_; }

    // Wishes of a driver: scroll this widget, or this row of that list, into sight.
    void ask_reveal(std::string key) { reveal_ = std::move(key); }
    bool takes_reveal(std::string_view key);
    void ask_row(std::string list, int row) { row_ = RowWish{std::move(list), row}; }
    std::optional<int> take_row(std::string_view list);

  private:
    struct RowWish {
        std::string list;
        int row = 0;
    };
    struct Hash {
        using is_transparent = void;
        std::size_t operator()(std::string_view text) const {
            return std::hash<std::string_view>{}(text);
        }
    };
    using Notes = std::unordered_map<std::string, Noted, Hash, std::equal_to<>>;
    Notes now_, before_;
    std::vector<std::string> used_twice_;
    std::vector<KeyNoted> keys_noted_;
    std::string part_;
    std::set<std::uint16_t> far_letters_;
    std::string reveal_;
    std::optional<RowWish> row_;
};

} // namespace fettle::ui
