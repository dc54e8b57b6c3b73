#include "ui/frame/text_caret.h"

#include <imgui.h>
#include <imgui_internal.h>

#include <algorithm>
#include <string_view>

namespace fettle::ui {
namespace {

int letters_in(std::string_view text) {
    return ImTextCountCharsFromUtf8(text.data(), text.data() + text.size());
}

// Dear ImGui 1.86 keeps what was typed for Ctrl Z, but not what a callback changes: the steps that
// it has would then put letters back in wrong places. So this adds the step that is missing.
void note_for_undo(ImGuiInputTextState& field, std::string_view text,
                   const TextCaret::Change& change) {
    auto& undo = field.Stb.undostate;
    undo.redo_point = STB_TEXTEDIT_UNDOSTATECOUNT;
    undo.redo_char_point = STB_TEXTEDIT_UNDOCHARCOUNT;
    const int gone = letters_in(text.substr(change.from, change.to - change.from));
    if (undo.undo_point >= STB_TEXTEDIT_UNDOSTATECOUNT ||
        undo.undo_char_point + gone >
            STB_TEXTEDIT_UNDOCHARCOUNT) { // full: the way back begins here
        undo.undo_point = 0;
        undo.undo_char_point = 0;
    }
    auto& step = undo.undo_rec[undo.undo_point++];
    step.where = letters_in(text.substr(0, change.from));
    step.insert_length = gone;
    step.delete_length = letters_in(change.words);
    step.char_storage = gone > 0 ? undo.undo_char_point : -1;
    ImWchar* const kept = undo.undo_char + undo.undo_char_point;
    const std::string said(text.substr(change.from, change.to - change.from));
    ImVector<ImWchar> letters;
    letters.resize(gone + 1);
    ImTextStrFromUtf8(letters.Data, letters.Size, said.data(), said.data() + said.size());
    std::copy_n(letters.Data, gone, kept);
    std::replace(kept, kept + gone, ImWchar('\n'), ImWchar(' ')); // where the field broke a line
    undo.undo_char_point += gone;
}

} // namespace

void put_at_caret(ImGuiInputTextCallbackData& field, const TextCaret::Change& change) {
    const std::string_view text(field.Buf, static_cast<std::size_t>(field.BufTextLen));
    note_for_undo(ImGui::GetCurrentContext()->InputTextState, text, change);
    field.DeleteChars(static_cast<int>(change.from), static_cast<int>(change.to - change.from));
    field.InsertChars(static_cast<int>(change.from), change.words.data(),
                      change.words.data() + change.words.size());
    field.CursorPos = static_cast<int>(change.from + change.words.size());
    field.SelectionStart = field.SelectionEnd = field.CursorPos;
}

void put_at_rest(unsigned id, std::string& text, const TextCaret::Change& change) {
    ImGuiInputTextState* const field = ImGui::GetInputTextState(id);
    if (field) note_for_undo(*field, text, change);
    text.replace(change.from, change.to - change.from, change.words);
    if (!field) return;
    auto& stb = field->Stb;
    stb.cursor = letters_in(std::string_view(text).substr(0, change.from + change.words.size()));
    stb.select_start = stb.select_end = stb.cursor;
    field->CursorFollow = true;
}

} // namespace fettle::ui
