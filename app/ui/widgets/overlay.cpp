#include "ui/widgets/overlay.h"

#include <imgui.h>

namespace fettle::ui {

Overlay::Overlay(Page& page, const char* name, const OverlayLook& look) {
    constexpr ImGuiWindowFlags kFlags =
        ImGuiWindowFlags_NoTitleBar | ImGuiWindowFlags_NoResize | ImGuiWindowFlags_NoMove |
        ImGuiWindowFlags_NoCollapse | ImGuiWindowFlags_NoSavedSettings |
        ImGuiWindowFlags_NoFocusOnAppearing | ImGuiWindowFlags_AlwaysAutoResize;
    const float pivot = look.from_below ? 1.0F : 0.0F;
    ImGui::SetNextWindowPos(ImVec2(look.x, look.y), ImGuiCond_Always, ImVec2(pivot, pivot));
    ImGui::SetNextWindowSizeConstraints(ImVec2(look.width, 0),
                                        ImVec2(look.width, look.most_height));
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2(page.px(Measure::kGap), page.px(12)));
    ImGui::PushStyleVar(ImGuiStyleVar_WindowBorderSize, page.px(1));
    ImGui::PushStyleColor(ImGuiCol_WindowBg, page.tone(Role::sheet));
    ImGui::PushStyleColor(ImGuiCol_Border, page.tone(Role::ink));
    ImGui::Begin(name, nullptr, kFlags);
    ImGui::PopStyleColor(2);
    ImGui::PopStyleVar(2);
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing,
                        ImVec2(page.px(Measure::kStep), page.px(Measure::kHair)));
    const bool inside = ImGui::IsWindowHovered(ImGuiHoveredFlags_RootAndChildWindows |
                                               ImGuiHoveredFlags_AllowWhenBlockedByActiveItem);
    has_caret_ = ImGui::IsWindowFocused();
    pressed_beside_ =
        ImGui::IsMouseClicked(ImGuiMouseButton_Left) && !inside && !ImGui::IsWindowAppearing();
}

Overlay::~Overlay() {
    ImGui::PopStyleVar();
    ImGui::End();
}

} // namespace fettle::ui
