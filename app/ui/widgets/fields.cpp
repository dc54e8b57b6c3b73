#include "ui/widgets/fields.h"

#include "ui/frame/scripts.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"

#include <imgui.h>
#include <imgui_internal.h>
#include <imgui_stdlib.h>

#include <algorithm>
#include <utility>

namespace fettle::ui {
namespace {

constexpr float kUnitField = 132; // wide enough for "1 15/16 in"

void label_above(Page& page, const FieldLook& look) {
    if (look.label.empty()) return;
    fine_words(page, look.label);
    if (look.key_hint.empty()) return;
    page.reg.note_key(look.key_hint, look.label);
    ImGui::SameLine(0, page.px(Measure::kGap));
    fine_words(page, look.key_hint);
}

// The line one writes on, as on a drawing office form: thin at rest, strong while written in.
void writing_line(const Page& page, bool active, bool wrong) {
    const ImVec2 low = ImGui::GetItemRectMin(), high = ImGui::GetItemRectMax();
    const Role role = wrong ? Role::red_lead : active ? Role::ink : Role::pencil;
    const float thick = page.px(active || wrong ? 2 : 1);
    ImGui::GetWindowDrawList()->AddRectFilled(ImVec2(low.x, high.y - thick), high,
                                              ImGui::GetColorU32(page.tone(role)));
}

FieldChange change_of_last_item(bool edited) {
    FieldChange change;
    change.edited = edited;
    change.active = ImGui::IsItemActive();
    change.left = ImGui::IsItemDeactivatedAfterEdit();
    change.entered = ImGui::IsItemDeactivated() &&
                     (ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Enter)) ||
                      ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_KeyPadEnter)));
    return change;
}

std::string item_name(std::string_view key) {
    return "##" + std::string(key);
}

// Dear ImGui's fields hold letters in the order in which they were typed; what is written from the
// right is set once more, as it reads.
void as_it_reads(Page& page, std::string_view key, std::string_view text) {
    if (!runs_from_right(text)) return;
    fine_print(page, text);
    note(page, std::string(key) + ".reads", text);
}

void below(Page& page, std::string_view key, std::string_view text, const FieldLook& look) {
    as_it_reads(page, key, text);
    const std::string_view said = !look.error.empty() ? look.error : look.other;
    if (said.empty()) return;
    fine_print(page, said, look.error.empty() ? Role::pencil : Role::red_lead);
    note(page, std::string(key) + (look.error.empty() ? ".other" : ".error"), said);
}

// What belongs to one field stands close together, and a step apart from the next.
class FieldGroup {
  public:
    FieldGroup(const Page& page, const FieldLook& look)
        : room_below_(look.label.empty() ? 0 : page.px(Measure::kHair)) {
        ImGui::BeginDisabled(!look.enabled);
        ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(page.px(Measure::kStep), page.px(3)));
        ImGui::BeginGroup();
    }
    ~FieldGroup() {
        if (room_below_ > 0) ImGui::Dummy(ImVec2(0, room_below_));
        ImGui::PopStyleVar();
        ImGui::EndGroup();
        ImGui::EndDisabled();
    }
    FieldGroup(const FieldGroup&) = delete;
    FieldGroup& operator=(const FieldGroup&) = delete;

  private:
    float room_below_;
};

SoftWrap::Measure width_of_text() {
    return [](std::string_view piece) {
        return ImGui::CalcTextSize(piece.data(), piece.data() + piece.size()).x;
    };
}

void rewrap(ImGuiInputTextCallbackData& edited, SoftWrap& wrap) {
    const std::string_view now(edited.Buf, static_cast<std::size_t>(edited.BufTextLen));
    const std::string broken = wrap.edit(now, width_of_text());
    std::copy(broken.begin(), broken.end(), edited.Buf);
    edited.BufDirty = true;
}

struct WrittenIn {
    SoftWrap& wrap;
    TextCaret* caret;
};

int hear_area(ImGuiInputTextCallbackData* field) {
    auto& [wrap, caret] = *static_cast<WrittenIn*>(field->UserData);
    bool edited = field->EventFlag == ImGuiInputTextFlags_CallbackEdit;
    if (caret && caret->put && !edited) {
        put_at_caret(*field, *std::exchange(caret->put, std::nullopt));
        edited = true;
    }
    if (edited) rewrap(*field, wrap);
    if (caret) caret->at = static_cast<std::size_t>(field->CursorPos);
    return 0;
}

// The letters of the text below the caret are in Dear ImGui's hands while it is written in.
bool put_words_at_rest(const std::string& item, std::string& text, TextCaret* caret) {
    const ImGuiID id = ImGui::GetID(item.c_str());
    if (!caret || !caret->put || ImGui::GetActiveID() == id) return false;
    put_at_rest(id, text, *std::exchange(caret->put, std::nullopt));
    return true;
}

void tell_caret(TextCaret* caret, bool active) {
    if (!caret) return;
    caret->there = active;
    const ImVec2 head = ImGui::GetCurrentContext()->PlatformImePos;
    if (active) caret->x = head.x, caret->y = head.y + ImGui::GetFontSize();
}

