#include "ui/find_results.h"

#include "base/text.h"
#include "ui/acts.h"
#include "ui/input_queue.h"
#include "ui/overlay.h"

#include <imgui.h>

#include <algorithm>

namespace fettle::ui {
namespace {

constexpr int kMost = 12;

std::string one_line(std::string text) {
    std::ranges::replace(text, '\n', ' ');
    return text;
}

// Up and down walk the list while the field is written in.
void walk(FindState& state, int count) {
    if (ImGui::IsKeyPressed(static_cast<int>(Key::down))) ++state.at;
    if (ImGui::IsKeyPressed(static_cast<int>(Key::up))) --state.at;
    state.at = std::clamp(state.at, 0, std::max(0, count - 1));
}

} // namespace

Place place_of(const Found& found) {
    switch (found.kind) {
    case FoundKind::part:
        return {"parts", found.id};
    case FoundKind::task:
        return {"tasks", found.id};
    case FoundKind::entry:
        return {"log", found.id};
    case FoundKind::mark:
        return {"marks", found.id};
    case FoundKind::photo:
        return {"photos", found.id};
    case FoundKind::position:
        break;
    }
    return {"parts", 0};
}

std::optional<Place> draw_find_results(Page& page, const Context& context, const FindField& line,
                                       FindState& state) {
    if (line.edited) {
        state.open = true;
        state.at = 0;
    }
    if (ImGui::IsKeyPressed(static_cast<int>(Key::escape), false)) state.open = false;
    if (line.entered) state.open = true;
    if (!state.open || trim(line.words).empty()) return std::nullopt;
    const auto& found = state.found.of(context.book, line.words, [&](const std::string& words) {
        return find(context.book, words, kMost);
    });
    walk(state, static_cast<int>(found.size()));
    std::optional<Place> taken;
    if (line.entered && !found.empty()) taken = place_of(found[std::size_t(state.at)]);
    const float width = page.px(440);
    const Overlay sheet(page, "find results",
                        {.x = line.field.right - width,
                         .y = line.field.bottom + page.px(Measure::kStep),
                         .width = width,
                         .most_height = page.px(640)});
    if (found.empty()) {
        fine_words(page, "Nothing in the notebook holds these words.");
        note(page, "find.nothing", "Nothing in the notebook holds these words.");
    }
    for (std::size_t i = 0; i < found.size(); ++i) {
        const std::string under = one_line(found[i].excerpt);
        if (row(page, "find." + std::to_string(i),
                {.label = found[i].title,
                 .under = under,
                 .aside = word(found[i].kind),
                 .selected = static_cast<int>(i) == state.at,
                 .height = 48}))
            taken = place_of(found[i]);
    }
    if (sheet.pressed_beside() && !line.edited) state.open = false;
    if (taken) state.open = false;
    return taken;
}

} // namespace fettle::ui
