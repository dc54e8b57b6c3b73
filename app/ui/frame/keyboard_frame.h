// What the keyboard is on: putting it on an item, the frame that shows it where a picture would
// paint over Dear ImGui's own, and keys that a screen takes before it. UI thread only.
#pragma once

#include "ui/frame/page.h"

namespace fettle::ui {

// The item drawn last gets the keyboard, as if Tab had come to it.
void put_keyboard_here();

// A frame round the item drawn last while the keyboard is on it.
void keyboard_frame(const Page& page);

// Pressed, and not to move the keyboard to another item with.
bool key_taken(const Chord& chord);

// The key of + and =, with Shift or without.
bool plus_pressed();

// Whether the screen drawn was not drawn in the frame before; `last_frame` is kept for it.
bool just_came_in(int& last_frame);

} // namespace fettle::ui
