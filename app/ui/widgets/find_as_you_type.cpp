#include "ui/widgets/find_as_you_type.h"

#include "base/text.h"
#include "ui/frame/input_queue.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/fields.h"
#include "ui/widgets/flow.h"

#include <imgui.h>
#include <imgui_internal.h>

#include <algorithm>
#include <cctype>

namespace fettle::ui {
namespace {

std::vector<std::string> words_in(std::string_view text) {
    std::vector<std::string> words;
    for (const auto piece : split(text, ' '))
        if (!trim(piece).empty()) words.push_back(lower_ascii(trim(piece)));
    return words;
}

// Whether `text` begins with `typed`, which is in small letters. Asked of every letter of thousands
// of candidates in a frame: nothing is copied.
bool begins(std::string_view text, std::string_view typed) {
    return text.size() >= typed.size() &&
           std::equal(typed.begin(), typed.end(), text.begin(), [](char small, char letter) {
               return small == (letter >= 'A' && letter <= 'Z' ? char(letter - 'A' + 'a') : letter);
           });
}

bool is_blank(char letter) {
    return std::isspace(static_cast<unsigned char>(letter)) != 0;
}

template <class Which>
bool any_word(std::string_view name, Which which) {
    for (std::size_t at = 0; at < name.size(); ++at)
        if (!is_blank(name[at]) && (at == 0 || is_blank(name[at - 1])) && which(name.substr(at)))
            return true;
    return false;
}

bool begins_a_word(std::string_view name, std::string_view typed) {
    return any_word(name, [typed](std::string_view word) { return begins(word, typed); });
}

// The bit for the first one or two letters of a word in small letters.
std::uint64_t bit_of(std::string_view word) {
    constexpr std::uint64_t kMixed = 0x9E3779B97F4A7C15; // 2^64 by the golden ratio
    std::uint64_t letters = static_cast<unsigned char>(word[0]);
    if (word.size() > 1) letters = letters << 8U | static_cast<unsigned char>(word[1]);
    return std::uint64_t(1) << (letters * kMixed >> 58U);
}

// 0: the tag itself, 1: the beginning of the tag, 2: elsewhere; 3: no match.
int nearness(const Candidate& candidate, const std::vector<std::string>& typed,
             std::uint64_t wanted) {
    if (typed.empty()) return 2;
    if (candidate.beginnings != 0 && (candidate.beginnings & wanted) != wanted) return 3;
    const std::string_view tag = candidate.tag;
    for (const std::string& word : typed)
        if (!begins(tag, word) && !begins_a_word(candidate.name, word)) return 3;
    if (tag.empty() || !begins(tag, typed.front())) return 2;
    return tag.size() == typed.front().size() ? 0 : 1;
}

// Up and down belong to the matches while the field is written in; true when the arrows moved.
void move_among(FindLine& line, int count, bool active) {
    if (!active) return;
    ImGui::GetCurrentContext()->ActiveIdUsingNavDirMask |=
        (1U << ImGuiDir_Up) | (1U << ImGuiDir_Down);
    if (ImGui::IsKeyPressed(static_cast<int>(Key::down))) ++line.at;
    if (ImGui::IsKeyPressed(static_cast<int>(Key::up))) --line.at;
    line.at = std::clamp(line.at, 0, std::max(0, count - 1));
}

void take(FindLine& line, FindAnswer& answer, const Candidate& candidate) {
    answer.taken = candidate.id;
    line.at = 0;
    line.open = false;
}

} // namespace

void note_beginnings(Candidate& candidate) {
    candidate.beginnings = 0;
    const auto note = [&candidate](std::string_view word) {
        const std::string small = lower_ascii(word.substr(0, 2));
        candidate.beginnings |= bit_of(std::string_view(small).substr(0, 1)) | bit_of(small);
        return false;
    };
    if (!candidate.tag.empty()) note(candidate.tag);
    any_word(candidate.name, note);
}

std::vector<std::size_t> matching(const std::vector<Candidate>& from, std::string_view typed,
                                  std::size_t most) {
    const auto words = words_in(typed);
    std::uint64_t wanted = 0;
    for (const std::string& word : words)
        wanted |= bit_of(word);
    std::vector<std::size_t> found[3];
    for (std::size_t i = 0; i < from.size(); ++i) {
        const int near = nearness(from[i], words, wanted);
        if (near < 3) found[near].push_back(i);
        if (words.empty() && found[2].size() >= most) break;
    }
    std::vector<std::size_t> best;
    for (const auto& group : found)
        for (const std::size_t i : group)
            if (best.size() < most) best.push_back(i);
    return best;
}

bool match_row(Page& page, const std::string& key, const Candidate& candidate, bool chosen) {
    const std::string said =
        candidate.tag.empty() ? candidate.name : candidate.tag + "   " + candidate.name;
    const std::string aside = chosen && candidate.kind.empty() ? "Enter" : candidate.kind;
    return row(page, key,
               {.label = said, .aside = aside, .selected = chosen, .height = Measure::kTarget});
}

FindAnswer find_as_you_type(Page& page, std::string_view key, FindLine& line,
                            const std::vector<Candidate>& from, const FindLook& look) {
    return find_as_you_type(
        page, key, line, Candidates([&]() -> const std::vector<Candidate>& { return from; }), look);
}

FindAnswer find_as_you_type(Page& page, std::string_view key, FindLine& line, const Candidates& all,
                            const FindLook& look) {
    FindAnswer answer;
    const bool escaped = ImGui::IsKeyPressed(static_cast<int>(Key::escape), false);
    const std::string before = line.typed;
    const float room = ImGui::GetContentRegionAvail().x / page.theme.scale;
    const float width = look.width > 0 ? std::min(look.width, room) : 0;
    const FieldChange field = text_field(page, key, line.typed,
                                         {.label = look.label,
                                          .hint = look.hint,
                                          .error = look.error,
                                          .key_hint = look.key_hint,
                                          .width = width,
                                          .take_focus = line.take_focus});
    line.awaits_caret = (line.awaits_caret || line.take_focus) && !field.active;
    line.take_focus = false;
    answer.edited = field.edited;
    if (field.edited) line.at = 0;
    const bool was_open = line.open;
    if (field.active || field.entered) line.open = true;
    if (!line.open) return answer;
    if (escaped && was_open) {
        line.typed = before; // Dear ImGui takes Esc as "as it was when the writing began"
        line.open = false;
        answer.given_up = true;
        return answer;
    }
    const std::vector<Candidate>& from = all();
    const auto matches = matching(from, line.typed, static_cast<std::size_t>(look.most));
    move_among(line, static_cast<int>(matches.size()), field.active);
    if (field.entered) {
        // A blank line where words are an answer of their own means: none.
        const bool as_typed = look.as_typed && (line.typed.empty() || matches.empty());
        line.open = false;
        const bool takes = look.blank_takes || !line.typed.empty();
        if (ImGui::GetIO().KeyCtrl) return answer; // Ctrl Enter is for the entry
        if (as_typed)
            answer.entered_as_typed = true;
        else if (takes && !matches.empty())
            take(line, answer, from[matches[std::size_t(line.at)]]);
        return answer;
    }
    // What stands below must not move away under a press on it.
    bool busy = field.active || line.awaits_caret || ImGui::IsMouseDown(ImGuiMouseButton_Left);
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(0, 0));
    for (int i = 0; i < static_cast<int>(matches.size()); ++i) {
        const Candidate& candidate = from[matches[std::size_t(i)]];
        const std::string match_key = std::string(key) + ".match." + std::to_string(i);
        if (match_row(page, match_key, candidate, i == line.at)) take(line, answer, candidate);
        busy = busy || ImGui::IsItemFocused() || ImGui::IsItemHovered() || ImGui::IsItemActive();
    }
    if (matches.empty())
        fine_print(page, look.as_typed ? "New; Enter takes it as written." : "Nothing fits.");
    ImGui::PopStyleVar();
    if (!look.keys.empty()) fine_print(page, look.keys);
    if (!answer.taken) line.open = busy;
    return answer;
}

} // namespace fettle::ui
