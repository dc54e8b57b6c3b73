#include "ui/widgets/acts.h"

#include "ui/frame/input_queue.h"
#include "ui/frame/scripts.h"
#include "ui/widgets/flow.h"

#include <imgui.h>
#include <imgui_internal.h>

#include <algorithm>
#include <cmath>

namespace fettle::ui {
namespace {

struct Pressing {
    bool pressed = false, hovered = false, held = false, focused = false, shown = true;
    ImVec2 low, high;

    ImDrawList* pen() const { return ImGui::GetWindowDrawList(); }
};

const char* end_of(std::string_view text) {
    return text.data() + text.size();
}

ImVec2 size_of(std::string_view text) {
    const std::string drawn = as_drawn(text);
    return ImGui::CalcTextSize(drawn.data(), end_of(drawn), false);
}

// The one item behind every act: takes part in Tab order and answers to Enter as well as Space.
Pressing press_area(std::string_view key, ImVec2 size,
                    ImGuiItemFlags flags = ImGuiItemFlags_Inputable) {
    Pressing act;
    ImGuiWindow* window = ImGui::GetCurrentWindow();
    const ImGuiID id = window->GetID(key.data(), end_of(key));
    act.low = window->DC.CursorPos;
    act.high = ImVec2(act.low.x + size.x, act.low.y + size.y);
    const ImRect area(act.low, act.high);
    ImGui::ItemSize(area);
    act.shown = ImGui::ItemAdd(area, id, nullptr, flags);
    if (!act.shown) return act;
    act.pressed = ImGui::ButtonBehavior(area, id, &act.hovered, &act.held);
    act.focused = ImGui::GetCurrentContext()->NavId == id && ImGui::IsWindowFocused();
    const bool enabled = (ImGui::GetItemFlags() & ImGuiItemFlags_Disabled) == 0;
    if (act.focused && enabled && !ImGui::GetIO().WantTextInput &&
        (ImGui::IsKeyPressed(static_cast<int>(Key::enter), false) ||
         ImGui::IsKeyPressed(static_cast<int>(Key::keypad_enter), false)))
        act.pressed = true;
    if (act.hovered) ImGui::SetMouseCursor(ImGuiMouseCursor_Hand);
    if ((flags & ImGuiItemFlags_NoNav) == 0)
        ImGui::RenderNavHighlight(area, id, ImGuiNavHighlightFlags_TypeThin);
    return act;
}

void underline(const Page& page, const Pressing& act, float left, float right, float y, Role role,
               float thick = 1) {
    act.pen()->AddRectFilled(ImVec2(left, y), ImVec2(right, y + page.px(thick)),
                             ImGui::GetColorU32(page.tone(role)));
}

void dress(const Page& page, const Pressing& act, Weight weight) {
    ImDrawList* pen = act.pen();
    const float thin = page.px(1);
    if (weight == Weight::next) {
        pen->AddRectFilled(act.low, act.high, ImGui::GetColorU32(page.tone(Role::red_lead)), 1);
        if (act.hovered || act.held) // a second line inside, as on a tag card
            pen->AddRect(ImVec2(act.low.x + 3 * thin, act.low.y + 3 * thin),
                         ImVec2(act.high.x - 3 * thin, act.high.y - 3 * thin),
                         ImGui::GetColorU32(page.tone(Role::paper)), 0, 0, thin);
    } else if (weight == Weight::plain) {
        if (act.hovered || act.held)
            pen->AddRectFilled(act.low, act.high, ImGui::GetColorU32(page.tone(Role::sheet)), 1);
        pen->AddRect(act.low, act.high,
                     ImGui::GetColorU32(page.tone(act.hovered ? Role::ink : Role::pencil)), 1, 0,
                     act.held ? 2 * thin : thin);
    }
}

} // namespace

bool button(Page& page, std::string_view key, std::string_view label, const ButtonLook& look) {
    const bool quiet = look.weight == Weight::quiet;
    const float pad = page.px(quiet ? Measure::kHair : Measure::kGap);
    const ImVec2 text = size_of(label);
    float hint_width = 0;
    if (!look.key_hint.empty()) {
        const InFace fine(page, Face::fine);
        hint_width = size_of(look.key_hint).x + page.px(Measure::kStep);
    }
    const float height = page.px(quiet ? Measure::kTarget : Measure::kRow);
    const float width = std::max(text.x + hint_width + 2 * pad, page.px(look.width));
    ImGui::BeginDisabled(!look.enabled);
    const Pressing act = press_area(key, ImVec2(width, height));
    note(page, key, label);
    page.reg.note_key(look.key_hint, label);
    if (act.shown) {
        dress(page, act, look.weight);
        const Role ink = look.weight == Weight::next ? Role::paper : Role::ink;
        const float x = act.low.x + (width - text.x - hint_width) / 2;
        const float y = std::round(act.low.y + (height - text.y) / 2);
        write_at(page, x, y, label, ink);
        if (quiet)
            underline(page, act, x, x + text.x, y + text.y, act.hovered ? Role::ink : Role::rule);
        if (hint_width > 0) {
            const InFace fine(page, Face::fine);
            const float line = size_of(look.key_hint).y;
            write_at(page, x + text.x + page.px(Measure::kStep), act.low.y + (height - line) / 2,
                     look.key_hint, look.weight == Weight::next ? Role::paper : Role::pencil);
        }
    }
    ImGui::EndDisabled();
    return act.pressed;
}

bool link(Page& page, std::string_view key, std::string_view label, Face face) {
    const InFace in(page, face);
    const std::string said = cut_to_page(page, label, face);
    const ImVec2 text = size_of(said);
    const Pressing act = press_area(key, ImVec2(text.x, page.px(Measure::kTarget)));
    note(page, key, label);
    if (!act.shown) return false;
    const float y = std::round(act.low.y + (page.px(Measure::kTarget) - text.y) / 2);
    write_at(page, act.low.x, y, said, Role::blue_steel);
    if (act.hovered) underline(page, act, act.low.x, act.high.x, y + text.y, Role::blue_steel);
    return act.pressed;
}

AreaPress area(Page& page, std::string_view key, std::string_view label, std::string_view value,
               const AreaSize& size) {
    const Pressing act = press_area(key, ImVec2(size.width, size.height));
    note(page, key, label, value);
    const bool by_keys = act.focused && !ImGui::GetCurrentContext()->NavDisableHighlight;
    if (act.hovered || by_keys)
        ImGui::GetWindowDrawList()->AddRectFilled(act.low, act.high,
                                                  page.tone(Role::pencil, 0.16F));
    return {act.pressed, act.hovered || by_keys};
}

float tag_width(const Page& page, std::string_view code) {
    return size_of(code).x + page.px(Measure::kGap + Measure::kStep);
}

bool tag_chip(Page& page, std::string_view key, std::string_view code) {
    const ImVec2 text = size_of(code);
    const float height = page.px(Measure::kTarget);
    const float hole = page.px(Measure::kGap); // room for the eyelet the string goes through
    const Pressing act = press_area(key, ImVec2(tag_width(page, code), height));
    note(page, key, code);
    if (!act.shown) return false;
    const float inset = page.px(Measure::kHair), corner = page.px(6);
    const ImVec2 low(act.low.x, act.low.y + inset), high(act.high.x, act.high.y - inset);
    const ImVec2 outline[] = {{low.x + corner, low.y},  {high.x, low.y},
                              {high.x, high.y},         {low.x + corner, high.y},
                              {low.x, high.y - corner}, {low.x, low.y + corner}};
    const unsigned line =
        ImGui::GetColorU32(page.tone(act.hovered ? Role::blue_steel : Role::pencil));
    act.pen()->AddConvexPolyFilled(outline, IM_ARRAYSIZE(outline),
                                   ImGui::GetColorU32(page.tone(Role::sheet)));
    act.pen()->AddPolyline(outline, IM_ARRAYSIZE(outline), line, ImDrawFlags_Closed, page.px(1));
    act.pen()->AddCircle(ImVec2(low.x + hole / 2, (low.y + high.y) / 2), page.px(2.5F), line, 12);
    write_at(page, act.low.x + hole, act.low.y + (height - text.y) / 2, code, Role::blue_steel);
    return act.pressed;
}

bool row(Page& page, std::string_view key, const RowLook& look) {
    const float width = std::max(1.0F, ImGui::GetContentRegionAvail().x);
    const Pressing act = press_area(key, ImVec2(width, page.px(look.height)));
    note(page, key, look.label, look.aside);
    page.reg.note_key(look.key_hint, look.label);
    if (!act.shown) return false;
    ImDrawList* pen = act.pen();
    if (look.selected || act.hovered) pen->AddRectFilled(act.low, act.high, page.tone(Role::sheet));
    if (look.selected)
        pen->AddRectFilled(act.low, ImVec2(act.low.x + page.px(3), act.high.y),
                           page.tone(Role::ink));
    const float pad = page.px(12), middle = (act.low.y + act.high.y) / 2;
    const ImVec2 text = size_of(look.label), aside = size_of(look.aside);
    const float beside = look.aside.empty() ? 0 : aside.x + pad;
    float right = act.high.x - pad;
    if (!look.key_hint.empty()) {
        const InFace fine(page, Face::fine);
        const ImVec2 hint = size_of(look.key_hint);
        const float column = std::max(hint.x, page.px(Measure::kMargin)) + pad;
        if (text.x + beside + column + 2 * pad <= width) { // the key goes before the label is cut
            write_at(page, right - hint.x, middle - hint.y / 2, look.key_hint, Role::pencil);
            right -= column;
        }
    }
    if (!look.aside.empty())
        write_at(page, right - aside.x, middle - aside.y / 2, look.aside, look.aside_role);
    right -= beside;
    pen->PushClipRect(act.low, ImVec2(std::max(act.low.x, right), act.high.y), true);
    const float lift = look.under.empty() ? text.y / 2 : text.y;
    write_at(page, act.low.x + pad, middle - lift,
             cut_to(page, look.label, right - act.low.x - pad), Role::ink);
    if (!look.under.empty()) {
        const InFace fine(page, Face::fine);
        write_at(page, act.low.x + pad, middle + page.px(1), look.under, Role::pencil);
    }
    pen->PopClipRect();
    return act.pressed;
}

void rows(Page& page, std::string_view key, int count, float height,
          const std::function<void(int)>& draw) {
    const float pitch = page.px(height);
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(page.px(Measure::kStep), 0));
    const float start = ImGui::GetCursorPosY();
    if (const auto wanted = page.reg.take_row(key))
        ImGui::SetScrollY(start + (static_cast<float>(*wanted) + 0.5F) * pitch -
                          ImGui::GetWindowHeight() / 2);
    ImGuiListClipper clipper;
    clipper.Begin(count, pitch);
    while (clipper.Step())
        for (int i = clipper.DisplayStart; i < clipper.DisplayEnd; ++i)
            draw(i);
    ImGui::PopStyleVar();
}

