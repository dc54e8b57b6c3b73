#include "ui/frame/headless.h"

#include <imgui.h>

namespace fettle::ui {

Headless::Headless(Theme theme, float width, float height)
    : stage_(theme), width_(width), height_(height) {
    // Any number but nought will do: nobody paints with it.
    ImGui::GetIO().Fonts->SetTexID(this);
    // As the window's painter does: lists of more corners than 16 bits count go on.
    ImGui::GetIO().BackendFlags |= ImGuiBackendFlags_RendererHasVtxOffset;
}

bool Headless::frame(const std::function<void(Page&)>& draw, float seconds) {
    return stage_.frame(width_, height_, seconds, draw);
}

void Headless::resize(float width, float height) {
    width_ = width;
    height_ = height;
}

} // namespace fettle::ui
