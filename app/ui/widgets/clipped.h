// Blocks of unequal height one below the other in a region that scrolls: those well out of sight
// are not drawn and take the room they took when they were drawn last, or a guess. One height of
// the region above and below what is seen is drawn, so that the keyboard finds its way on. UI
// thread only.
#pragma once

#include "ui/frame/page.h"

#include <imgui.h>

#include <cstdint>
#include <unordered_map>

namespace fettle::ui {

class Clipped {
  public:
    // `draw()` draws the block at the cursor; `guess` is its height in pixels, about. One that is
    // `wanted` is drawn wherever it lies, so that it can bring itself into sight.
    template <class Draw>
    void block(std::int64_t id, float guess, Draw draw, bool wanted = false) {
        forget_at_another_width();
        const auto known = heights_.find(id);
        const float height = known == heights_.end() ? guess : known->second;
        const float top = ImGui::GetCursorScreenPos().y, room = ImGui::GetWindowHeight();
        const float seen = ImGui::GetWindowPos().y;
        if (!wanted && (top + height < seen - room || top > seen + 2 * room)) {
            ImGui::Dummy(ImVec2(1, height - ImGui::GetStyle().ItemSpacing.y));
            return;
        }
        draw();
        heights_[id] = ImGui::GetCursorScreenPos().y - top;
    }

  private:
    void forget_at_another_width() {
        const float width = ImGui::GetContentRegionAvail().x;
        if (width == width_) return;
        width_ = width;
        heights_.clear();
    }

    std::unordered_map<std::int64_t, float> heights_;
    float width_ = 0;
};

} // namespace fettle::ui
