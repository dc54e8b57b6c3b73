// A mark as it is shown wherever it is one among others: its crop, what it reads, how sure that is,
// when it was taken and the part it stands on.
#pragma once

#include "notebook/marks.h"
#include "notebook/photos.h"
#include "ui/context.h"
#include "ui/page.h"

#include <string>

namespace fettle::ui {

struct MarkShown {
    Mark mark;
    Photo photo;
    std::string tag; // of the part it stands on; may be empty
};

Result<MarkShown> shown(const Notebook& book, const Mark& mark);

// The crop leads to the photo at that place, the tag to the part. True while the crop has the
// keyboard, which it takes when `takes_keyboard`.
bool draw_mark(Page& page, Context& context, const std::string& key, const MarkShown& with,
               bool takes_keyboard = false);
// The width that takes.
float mark_width(const Page& page, const MarkShown& with);

} // namespace fettle::ui
