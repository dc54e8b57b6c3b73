#include "ui/screens/marks/mark_reading.h"

#include "base/text.h"
#include "notebook/marks_compared.h"
#include "ui/candidates.h"
#include "ui/frame/input_queue.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/fields.h"
#include "ui/widgets/flow.h"

#include <imgui.h>

namespace fettle::ui {
namespace {

constexpr float kReadingField = 232, kMakerField = 264;

bool keep(Context& context, MarkReading& reading) {
    Mark mark = reading.mark;
    mark.reading = trim(mark.reading);
    mark.maker = trim(reading.maker.typed);
    const auto keep_at_once = [&]() -> Done {
        const auto id = keep_mark(context.book, mark);
        return id ? done() : Done(id.failure());
    };
    const Done kept = reading.keeps ? reading.keeps(context, mark) : keep_at_once();
    reading.error = kept ? std::string() : kept.failure().sentence;
    return kept.ok();
}

// True when the mark is to be kept.
bool maker_field(Page& page, Context& context, MarkReading& reading) {
    const auto& makers =
        reading.makers.of(context.book, 0, [&](int) { return maker_candidates(context.book); });
    const auto answer = find_as_you_type(
        page, "mark.maker", reading.maker, makers,
        {.label = "maker", .hint = "unknown", .most = 4, .as_typed = true, .width = kMakerField});
    if (answer.taken) reading.maker.typed = candidate_with(makers, *answer.taken)->name;
    const bool by_pointer = ImGui::IsMouseReleased(ImGuiMouseButton_Left);
    return (answer.taken && !by_pointer) || answer.entered_as_typed;
}

// "OV 36 on H7 and P9, near it O? 36 on K2": what is known of such a mark, as it is typed.
Result<std::string> seen_elsewhere(const Notebook& book, const MarkReading& reading) {
    auto like = marks_like(book, trim(reading.mark.reading), {}, reading.mark.id);
    if (!like) return like.failure();
    constexpr std::size_t kMost = 3;
    std::string said;
    for (std::size_t at = 0; at < std::min(kMost, like->size()); ++at) {
        const auto& mark = (*like)[at].mark;
        said += (at == 0 ? "" : ", ") + mark.reading;
        if (!mark.maker.empty()) said += " by " + mark.maker;
        if (!mark.part) continue;
        auto part = part_by_id(book, mark.part);
        if (!part) return part.failure();
        said += " on " + part->tag;
    }
    if (like->size() > kMost) said += " and " + std::to_string(like->size() - kMost) + " more";
    return said;
}

void say_seen(Page& page, Context& context, MarkReading& reading) {
    const auto& said =
        reading.seen.of(context.book, {reading.mark.reading, std::to_string(reading.mark.id.value)},
                        [&](const auto&) { return seen_elsewhere(context.book, reading); });
    const std::string line = said.empty() ? "not seen before" : "seen: " + said;
    fine_words(page, trim(reading.mark.reading).empty() ? "" : line);
    note(page, "mark.seen", line);
}

bool acts(Page& page, MarkReading& reading, bool& removed, bool& left) {
    words_beside(page, "sure", Role::pencil);
    ImGui::SameLine(0, page.px(Measure::kGap));
    int sure = static_cast<int>(reading.mark.sure);
    if (choice(page, "mark.sure", all_words<Sureness>(), sure))
        reading.mark.sure = static_cast<Sureness>(sure);
    ImGui::SameLine(0, page.px(Measure::kMargin));
    const bool kept =
        button(page, "mark.keep", "keep the mark", {.weight = Weight::next, .key_hint = "Enter"});
    ImGui::SameLine();
    left = button(page, "mark.leave", "leave", {.weight = Weight::quiet, .key_hint = "Esc"});
    if (reading.mark.id) {
        ImGui::SameLine();
        removed = button(page, "mark.remove", "remove", {.weight = Weight::quiet});
    }
    return kept;
}

} // namespace

MarkReading MarkReading::of(const Mark& mark) {
    MarkReading reading;
    reading.mark = mark;
    reading.maker.typed = mark.maker;
    return reading;
}

ReadingEnd read_mark(Page& page, Context& context, MarkReading& reading) {
    const bool escaped = pressed({.key = static_cast<int>(Key::escape)}, true);
    bool removed = false, left = false;
    ImGui::BeginGroup();
    const FieldChange text = text_field(page, "mark.reading", reading.mark.reading,
                                        {.label = "reading, as it stands on the metal",
                                         .hint = "OV 36",
                                         .error = reading.error,
                                         .width = kReadingField,
                                         .take_focus = reading.take_focus});
    ImGui::EndGroup();
    reading.take_focus = false;
    if (text.edited) reading.error.clear();
    ImGui::SameLine(0, page.px(Measure::kMargin));
    ImGui::BeginGroup();
    const bool maker_open = reading.maker.open;
    const bool maker_done = maker_field(page, context, reading);
    ImGui::EndGroup();
    const bool wanted = acts(page, reading, removed, left);
    say_seen(page, context, reading);
    if (wanted || maker_done || text.entered) {
        if (keep(context, reading)) return ReadingEnd::kept;
        reading.take_focus = true;
    }
    if (removed && context.went_well(remove_mark(context.book, reading.mark.id)))
        return ReadingEnd::kept;
    // Esc closes the list of makers first.
    return left || (escaped && !maker_open) ? ReadingEnd::left : ReadingEnd::goes_on;
}

} // namespace fettle::ui
