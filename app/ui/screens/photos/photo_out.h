// Giving photos out, on the screen of photos: copies with what is known of them into a folder that
// is typed, or sidecars beside originals left in place. UI thread only.
#pragma once

#include "ui/context.h"
#include "ui/frame/page.h"

#include <string>
#include <vector>

namespace fettle::ui {

// What a person is in the middle of.
struct GiveOutState {
    bool open = false;
    bool wants_caret = false;
    bool with_place = false;
    std::string folder, error;
};

inline constexpr Chord kGiveOut{'O'};

// The line that is open; `photos` are those that go.
void give_out_line(Page& page, Context& context, GiveOutState& state,
                   const std::vector<PhotoId>& photos);

} // namespace fettle::ui
