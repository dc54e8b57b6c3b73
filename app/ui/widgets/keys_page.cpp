#include "ui/widgets/keys_page.h"

#include "ui/frame/input_queue.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/overlay.h"

#include <imgui.h>

#include <algorithm>

namespace fettle::ui {
namespace {

constexpr Chord kKeys{static_cast<int>(Key::f1)}, kEscape{static_cast<int>(Key::escape)};
constexpr float kWide = 1200, kKeyColumn = 104, kAround = 32;

constexpr const char* kEverywhere = "Everywhere";

// What Dear ImGui and the fields do everywhere, without a word beside them.
const std::vector<KeyNoted>& everywhere() {
    static const std::vector<KeyNoted> keys = {
        {"Tab", "go on to the next field or button; Shift Tab back", kEverywhere},
        {"arrows", "from row to row, from photo to photo", kEverywhere},
        {"Space", "press what the frame stands on; choose a photo", kEverywhere},
        {"Enter", "take, open, keep", kEverywhere},
        {"Esc", "leave, go back, choose nothing", kEverywhere},
        {"PgUp PgDn", "a page of a long list", kEverywhere},
        {"wheel", "scroll; over a photo nearer and further", kEverywhere},
    };
    return keys;
}

void draw_key(Page& page, const KeyNoted& key, float width) {
    const float left = ImGui::GetCursorPosX();
    fine_words(page, key.keys, Role::ink);
    ImGui::SameLine();
    ImGui::SetCursorPosX(left + page.px(kKeyColumn));
    ImGui::PushTextWrapPos(left + width);
    const InFace fine(page, Face::fine);
    ImGui::PushStyleColor(ImGuiCol_Text, page.tone(Role::pencil));
    ImGui::TextUnformatted(key.act.c_str());
    ImGui::PopStyleColor();
    ImGui::PopTextWrapPos();
    note(page, "keys.of." + key.part + "." + key.keys + "." + key.act, key.act, key.keys);
}

void draw_part(Page& page, const std::string& part, const std::vector<KeyNoted>& keys,
               float width) {
    words(page, part);
    const auto is_of_it = [&](const KeyNoted& key) { return key.part == part; };
    if (std::ranges::none_of(keys, is_of_it)) fine_words(page, "none of its own at the moment");
    for (const KeyNoted& key : keys)
        if (is_of_it(key)) draw_key(page, key, width);
    gap(page, Measure::kGap);
}

// The part between the room and the entry: the screen's.
std::string screen_part(const std::vector<KeyNoted>& keys) {
    const auto found = std::ranges::find_if(
        keys, [](const KeyNoted& key) { return key.part != kRoomPart && key.part != kEntryPart; });
    return found == keys.end() ? "The screen" : found->part;
}

} // namespace

void hear_keys_page(KeysPageState& state) {
    if (pressed(kKeys, true)) {
        state.open = !state.open;
    } else if (state.open && pressed(kEscape, true)) {
        state.open = false;
        // Held for a moment already: what lies below must not go back as well.
        ImGui::GetIO().KeysDownDuration[kEscape.key] = ImGui::GetIO().DeltaTime;
    }
}

void draw_keys_page(Page& page, KeysPageState& state) {
    if (!state.open) return;
    const std::vector<KeyNoted> keys = page.reg.noted_keys();
    const ImVec2 window = ImGui::GetIO().DisplaySize;
    const float around = page.px(kAround);
    const float width = std::min(page.px(kWide), window.x - 2 * around);
    const Overlay sheet(page, "keys",
                        {.x = (window.x - width) / 2,
                         .y = around,
                         .width = width,
                         .most_height = window.y - 2 * around});
    heading(page, "Keys");
    ImGui::SameLine(0, page.px(Measure::kMargin));
    const bool closed = button(page, "keys.close", "close", {.weight = Weight::quiet});
    fine_print(page,
               "What can be pressed at this moment; another screen has other keys. Letters by "
               "themselves count while nothing is being typed.");
    gap(page, Measure::kGap);
    const float between = page.px(Measure::kMargin);
    const float column = (ImGui::GetContentRegionAvail().x - 2 * between) / 3;
    ImGui::BeginGroup();
    draw_part(page, kRoomPart, keys, column);
    ImGui::EndGroup();
    ImGui::SameLine(0, 0);
    ImGui::SetCursorPosX(ImGui::GetCursorStartPos().x + column + between);
    ImGui::BeginGroup();
    draw_part(page, screen_part(keys), keys, column);
    ImGui::EndGroup();
    ImGui::SameLine(0, 0);
    ImGui::SetCursorPosX(ImGui::GetCursorStartPos().x + 2 * (column + between));
    ImGui::BeginGroup();
    draw_part(page, kEntryPart, keys, column);
    draw_part(page, kEverywhere, everywhere(), column);
    ImGui::EndGroup();
    note_area(page, "keys", "Keys",
              {(window.x - width) / 2, around, (window.x + width) / 2, window.y - around});
    if (closed || sheet.pressed_beside()) state.open = false;
}

} // namespace fettle::ui