// A text that was written before is gone on with at its end, unless the pointer says where.
void go_on_at_end() {
    ImGuiInputTextState* const state = ImGui::GetInputTextState(ImGui::GetItemID());
    const bool came_by_keys = ImGui::IsItemActivated() && !ImGui::IsMouseDown(0);
    if (!came_by_keys || !state || state->Stb.cursor != 0) return;
    state->Stb.cursor = state->Stb.select_start = state->Stb.select_end = state->CurLenW;
    state->CursorFollow = true;
}

// Label, line and what stands below, at the height of a row.
FieldChange labelled_line(Page& page, std::string_view key, std::string& text,
                          const FieldLook& look) {
    label_above(page, look);
    const float line = ImGui::GetFontSize();
    const float pad = std::max(0.0F, (page.px(Measure::kRow) - line) / 2);
    ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, ImVec2(page.px(Measure::kStep), pad));
    ImGui::SetNextItemWidth(look.width > 0 ? page.px(look.width) : -1);
    if (look.take_focus) ImGui::SetKeyboardFocusHere();
    const float inside = ImGui::CalcItemWidth() - 2 * page.px(Measure::kStep);
    const std::string hint = cut_to(page, look.hint, inside);
    const bool edited = ImGui::InputTextWithHint(item_name(key).c_str(), hint.c_str(), &text);
    ImGui::PopStyleVar();
    const FieldChange change = change_of_last_item(edited);
    note(page, key, look.label, text);
    writing_line(page, change.active, look.wrong || !look.error.empty());
    if (!look.unit.empty()) {
        ImGui::SameLine(0, page.px(Measure::kStep));
        words(page, look.unit, Role::pencil);
    }
    return change;
}

} // namespace

FieldChange text_field(Page& page, std::string_view key, std::string& text, const FieldLook& look) {
    const FieldGroup group(page, look);
    const FieldChange change = labelled_line(page, key, text, look);
    below(page, key, text, look);
    return change;
}

FieldChange text_area(Page& page, std::string_view key, std::string& text, int lines,
                      const FieldLook& look, TextCaret* caret) {
    const FieldGroup group(page, look);
    label_above(page, look);
    const std::string item = item_name(key);
    const bool put = put_words_at_rest(item, text, caret);
    const float pad = page.px(Measure::kStep);
    const float width = look.width > 0 ? page.px(look.width) : ImGui::GetContentRegionAvail().x;
    const ImVec2 size(width, ImGui::GetFontSize() * static_cast<float>(lines) + 2 * pad);
    const float inside = width - 2 * pad - ImGui::GetStyle().ScrollbarSize;
    SoftWrap& wrap = page.wraps[std::string(key)];
    if (wrap.width() != inside || wrap.text() != text) wrap.set(text, inside, width_of_text());
    if (look.take_focus) ImGui::SetKeyboardFocusHere();
    const ImVec2 start = ImGui::GetCursorScreenPos();
    // Dear ImGui would take Esc as "as it was before": what was written is not thrown away here.
    const bool escapes = ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape), false);
    const std::string kept = escapes ? wrap.field() : std::string();
    WrittenIn written{wrap, caret};
    bool edited = ImGui::InputTextMultiline(item.c_str(), &wrap.field(), size,
                                            ImGuiInputTextFlags_CallbackEdit |
                                                ImGuiInputTextFlags_CallbackAlways |
                                                ImGuiInputTextFlags_NoHorizontalScroll,
                                            hear_area, &written);
    go_on_at_end();
    if (escapes) {
        wrap.field() = kept;
        edited = false;
    }
    wrap.settle(width_of_text());
    if (edited) text = wrap.text();
    const FieldChange change = change_of_last_item(edited || put);
    tell_caret(caret, change.active);
    note(page, key, look.label, text);
    writing_line(page, change.active, look.wrong || !look.error.empty());
    if (text.empty() && !look.hint.empty() && !change.active)
        write_at(page, start.x + pad, start.y + pad, look.hint, Role::pencil);
    below(page, key, text, look);
    return change;
}

FieldChange field_with_unit(Page& page, std::string_view key, std::string& typed,
                            const FieldLook& look) {
    FieldLook narrow = look;
    if (narrow.width <= 0) narrow.width = kUnitField;
    return text_field(page, key, typed, narrow);
}

FieldChange date_field(Page& page, std::string_view key, std::string& typed,
                       const FieldLook& look) {
    FieldLook narrow = look;
    if (narrow.width <= 0) narrow.width = kUnitField;
    const FieldGroup group(page, look);
    FieldChange change = labelled_line(page, key, typed, narrow);
    Flow flow(page);
    flow.go_on();
    for (const char* day : {"today", "yesterday"}) {
        const ButtonLook quiet{.weight = Weight::quiet};
        flow.place_button(day, quiet);
        if (button(page, std::string(key) + "." + day, day, quiet)) {
            typed = day;
            change.edited = change.left = true;
        }
    }
    below(page, key, typed, narrow);
    return change;
}

} // namespace fettle::ui