float list_height(const Page& page) {
    return std::max(ImGui::GetContentRegionAvail().y, 5 * page.px(Measure::kRow));
}

bool check(Page& page, std::string_view key, std::string_view label, bool& on) {
    const ImVec2 text = size_of(label);
    const float height = page.px(Measure::kTarget), box = page.px(Measure::kGap);
    const Pressing act = press_area(key, ImVec2(box + page.px(Measure::kStep) + text.x, height));
    if (act.pressed) on = !on;
    note(page, key, label, on ? "yes" : "no");
    if (!act.shown) return act.pressed;
    const float top = std::round(act.low.y + (height - box) / 2);
    const ImVec2 low(act.low.x, top), high(act.low.x + box, top + box);
    act.pen()->AddRectFilled(low, high, page.tone(Role::sheet));
    act.pen()->AddRect(low, high, page.tone(act.hovered ? Role::ink : Role::pencil), 0, 0,
                       page.px(1));
    if (on) { // a tick as one makes it with a pencil
        const ImVec2 stroke[] = {{low.x + box * 0.2F, low.y + box * 0.55F},
                                 {low.x + box * 0.42F, low.y + box * 0.8F},
                                 {low.x + box * 0.85F, low.y + box * 0.18F}};
        act.pen()->AddPolyline(stroke, 3, page.tone(Role::ink), 0, page.px(2));
    }
    write_at(page, high.x + page.px(Measure::kStep), act.low.y + (height - text.y) / 2, label,
             Role::ink);
    return act.pressed;
}

