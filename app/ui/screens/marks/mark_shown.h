// A mark as it is shown wherever it is one among others: its crop, what it reads, how sure that is,
// when it was taken and the part it stands on.
#pragma once

#include "notebook/marks.h"
#include "notebook/photos.h"
#include "ui/context.h"
#include "ui/frame/page.h"
#include "ui/widgets/clipped.h"
#include "ui/widgets/flow.h"

#include <optional>
#include <string>

namespace fettle::ui {

struct MarkShown {
    Mark mark;
    Photo photo;
    std::string tag;                   // of the part it stands on; may be empty
    bool torch = false;                // it was read from a torch set
    std::optional<Photo> picture = {}; // the view of that which was kept
};

Result<MarkShown> shown(const Notebook& book, const Mark& mark);

// The crop leads to the photo at that place, the tag to the part. True while the crop has the
// keyboard, which it takes when `takes_keyboard`.
bool draw_mark(Page& page, Context& context, const std::string& key, const MarkShown& with,
               bool takes_keyboard = false);
// The most width that takes.
float mark_width(const Page& page, const MarkShown& with);

// Marks side by side, drawn by draw(i); with(i) gives the i-th. Of the lines only those in sight
// are drawn, and the one with `wanted`.
template <class With, class Draw>
void draw_in_lines(Page& page, Clipped& lines, std::size_t count, MarkId wanted, With with,
                   Draw draw) {
    constexpr float kLine = 204; // about as tall as a line is, before scaling
    const auto width = [&](std::size_t i) { return mark_width(page, with(i)); };
    std::size_t first = 0;
    for (const std::size_t end : line_ends(page, count, Measure::kGap, width)) {
        bool has_wanted = false;
        for (std::size_t i = first; i < end; ++i)
            has_wanted = has_wanted || (wanted && with(i).mark.id == wanted);
        const auto draw_line = [&] {
            Flow flow(page, Measure::kGap);
            for (std::size_t i = first; i < end; ++i) {
                flow.place(width(i));
                draw(i);
            }
        };
        lines.block(with(first).mark.id.value, page.px(kLine), draw_line, has_wanted);
        first = end;
    }
}

} // namespace fettle::ui
