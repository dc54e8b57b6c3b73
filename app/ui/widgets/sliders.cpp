#include "ui/widgets/sliders.h"

#include "ui/frame/input_queue.h"
#include "ui/frame/theme.h"

#include <imgui.h>
#include <imgui_internal.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace fettle::ui {
namespace {

constexpr int kSides = 8;
constexpr double kKeyStep = 0.05; // of the whole line

// -1, 0 or 1 by ← and →, again and again while one is held; only of what the keyboard is on.
int steps_by_key() {
    if (!ImGui::IsItemFocused() || ImGui::GetCurrentContext()->NavDisableHighlight ||
        ImGui::GetIO().WantTextInput)
        return 0;
    const bool back = ImGui::IsKeyPressed(static_cast<int>(Key::left));
    const bool on = ImGui::IsKeyPressed(static_cast<int>(Key::right));
    if (back || on) ImGui::NavMoveRequestCancel(); // Dear ImGui would move its focus
    return (on ? 1 : 0) - (back ? 1 : 0);
}

// An item that is held by the pointer and reached with Tab, as those of acts.cpp.
void area(std::string_view key, ImVec2 size) {
    ImGuiWindow* window = ImGui::GetCurrentWindow();
    const ImGuiID id = window->GetID(key.data(), key.data() + key.size());
    const ImVec2 low = window->DC.CursorPos;
    const ImRect box(low, ImVec2(low.x + size.x, low.y + size.y));
    ImGui::ItemSize(box);
    if (!ImGui::ItemAdd(box, id, nullptr, ImGuiItemFlags_Inputable)) return;
    bool hovered = false, held = false;
    ImGui::ButtonBehavior(box, id, &hovered, &held);
    if (hovered) ImGui::SetMouseCursor(ImGuiMouseCursor_Hand);
    ImGui::RenderNavHighlight(box, id, ImGuiNavHighlightFlags_TypeThin);
}

const char* end_of(std::string_view text) {
    return text.data() + text.size();
}

float width_of(std::string_view text) {
    return ImGui::CalcTextSize(text.data(), end_of(text)).x;
}

void text_at(float x, float y, unsigned tone, std::string_view text) {
    ImGui::GetWindowDrawList()->AddText(ImVec2(x, y), ImGui::GetColorU32(ImU32(tone)), text.data(),
                                        end_of(text));
}

void draw_line(const Page& page, const ImRect& area, float share, bool awake) {
    ImDrawList* pen = ImGui::GetWindowDrawList();
    const auto tone = [&](Role role) { return ImGui::GetColorU32(ImU32(page.tone(role))); };
    const float half = page.px(5), y = std::round((area.Min.y + area.Max.y) / 2);
    const float left = area.Min.x + half, right = area.Max.x - half;
    const float at = std::round(left + share * (right - left));
    pen->AddRectFilled(ImVec2(left, y), ImVec2(right, y + page.px(1)), tone(Role::pencil));
    pen->AddRectFilled(ImVec2(left, y - page.px(1)), ImVec2(at, y + page.px(2)), tone(Role::ink));
    const ImVec2 low(at - half, y - page.px(9)), high(at + half, y + page.px(10));
    pen->AddRectFilled(low, high, tone(awake ? Role::ink : Role::sheet));
    pen->AddRect(low, high, tone(Role::ink), 0, 0, page.px(1));
}

ImVec2 towards(double degrees, float length) {
    const double radians = degrees * std::numbers::pi / 180;
    return {float(std::sin(radians)) * length, float(-std::cos(radians)) * length};
}

ImVec2 between(ImVec2 from, ImVec2 by) {
    return {from.x + by.x, from.y + by.y};
}

void draw_dial(const Page& page, ImVec2 middle, float reach, double degrees, bool awake) {
    ImDrawList* pen = ImGui::GetWindowDrawList();
    const auto tone = [&](Role role) { return ImGui::GetColorU32(ImU32(page.tone(role))); };
    pen->AddCircleFilled(middle, reach, tone(Role::sheet), 32);
    pen->AddCircle(middle, reach, tone(awake ? Role::ink : Role::pencil), 32, page.px(1));
    for (int side = 0; side < kSides; ++side)
        pen->AddLine(between(middle, towards(45.0 * side, reach - page.px(4))),
                     between(middle, towards(45.0 * side, reach)), tone(Role::pencil), page.px(1));
    // The light comes from the rim.
    const ImVec2 rim = between(middle, towards(degrees, reach));
    pen->AddLine(rim, between(middle, towards(degrees, page.px(4))), tone(Role::ink), page.px(2));
    pen->AddCircleFilled(rim, page.px(5), tone(Role::ink), 16);
}

double held_to_side(double degrees) {
    const int side = int(std::lround(degrees / 45)) % kSides;
    return 45.0 * (side < 0 ? side + kSides : side);
}

} // namespace

