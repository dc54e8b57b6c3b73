// Where the caret stands in a field of several lines, and putting words there as if they had been
// typed: Ctrl Z takes them back in one go. UI thread only.
#pragma once

#include <cstddef>
#include <optional>
#include <string>

struct ImGuiInputTextCallbackData;

namespace fettle::ui {

struct TextCaret {
    struct Change {
        std::size_t from = 0, to = 0; // bytes of the text that give way
        std::string words;
    };
    std::size_t at = 0; // bytes into the text, as of the last frame in which it was written in
    float x = 0, y = 0; // its foot, pixels of the window
    bool there = false; // it is written in
    std::optional<Change> put; // taken by the field; the caret then stands behind the words
};

// In a field that is written in, in Dear ImGui's callback. Its copy has a byte for each of the
// text.
void put_at_caret(ImGuiInputTextCallbackData& field, const TextCaret::Change& change);
// In a field that is not, such as while the pointer presses elsewhere. `id` as Dear ImGui has it.
void put_at_rest(unsigned id, std::string& text, const TextCaret::Change& change);

} // namespace fettle::ui
