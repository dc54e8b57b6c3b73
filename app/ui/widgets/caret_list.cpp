#include "ui/widgets/caret_list.h"

#include "ui/frame/input_queue.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/overlay.h"

#include <imgui.h>

#include <algorithm>
#include <cctype>
#include <utility>

namespace fettle::ui {
namespace {

constexpr int kMostMatches = 6;
constexpr std::size_t kMostLetters = 60;
constexpr float kWide = 420;
constexpr const char* kKeysHere = "Enter takes, Esc leaves what was typed";

bool in_word(char letter) {
    const auto byte = static_cast<unsigned char>(letter);
    return byte >= 0x80 || std::isalnum(byte) != 0 || letter == '_' || letter == '-';
}

// The key pressed in this frame, kept from the field: for Dear ImGui it is held for a moment
// already.
bool heard(Key key) {
    const int code = static_cast<int>(key);
    if (!ImGui::IsKeyPressed(code)) return false;
    ImGui::GetIO().KeysDownDuration[code] = ImGui::GetIO().DeltaTime;
    return true;
}

bool letters_fit(const CaretList& list, const std::string& text, const TextCaret& caret) {
    if (caret.at < list.from || caret.at > text.size()) return false;
    const auto letters = std::string_view(text).substr(list.from, caret.at - list.from);
    return letters.size() <= kMostLetters && letters.find('\n') == std::string_view::npos;
}

OverlayLook below(const Page& page, const TextCaret& caret, std::size_t rows) {
    const ImVec2 window = ImGui::GetIO().DisplaySize;
    const float around = page.px(Measure::kStep);
    const float wide = std::min(page.px(kWide), window.x - 2 * around);
    const float tall = page.px(Measure::kTarget) * static_cast<float>(rows) +
                       page.px(2 * Measure::kMargin + Measure::kGap);
    const float line = ImGui::GetFontSize() + 2 * page.px(Measure::kHair);
    const bool fits = caret.y + tall <= window.y;
    return {.x = std::clamp(caret.x, around, window.x - wide - around),
            .y = fits ? caret.y + page.px(Measure::kHair) : std::max(0.0F, caret.y - line - tall),
            .width = wide,
            .most_height = tall};
}

} // namespace

void open_caret_list(CaretList& list, const std::string& text, const TextCaret& caret) {
    list = {.open = true, .fresh = true, .from = std::min(caret.at, text.size())};
    while (list.from > 0 && in_word(text[list.from - 1]))
        --list.from;
    if (!letters_fit(list, text, caret)) list.from = caret.at;
}

bool hear_caret_list(CaretList& list) {
    list.enter = false;
    if (!list.open || ImGui::GetIO().KeyCtrl) return false;
    if (ImGui::IsKeyPressed(static_cast<int>(Key::escape), false)) {
        list.open = false;
        return true;
    }
    if (list.count == 0) return false;
    list.enter = heard(Key::enter) || heard(Key::keypad_enter);
    if (heard(Key::down)) ++list.at;
    if (heard(Key::up)) --list.at;
    return false;
}

std::optional<std::int64_t> draw_caret_list(Page& page, std::string_view key, CaretList& list,
                                            const std::string& text, const TextCaret& caret,
                                            const Candidates& from) {
    if (!list.open || !letters_fit(list, text, caret)) {
        list.open = false;
        return std::nullopt;
    }
    const std::vector<Candidate>& all = from();
    const auto fits = [&] {
        const auto letters = std::string_view(text).substr(list.from, caret.at - list.from);
        return matching(all, letters, kMostMatches);
    };
    auto matches = fits();
    if (std::exchange(list.fresh, false) && matches.empty()) {
        list.from = caret.at; // the word before the caret is no name: it stays
        matches = fits();
    }
    list.count = static_cast<int>(matches.size());
    list.at = std::clamp(list.at, 0, std::max(0, list.count - 1));
    std::optional<std::int64_t> taken;
    if (list.enter && !matches.empty()) taken = all[matches[std::size_t(list.at)]].id;
    const Overlay overlay(page, "at the caret",
                          below(page, caret, std::max<std::size_t>(matches.size(), 1)));
    bool busy = caret.there || ImGui::IsMouseDown(ImGuiMouseButton_Left);
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(0, 0));
    for (int i = 0; i < list.count; ++i) {
        const Candidate& candidate = all[matches[std::size_t(i)]];
        const std::string match_key = std::string(key) + ".match." + std::to_string(i);
        if (match_row(page, match_key, candidate, i == list.at)) taken = candidate.id;
        busy = busy || ImGui::IsItemHovered() || ImGui::IsItemActive();
    }
    ImGui::PopStyleVar();
    fine_words(page, matches.empty() ? "Nothing fits." : kKeysHere);
    note(page, std::string(key) + ".keys", matches.empty() ? "Nothing fits." : kKeysHere);
    if (taken || !busy || overlay.pressed_beside()) list.open = false;
    return taken;
}

} // namespace fettle::ui
