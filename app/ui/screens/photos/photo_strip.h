// The strip below a large photo: its figures, what it is tied to, what can be done with it; in
// their place the line where a mark is read or a tie is made.
#pragma once

#include "ui/screens/photos/photo_large.h"

namespace fettle::ui {

struct PhotoPlace {
    std::size_t place = 0, of = 0; // among the photos ← and → go through
};
void draw_strip(Page& page, Context& context, PhotoLargeState& state, TyingState& tying,
                const PhotoFacts& facts, const PhotoPlace& place);

// "turned 90°, mirrored"; empty as it was taken.
std::string lies_words(const PhotoView& view);
// In the line of the figures while a photo's full size is on its way or was stopped.
void say_coming(Page& page, const Pixels& pixels, const Photo& photo);
// The act that stops that or fetches it after all; empty when neither can be.
std::string_view coming_act(const Pixels& pixels, const Photo& photo);
void stop_or_go_on(Pixels& pixels, const Photo& photo);

} // namespace fettle::ui
