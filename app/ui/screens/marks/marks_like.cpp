#include "ui/screens/marks/marks_like.h"

#include "ui/frame/input_queue.h"
#include "ui/widgets/acts.h"
#include "ui/widgets/flow.h"
#include "ui/widgets/readings.h"

#include <algorithm>
#include <span>

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

// Those alike in the same way, below its words.
void draw_group(Page& page, Context& context, MarksLikeState& state,
                std::span<const AlikeShown> group) {
    const Likeness how = group.front().how;
    gap(page, Measure::kMargin);
    words(page, words_of(how), how == Likeness::same_maker ? Role::pencil : Role::ink);
    rule(page);
    draw_in_lines(
        page, state.lines, group.size(), {},
        [&](std::size_t i) -> const MarkShown& { return group[i].with; },
        [&](std::size_t i) {
            const MarkShown& with = group[i].with;
            draw_mark(page, context, "marks.like." + std::to_string(with.mark.id.value), with);
        });
}

void draw_alike(Page& page, Context& context, MarksLikeState& state, const MarksAlike& alike) {
    gap(page, Measure::kGap);
    draw_mark(page, context, "marks.like.asked", alike.asked);
    if (alike.like.empty())
        fine_print(page, "No other mark in the notebook has this reading, one near it, or this "
                         "maker.");
    for (std::span<const AlikeShown> left = alike.like; !left.empty();) {
        const auto other = std::ranges::find_if(
            left, [&](const AlikeShown& one) { return one.how != left.front().how; });
        const auto size = static_cast<std::size_t>(other - left.begin());
        draw_group(page, context, state, left.first(size));
        left = left.subspan(size);
    }
    gap(page, Measure::kMargin);
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
    const auto& alike = state.found.beside(context.side, context.book, state.asked, read_alike);
    const bool there = !state.found.is_reading() || alike.asked.mark.id == state.asked;
    heading(page, there ? "Where else: " + alike.asked.mark.reading : "Where else");
    const bool escaped = pressed({.key = static_cast<int>(Key::escape)});
    const bool back = button(page, "marks.like.back", "all marks", {.key_hint = "Esc"});
    if (there)
        draw_alike(page, context, state, alike);
    else
        being_read(page, "marks.like.reading");
    if (back || escaped) state.asked = {};
}

} // namespace fettle::ui