Slid slider(Page& page, std::string_view key, double& value, const SliderLook& look) {
    const float width = page.px(look.width);
    ImGui::BeginGroup();
    {
        const InFace fine(page, Face::fine);
        const ImVec2 at = ImGui::GetCursorScreenPos();
        text_at(at.x, at.y, page.tone(Role::pencil), look.label);
        text_at(at.x + width - width_of(look.shown), at.y, page.tone(Role::ink), look.shown);
        ImGui::Dummy(ImVec2(width, ImGui::GetTextLineHeight() - page.px(Measure::kHair)));
    }
    area(key, ImVec2(width, page.px(28)));
    const ImRect box(ImGui::GetItemRectMin(), ImGui::GetItemRectMax());
    const double before = value, whole = look.most - look.least;
    if (ImGui::IsItemActive() && ImGui::IsMouseDown(ImGuiMouseButton_Left)) {
        const float half = page.px(5);
        const double share = (ImGui::GetIO().MousePos.x - box.Min.x - half) /
                             std::max(1.0F, box.GetWidth() - 2 * half);
        value = look.least + whole * std::clamp(share, 0.0, 1.0);
    }
    const bool focused = ImGui::IsItemFocused();
    value = std::clamp(value + steps_by_key() * kKeyStep * whole, look.least, look.most);
    note(page, key, look.label, look.shown);
    draw_line(page, box, float((value - look.least) / whole),
              ImGui::IsItemHovered() || ImGui::IsItemActive());
    ImGui::EndGroup();
    return {value != before, focused};
}

Slid side_dial(Page& page, std::string_view key, std::string_view label, double& degrees) {
    const float side = page.px(56);
    ImGui::BeginGroup();
    area(key, ImVec2(side, side));
    const ImRect box(ImGui::GetItemRectMin(), ImGui::GetItemRectMax());
    const ImVec2 middle = box.GetCenter(), pointer = ImGui::GetIO().MousePos;
    const double before = degrees;
    const float across = pointer.x - middle.x, down = pointer.y - middle.y;
    const bool away = std::hypot(across, down) > page.px(4);
    if (ImGui::IsItemActive() && ImGui::IsMouseDown(ImGuiMouseButton_Left) && away)
        degrees = held_to_side(std::atan2(across, -down) * 180 / std::numbers::pi);
    const bool focused = ImGui::IsItemFocused();
    if (const int steps = steps_by_key(); steps != 0) degrees = held_to_side(degrees + 45 * steps);
    note(page, key, label, side_words(degrees));
    draw_dial(page, middle, side / 2 - page.px(6), degrees,
              ImGui::IsItemHovered() || ImGui::IsItemActive());
    ImGui::SameLine(0, page.px(Measure::kStep));
    ImGui::BeginGroup();
    {
        const InFace fine(page, Face::fine);
        const float line = ImGui::GetTextLineHeight() + page.px(2);
        const ImVec2 at = ImGui::GetCursorScreenPos();
        const float top = std::round(at.y + (side - 2 * line) / 2);
        text_at(at.x, top, page.tone(Role::pencil), label);
        text_at(at.x, top + line, page.tone(Role::ink), side_words(degrees));
        ImGui::Dummy(ImVec2(std::max(width_of(label), width_of("upper right")), side));
    }
    ImGui::EndGroup();
    ImGui::EndGroup();
    return {degrees != before, focused};
}

std::string_view side_words(double degrees) {
    constexpr std::array<std::string_view, kSides> kWords = {
        "above", "upper right", "right", "lower right",
        "below", "lower left",  "left",  "upper left"};
    return kWords[std::size_t(held_to_side(degrees) / 45)];
}

} // namespace fettle::ui
