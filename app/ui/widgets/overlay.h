// A sheet of paper laid over the room for a moment: below the find field, above the bottom line.
// Goes away with Esc or a press beside it; that is the caller's to decide.
#pragma once

#include "ui/frame/page.h"

namespace fettle::ui {

struct OverlayLook {
    float x = 0, y = 0; // a corner, pixels of the window: the upper left, or the lower right
    float width = 0;    // pixels
    float most_height = 0;
    bool from_below = false; // x and y are the lower right corner
};

class Overlay {
  public:
    Overlay(Page& page, const char* name, const OverlayLook& look);
    ~Overlay();
    Overlay(const Overlay&) = delete;
    Overlay& operator=(const Overlay&) = delete;

    // The pointer was pressed somewhere else in this frame.
    bool pressed_beside() const { return pressed_beside_; }
    // The keyboard is on something in it, such as a field.
    bool has_caret() const { return has_caret_; }

  private:
    bool pressed_beside_ = false;
    bool has_caret_ = false;
};

} // namespace fettle::ui
