#include "ui/frame/keyboard_frame.h"

#include <imgui.h>
#include <imgui_internal.h>

namespace fettle::ui {

void put_keyboard_here() {
    ImGuiContext& g = *ImGui::GetCurrentContext();
    ImGui::SetFocusID(ImGui::GetItemID(), ImGui::GetCurrentWindow());
    g.NavDisableHighlight = false;
    g.NavInitRequest = false; // else a window that has just appeared puts it on its first item
    g.NavInitResultId = 0;
}

void keyboard_frame(const Page& page) {
    if (!ImGui::IsItemFocused() || ImGui::GetCurrentContext()->NavDisableHighlight) return;
    const ImVec2 low = ImGui::GetItemRectMin(), high = ImGui::GetItemRectMax();
    const float inside = page.px(4);
    ImDrawList* pen = ImGui::GetWindowDrawList();
    // A light line inside the dark one: seen on rust as well as on paint.
    pen->AddRect(ImVec2(low.x + inside, low.y + inside), ImVec2(high.x - inside, high.y - inside),
                 page.tone(Role::paper), 0, 0, page.px(3));
    pen->AddRect(low, high, page.tone(Role::blue_steel), 0, 0, page.px(4));
}

bool key_taken(const Chord& chord) {
    if (!pressed(chord)) return false;
    ImGui::NavMoveRequestCancel();
    return true;
}

bool plus_pressed() {
    return pressed({.key = '='}) || pressed({.key = '=', .shift = true});
}

bool just_came_in(int& last_frame) {
    const int frame = ImGui::GetFrameCount();
    const bool came = last_frame + 1 != frame;
    last_frame = frame;
    return came;
}

} // namespace fettle::ui
