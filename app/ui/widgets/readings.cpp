#include "ui/widgets/readings.h"

#include "ui/widgets/acts.h"

#include <imgui.h>

#include <algorithm>

namespace fettle::ui {
namespace {

constexpr float kLabelColumn = 176, kFigureColumn = 112;

void right_aligned(Page& page, float right, std::string_view text, Role role) {
    const float width = ImGui::CalcTextSize(text.data(), text.data() + text.size()).x;
    ImGui::SameLine(right - width);
    words(page, text, role);
}

struct Voice {
    Role role;
    const char* word;
};

Voice voice_of(Tell tell) {
    switch (tell) {
    case Tell::caution:
        return {Role::brass, "caution"};
    case Tell::stop:
        return {Role::red_lead, "stop"};
    case Tell::ready:
        return {Role::verdigris, "ready"};
    case Tell::info:
        break;
    }
    return {Role::pencil, "note"};
}

} // namespace

void figure(Page& page, std::string_view key, const FigureLook& look) {
    ImGui::BeginGroup();
    const float start = ImGui::GetCursorPosX();
    words(page, look.label, Role::pencil);
    const float metric_right = start + page.px(kLabelColumn + kFigureColumn);
    right_aligned(page, metric_right, look.metric, look.role);
    if (!look.inch.empty())
        right_aligned(page, metric_right + page.px(kFigureColumn), look.inch, Role::pencil);
    ImGui::EndGroup();
    std::string value(look.metric);
    if (!look.inch.empty()) value.append("  ").append(look.inch);
    note(page, key, look.label, value);
}

void notice(Page& page, std::string_view key, Tell tell, std::string_view sentence) {
    const Voice voice = voice_of(tell);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float bar = page.px(3), inset = page.px(Measure::kGap);
    ImGui::Indent(inset);
    ImGui::BeginGroup();
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(0, page.px(2)));
    fine_words(page, voice.word, voice.role);
    body(page, sentence);
    ImGui::PopStyleVar();
    ImGui::EndGroup();
    note(page, key, voice.word, sentence);
    const float bottom = ImGui::GetItemRectMax().y;
    ImGui::GetWindowDrawList()->AddRectFilled(at, ImVec2(at.x + bar, bottom),
                                              page.tone(voice.role));
    ImGui::Unindent(inset);
}

bool progress(Page& page, std::string_view key, const Progress& shown) {
    const float line = page.px(Measure::kTarget);
    const auto sit = [line](float height) {
        ImGui::SetCursorPosY(ImGui::GetCursorPosY() + std::max(0.0F, (line - height) / 2));
    };
    ImGui::BeginGroup();
    const float top = ImGui::GetCursorPosY();
    sit(ImGui::GetFontSize());
    words(page, shown.doing);
    ImGui::SameLine(0, page.px(Measure::kGap));
    ImGui::SetCursorPosY(top);
    const float tall = page.px(6), wide = page.px(160);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const ImVec2 low(at.x, at.y + (line - tall) / 2), high(at.x + wide, low.y + tall);
    const float done = static_cast<float>(std::clamp(shown.share, 0.0, 1.0)) * wide;
    ImGui::GetWindowDrawList()->AddRectFilled(low, high, page.tone(Role::rule));
    ImGui::GetWindowDrawList()->AddRectFilled(low, ImVec2(low.x + done, high.y),
                                              page.tone(Role::ink));
    ImGui::Dummy(ImVec2(wide, line));
    bool stopped = false;
    if (shown.can_stop) {
        ImGui::SameLine(0, page.px(Measure::kGap));
        stopped = button(page, std::string(key) + ".stop", "stop", {.weight = Weight::quiet});
    }
    ImGui::EndGroup();
    note(page, key, shown.doing,
         std::to_string(static_cast<int>(std::clamp(shown.share, 0.0, 1.0) * 100)) + " %");
    return stopped;
}

bool empty_page(Page& page, std::string_view key, const EmptyPage& empty) {
    gap(page, Measure::kMargin);
    ImGui::BeginGroup();
    body(page, empty.what_for, Role::pencil);
    ImGui::EndGroup();
    note(page, key, empty.what_for);
    if (empty.step.empty()) return false;
    gap(page, Measure::kGap);
    return button(page, std::string(key) + ".step", empty.step,
                  {.weight = Weight::next, .key_hint = empty.key_hint});
}

void being_read(Page& page, std::string_view key) {
    fine_print(page, "reading …");
    note(page, key, "reading …");
}

void key_hint(Page& page, const Chord& chord, std::string_view act) {
    fine_words(page, words_of(chord), Role::ink);
    ImGui::SameLine(0, page.px(Measure::kStep));
    fine_words(page, act);
    page.reg.note_key(words_of(chord), act);
}

} // namespace fettle::ui
