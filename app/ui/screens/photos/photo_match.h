// Matching points of two photos that are compared: put with a click in each, numbered, dragged,
// removed. Each change is an act of the notebook.
#pragma once

#include "ui/screens/photos/photo_compare.h"

namespace fettle::ui {

// One of the two photos on the screen.
struct ComparedPane {
    bool is_one = true;
    Rect where;
    photos::PlaneMap map; // from the photo's pixels to the screen
};

void begin_matching(CompareState& state, const ComparedFacts& facts);

// The pane's button is the item drawn last. True: the pointer is busy with a point, so the picture
// must not move.
bool match_by_pointer(Page& page, Context& context, CompareState& state, const ComparedFacts& facts,
                      const ComparedPane& pane);
void draw_points(Page& page, const CompareState& state, const ComparedFacts& facts,
                 const ComparedPane& pane);
// What to do next, and how far the points agree.
void draw_matching_words(Page& page, const CompareState& state, const ComparedFacts& facts);
void remove_last_point(Context& context, CompareState& state, const ComparedFacts& facts);
void remove_points(Context& context, CompareState& state, const ComparedFacts& facts);

// "The points lie 2.3 pixels apart as a rule, 4.1 at point 3."; empty when they cannot.
std::string misses_in_words(const Laid& laid);

} // namespace fettle::ui
