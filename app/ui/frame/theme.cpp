#include "ui/frame/theme.h"

#include <imgui.h>

#include <cmath>

namespace fettle::ui {
namespace {

struct RoleColours {
    Colour day, night;
};

// In the order of Role.
constexpr std::array<RoleColours, kRoleCount> kColours = {{
    {{0xF4, 0xEF, 0xE6}, {0x1C, 0x1A, 0x17}}, // paper
    {{0xFB, 0xF8, 0xF2}, {0x26, 0x23, 0x20}}, // sheet
    {{0x26, 0x22, 0x1C}, {0xEA, 0xE4, 0xD8}}, // ink
    {{0x66, 0x5F, 0x53}, {0xA9, 0xA0, 0x91}}, // pencil
    {{0xCF, 0xC6, 0xB4}, {0x45, 0x40, 0x38}}, // rule
    {{0xA8, 0x36, 0x1A}, {0xEE, 0x7F, 0x5F}}, // red lead
    {{0x7D, 0x5A, 0x10}, {0xD9, 0xAE, 0x4B}}, // brass
    {{0x2A, 0x63, 0x54}, {0x7C, 0xC3, 0xAD}}, // verdigris
    {{0x35, 0x55, 0x73}, {0x93, 0xB7, 0xD9}}, // blue steel
}};

double linear(std::uint8_t channel) {
    const double value = channel / 255.0;
    return value <= 0.04045 ? value / 12.92 : std::pow((value + 0.055) / 1.055, 2.4);
}

double luminance(Colour colour) {
    return 0.2126 * linear(colour.r) + 0.7152 * linear(colour.g) + 0.0722 * linear(colour.b);
}

void set_measures(const Theme& theme, ImGuiStyle& style) {
    const float hair = theme.px(Measure::kHair);
    const float step = theme.px(Measure::kStep);
    style = ImGuiStyle();
    style.WindowPadding = ImVec2(theme.px(Measure::kGap), theme.px(Measure::kGap));
    style.WindowRounding = style.ChildRounding = style.PopupRounding = 0;
    style.FrameRounding = style.GrabRounding = style.ScrollbarRounding = 1;
    style.WindowBorderSize = style.ChildBorderSize = style.FrameBorderSize = 0;
    style.PopupBorderSize = 1;
    style.FramePadding = ImVec2(step, step);
    style.ItemSpacing = ImVec2(step, step);
    style.ItemInnerSpacing = ImVec2(hair, hair);
    style.CellPadding = ImVec2(step, hair);
    style.ScrollbarSize = theme.px(10);
    style.GrabMinSize = theme.px(Measure::kTarget);
    style.DisabledAlpha = 0.55F;
}

} // namespace

Colour colour_of(Role role, Light light) {
    const RoleColours& both = kColours[static_cast<std::size_t>(role)];
    return light == Light::day ? both.day : both.night;
}

double contrast(Colour one, Colour other) {
    const double a = luminance(one), b = luminance(other);
    return (std::fmax(a, b) + 0.05) / (std::fmin(a, b) + 0.05);
}

unsigned Theme::packed(Role role, float opacity) const {
    const Colour c = colour(role);
    return IM_COL32(c.r, c.g, c.b, static_cast<int>(std::lround(opacity * 255.0F)));
}

float Theme::px(float measure) const {
    return std::round(measure * scale);
}

void apply(const Theme& theme, ImGuiStyle& style) {
    set_measures(theme, style);
    const auto tone = [&theme](Role role, float opacity = 1.0F) {
        return ImGui::ColorConvertU32ToFloat4(theme.packed(role, opacity));
    };
    for (ImVec4& colour : style.Colors)
        colour = tone(Role::ink); // whatever we forget stays readable and visible
    ImVec4* c = style.Colors;
    c[ImGuiCol_TextDisabled] = tone(Role::pencil);
    c[ImGuiCol_WindowBg] = tone(Role::paper);
    c[ImGuiCol_ChildBg] = tone(Role::paper, 0);
    c[ImGuiCol_PopupBg] = tone(Role::sheet);
    c[ImGuiCol_Border] = tone(Role::rule);
    c[ImGuiCol_BorderShadow] = tone(Role::paper, 0);
    for (int col : {ImGuiCol_FrameBg, ImGuiCol_FrameBgHovered, ImGuiCol_FrameBgActive})
        c[col] = tone(Role::sheet);
    c[ImGuiCol_ScrollbarBg] = tone(Role::paper, 0);
    c[ImGuiCol_ScrollbarGrab] = tone(Role::rule);
    c[ImGuiCol_ScrollbarGrabHovered] = c[ImGuiCol_ScrollbarGrabActive] = tone(Role::pencil);
    for (int col : {ImGuiCol_Button, ImGuiCol_Header})
        c[col] = tone(Role::paper, 0);
    for (int col : {ImGuiCol_ButtonHovered, ImGuiCol_ButtonActive, ImGuiCol_HeaderHovered,
                    ImGuiCol_HeaderActive})
        c[col] = tone(Role::rule, 0.45F);
    for (int col : {ImGuiCol_Separator, ImGuiCol_SeparatorHovered, ImGuiCol_SeparatorActive})
        c[col] = tone(Role::rule);
    c[ImGuiCol_TextSelectedBg] = tone(Role::blue_steel, 0.30F);
    c[ImGuiCol_DragDropTarget] = tone(Role::red_lead);
    c[ImGuiCol_NavHighlight] = tone(Role::blue_steel);
    c[ImGuiCol_ModalWindowDimBg] = c[ImGuiCol_NavWindowingDimBg] = tone(Role::ink, 0.25F);
}

} // namespace fettle::ui
