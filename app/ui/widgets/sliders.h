// What is set by drawing: an amount along a line, a side round a dial. Both answer to the pointer
// at once, to ← and → while the keyboard is on them, and note themselves in the register.
#pragma once

#include "ui/frame/page.h"

#include <string>

namespace fettle::ui {

struct SliderLook {
    std::string_view label;
    std::string_view shown; // the value in words, at the right end above the line
    double least = 0, most = 1;
    float width = 136; // before scaling
};
struct Slid {
    bool changed = false;
    bool focused = false; // ← and → move it, and so must lead nowhere else
};
// A press puts the value where the pointer is.
Slid slider(Page& page, std::string_view key, double& value, const SliderLook& look);

// One of eight sides, degrees clockwise from the top in steps of 45.
Slid side_dial(Page& page, std::string_view key, std::string_view label, double& degrees);
// "above", "upper right", "right" ...
std::string_view side_words(double degrees);

} // namespace fettle::ui
