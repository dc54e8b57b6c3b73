#include "ui/widgets/flow.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

namespace fettle::ui {

void words_beside(Page& page, std::string_view text, Role role, Face face) {
    const InFace in(page, face);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const std::string said = cut_to_page(page, text, face);
    const float height = page.px(Measure::kTarget);
    write_at(page, at.x, std::round(at.y + (height - ImGui::GetFontSize()) / 2), said, role);
    ImGui::Dummy(ImVec2(width_of(page, said, face), height));
}

std::vector<std::size_t> line_ends(const Page& page, std::size_t count, float spacing,
                                   const std::function<float(std::size_t)>& width) {
    const float room = ImGui::GetContentRegionAvail().x;
    std::vector<std::size_t> ends;
    float used = 0;
    for (std::size_t i = 0; i < count; ++i) {
        const float more = width(i), beside = used + page.px(spacing) + more;
        const bool first = i == 0;
        if (!first && beside > room) ends.push_back(i);
        used = first || beside > room ? more : beside;
    }
    if (count > 0) ends.push_back(count);
    return ends;
}

Flow::Flow(const Page& page, float spacing)
    : page_(page),
      spacing_(page.px(spacing)),
      line_end_(ImGui::GetCursorScreenPos().x + ImGui::GetContentRegionAvail().x) {}

bool Flow::fits(float width) const {
    return !first_ && ImGui::GetItemRectMax().x + spacing_ + width <= line_end_;
}

void Flow::place(float width) {
    if (fits(width)) ImGui::SameLine(0, spacing_);
    first_ = false;
}

float Flow::width_of_button(std::string_view label, const ButtonLook& look) const {
    const float pad = look.weight == Weight::quiet ? Measure::kHair : Measure::kGap;
    float width = width_of(page_, label) + 2 * page_.px(pad);
    if (!look.key_hint.empty())
        width += width_of(page_, look.key_hint, Face::fine) + page_.px(Measure::kStep);
    return std::max(width, page_.px(look.width));
}

void Flow::place_button(std::string_view label, const ButtonLook& look) {
    place(width_of_button(label, look));
}

bool Flow::fits_button(std::string_view label, const ButtonLook& look) const {
    return first_ || fits(width_of_button(label, look));
}

void Flow::place_check(std::string_view label) {
    place(width_of(page_, label) + page_.px(Measure::kMargin + Measure::kStep));
}

void Flow::place_link(std::string_view label, Face face) {
    place(width_of(page_, label, face));
}

void Flow::place_words(std::string_view text, Face face) {
    place(width_of(page_, text, face));
}

} // namespace fettle::ui
