// What is only read: figures in two systems, notices, progress, the words of an empty page, hints
// of keys. They note themselves too, so that a test can read what the screen says.
#pragma once

#include "ui/frame/page.h"

#include <string>

namespace fettle::ui {

// One result: its label, then metric and inch side by side; figures stand right-aligned in columns.
struct FigureLook {
    std::string_view label;
    std::string_view metric;
    std::string_view inch = {};
    Role role = Role::ink;
};
void figure(Page& page, std::string_view key, const FigureLook& look);

enum class Tell { info, caution, stop, ready };

// A sentence with a bar at its side; the word for its weight stands before it.
void notice(Page& page, std::string_view key, Tell tell, std::string_view sentence);

struct Progress {
    std::string_view doing; // "taken in 38 of 60"
    double share = 0;       // 0 to 1
    bool can_stop = true;
};
// True when stop was pressed; the stop has the key `key.stop`.
bool progress(Page& page, std::string_view key, const Progress& progress);

// What an empty page is for, and the first step. True when the step was pressed (`key.step`).
struct EmptyPage {
    std::string_view what_for;
    std::string_view step = {}; // label of the first act; none when empty
    std::string_view key_hint = {};
};
bool empty_page(Page& page, std::string_view key, const EmptyPage& empty);

// In the place of what is still being read beside the frames (ui/beside/snapshot.h) for the first
// time.
void being_read(Page& page, std::string_view key);

// "F9  fold the entry away"
void key_hint(Page& page, const Chord& chord, std::string_view act);

} // namespace fettle::ui
