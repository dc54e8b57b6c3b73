// Where else a mark has been seen: the marks like it, with their crops, by how much they are alike.
#pragma once

#include "notebook/marks_compared.h"
#include "ui/beside/snapshot.h"
#include "ui/context.h"
#include "ui/frame/page.h"
#include "ui/screens/marks/mark_shown.h"

#include <string>
#include <vector>

namespace fettle::ui {

struct AlikeShown {
    MarkShown with;
    Likeness how = Likeness::same_maker;
};

struct MarksAlike {
    MarkShown asked;
    std::vector<AlikeShown> like;
};

// What a person is in the middle of; no mark asked about: closed.
struct MarksLikeState {
    MarkId asked{};
    Snapshot<MarksAlike, MarkId> found;
    Clipped lines;
};

void draw_marks_like(Page& page, Context& context, MarksLikeState& state);

// "same reading, same maker"
std::string_view words_of(Likeness how);

} // namespace fettle::ui