bool choice(Page& page, std::string_view key, const std::vector<std::string>& options,
            int& chosen) {
    bool changed = false;
    const float line_end = ImGui::GetCursorScreenPos().x + ImGui::GetContentRegionAvail().x;
    for (int i = 0; i < static_cast<int>(options.size()); ++i) {
        const std::string& option = options[i];
        const std::string option_key = std::string(key) + "." + std::to_string(i);
        const ImVec2 text = size_of(option);
        if (i > 0 && ImGui::GetItemRectMax().x + page.px(Measure::kGap) + text.x < line_end)
            ImGui::SameLine(0, page.px(Measure::kGap));
        const float height = page.px(Measure::kTarget);
        const Pressing act = press_area(option_key, ImVec2(text.x, height));
        if (act.pressed && chosen != i) {
            chosen = i;
            changed = true;
        }
        const bool is_chosen = chosen == i;
        note(page, option_key, option, is_chosen ? "chosen" : "");
        if (!act.shown) continue;
        const float y = std::round(act.low.y + (height - text.y) / 2);
        write_at(page, act.low.x, y, option, is_chosen || act.hovered ? Role::ink : Role::pencil);
        if (is_chosen)
            underline(page, act, act.low.x, act.high.x, y + text.y + page.px(2), Role::ink, 2);
    }
    return changed;
}

