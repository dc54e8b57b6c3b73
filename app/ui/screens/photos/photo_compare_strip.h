// The strip below two compared photos: what they are, how they lie on each other, what can be done.
#pragma once

#include "ui/screens/photos/photo_compare.h"

namespace fettle::ui {

// False: the comparing is left.
bool draw_compare_strip(Page& page, Context& context, CompareState& state,
                        const ComparedFacts& facts, const Laid& laid);

} // namespace fettle::ui
