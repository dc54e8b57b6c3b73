#include "ui/screens/marks_like.h"

#include "ui/acts.h"
#include "ui/flow.h"
#include "ui/input_queue.h"

#include <imgui.h>

namespace fettle::ui {
namespace {

Result<MarksAlike> read_alike(const Notebook& book, MarkId asked) {
    auto marks = list_marks(book);
    if (!marks) return marks.failure();
    MarksAlike alike;
    for (const auto& mark : *marks) {
        if (mark.id != asked) continue;
        auto with = shown(book, mark);
        if (!with) return with.failure();
        alike.asked = std::move(*with);
    }
    auto like = marks_like(book, alike.asked.mark.reading, alike.asked.mark.maker, asked);
    if (!like) return like.failure();
    for (const auto& each : *like) {
        auto with = shown(book, each.mark);
        if (!with) return with.failure();
        alike.like.push_back({std::move(*with), each.how});
    }
    return alike;
}

} // namespace

std::string_view words_of(Likeness how) {
    switch (how) {
    case Likeness::same_reading_and_maker:
        return "same reading, same maker";
    case Likeness::same_reading:
        return "same reading";
    case Likeness::near_reading:
        return "a reading near it";
    case Likeness::same_maker:
        return "same maker";
    }
    return "";
}

void draw_marks_like(Page& page, Context& context, MarksLikeState& state) {
    const auto& alike = state.found.of(
        context.book, state.asked, [&](MarkId asked) { return read_alike(context.book, asked); });
    const Mark& asked = alike.asked.mark;
    heading(page, "Where else: " + asked.reading);
    const bool escaped = pressed({.key = static_cast<int>(Key::escape)});
    const bool back = button(page, "marks.like.back", "all marks", {.key_hint = "Esc"});
    gap(page, Measure::kGap);
    draw_mark(page, context, "marks.like.asked", alike.asked);
    if (alike.like.empty())
        fine_print(page, "No other mark in the notebook has this reading, one near it, or this "
                         "maker.");
    std::optional<Flow> flow;
    std::optional<Likeness> group;
    for (const auto& [with, how] : alike.like) {
        if (group != how) {
            gap(page, Measure::kMargin);
            words(page, words_of(how), how == Likeness::same_maker ? Role::pencil : Role::ink);
            rule(page);
            flow.emplace(page, Measure::kGap);
            group = how;
        }
        flow->place(mark_width(page, with));
        draw_mark(page, context, "marks.like." + std::to_string(with.mark.id.value), with);
    }
    gap(page, Measure::kMargin);
    if (back || escaped) state.asked = {};
}

} // namespace fettle::ui
