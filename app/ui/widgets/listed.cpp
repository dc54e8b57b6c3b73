#include "ui/widgets/listed.h"

#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"

#include <imgui.h>

#include <algorithm>

namespace fettle::ui {
namespace {

float height_of(const Page& page, std::string_view broken, Face face) {
    const InFace in(page, face);
    return ImGui::CalcTextSize(broken.data(), broken.data() + broken.size()).y;
}

void write(const Page& page, ImVec2 at, std::string_view broken, Role role, Face face) {
    const InFace in(page, face);
    write_at(page, at.x, at.y, broken, role);
}

} // namespace

bool listed(Page& page, std::string_view key, const ListedLook& look) {
    const float pad = page.px(Measure::kStep), between = page.px(2);
    const float room = ImGui::GetContentRegionAvail().x;
    const float aside = look.aside.empty() ? 0 : width_of(page, look.aside) + pad;
    const float wide = std::max(1.0F, room - 2 * pad);
    const std::string title = broken_to(page, look.title, std::max(1.0F, wide - aside));
    std::vector<std::string> lines;
    float height = 2 * pad + height_of(page, title, Face::body);
    std::string said;
    for (const SaidLine& line : look.lines) {
        lines.push_back(broken_to(page, line.text, wide, Face::fine));
        height += between + height_of(page, lines.back(), Face::fine);
        said += (said.empty() ? "" : "; ") + line.text;
    }
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const bool pressed = row(page, key, {.label = "", .height = height / page.theme.scale});
    ImVec2 pen(at.x + pad, at.y + pad);
    write(page, pen, title, Role::ink, Face::body);
    if (aside > 0)
        write(page, ImVec2(at.x + room - aside, pen.y), look.aside, Role::pencil, Face::body);
    pen.y += height_of(page, title, Face::body);
    for (std::size_t i = 0; i < lines.size(); ++i) {
        pen.y += between;
        write(page, pen, lines[i], look.lines[i].role, Face::fine);
        pen.y += height_of(page, lines[i], Face::fine);
    }
    note_area(page, std::string(key) + ".words", look.title,
              {at.x, at.y, at.x + room, at.y + height}, said);
    return pressed;
}

} // namespace fettle::ui
