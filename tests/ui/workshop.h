// A notebook with real photos, and all that a screen is given to draw on it, without a window.
#pragma once

#include "desk/take_in.h"
#include "notebook/fixture.h"
#include "ui/context.h"
#include "ui/driver.h"
#include "ui/pictures/pixels.h"

#include <functional>
#include <string>

namespace fettle::ui::testing {

struct Workshop : Desk {
    calc::Catalogue sheets{"", {}};
    Pixels pixels{book, {.surface = Surface::none}};
    EntryDraft draft;
    Context context{book, sheets, pixels, draft};
    Headless stage;

    // A picture made by ImageMagick, its EXIF set by exiv2, taken in as a user would.
    // `paint` holds more of convert's options; `taken` is EXIF's "2026:03:07 19:42:05".
    PhotoId real_photo(const std::string& name, int width, int height, const std::string& taken,
                       int orientation = 1, const std::string& paint = {});

    // Frames of one screen. Each has the pictures that the last one asked for: one that came late,
    // or the word that there is none, would move what stands beside it at any moment. Not so where
    // the coming itself is looked at.
    bool waits_for_pixels = true;
    Driver drive(const std::function<void(Page&)>& draw);
};

// The pointer pressed at one place of the window, moved and let go at another.
void drag_from(Headless& stage, Driver& driver, PointerMove from, PointerMove to);
void click_with(Headless& stage, Driver& driver, const std::string& key, Key held);
void run(const std::string& command); // of the shell; the test stops when it fails
std::string output_of(const std::string& command);

} // namespace fettle::ui::testing
