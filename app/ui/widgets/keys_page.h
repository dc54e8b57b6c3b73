// The list of keys: what can be pressed where the person is, gathered from the hints that the
// screen notes itself, so that it cannot say what is not so.
#pragma once

#include "ui/frame/page.h"

namespace fettle::ui {

// Parts that every screen has around it, as the register names them.
inline constexpr const char *kRoomPart = "The room", *kEntryPart = "The entry";

struct KeysPageState {
    bool open = false;
};

// F1 opens and closes it, Esc closes it. At the start of a frame, before anything else hears of
// these keys.
void hear_keys_page(KeysPageState& state);
// Over the room, once all of it was drawn.
void draw_keys_page(Page& page, KeysPageState& state);

} // namespace fettle::ui