bool splitter(Page& page, std::string_view key, const Split& split) {
    const Pressing act = press_area(
        key, ImVec2(page.px(Measure::kStep), std::max(1.0F, split.height)), ImGuiItemFlags_NoNav);
    note(page, key, "divide");
    const bool awake = act.hovered || act.held;
    if (awake) ImGui::SetMouseCursor(ImGuiMouseCursor_ResizeEW);
    const float x = std::round((act.low.x + act.high.x) / 2);
    act.pen()->AddRectFilled(ImVec2(x, act.low.y), ImVec2(x + page.px(awake ? 2 : 1), act.high.y),
                             page.tone(awake ? Role::pencil : Role::rule));
    if (!act.held) return false;
    const float before = split.left;
    split.left = std::clamp(before + ImGui::GetIO().MouseDelta.x, split.least_left,
                            std::max(split.least_left, split.most_left));
    return split.left != before;
}

bool image(Page& page, std::string_view key, std::string_view label, const Picture& picture) {
    const Pressing act = press_area(key, ImVec2(picture.width, picture.height));
    note(page, key, label, picture.selected ? "chosen" : "");
    if (!act.shown) return false;
    ImDrawList* pen = act.pen();
    if (picture.texture)
        pen->AddImage(picture.texture, act.low, act.high, ImVec2(picture.u0, picture.v0),
                      ImVec2(picture.u1, picture.v1));
    else
        pen->AddRectFilled(act.low, act.high, page.tone(Role::rule, 0.5F));
    if (picture.selected || act.hovered)
        pen->AddRect(act.low, act.high, page.tone(picture.selected ? Role::red_lead : Role::pencil),
                     0, 0, page.px(picture.selected ? 3 : 1));
    return act.pressed;
}

} // namespace fettle::ui
