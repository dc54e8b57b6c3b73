// The room around every screen: title line, the list of screens, the screen itself, the entry being
// written beside it, and the bottom line with long work and the last act.
// Knows no notebook: it is given what to show and answers what was asked for. A screen is added by
// one more Screen in the list (one file each in ui/screens/).
#pragma once

#include "ui/frame/page.h"
#include "ui/widgets/readings.h"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace fettle::ui {

struct Screen {
    std::string key;   // "log"; its row in the list is "screens.log"
    std::string label; // "Log"
    Chord chord;
    std::string count; // beside the label; empty: nothing to count
    std::function<void(Page&)> draw;
};

struct Work {
    std::string doing;
    double share = 0;
    bool can_stop = true;
};

struct ShellShown {
    std::string title; // the vehicle, or the notebook's folder
    std::vector<Screen> screens;
    std::function<void(Page&)> draw_entry;
    std::string entry_title; // "Entry, 7 Mar 2026"
    std::string draft_state; // "saved as a draft 21:04"
    std::optional<Work> work;
    std::string report; // how long work ended: "taken in 38, 1 not readable"; empty: nothing new
    bool report_unfolds = false;
    std::string report_asks = "which"; // what unfolds it
    std::string watching;              // the folder that is watched; empty: none
    std::string last_act;              // "tied 3 photos to hanger H7"
    bool can_undo = false;
    std::string next_redo;     // the words of what was taken back; empty: nothing was
    std::string trouble;       // disk or database trouble: stays until it is mended
    std::string air, humidity; // as understood: "11 °C", "72 %"; empty when not set
    std::string day_error;     // what is wrong with the figures typed for the day
    float text_scale = 1;      // the user's
};

// What a person is in the middle of.
struct ShellState {
    std::string screen;          // key of the current one; the first when empty or unknown
    bool entry_open = true;      // beside the screen
    bool entry_in_front = false; // instead of it, where there is no room for both
    float entry_width = 0;       // before scaling; 0: as first laid out
    std::string find;
    bool setting_day = false;
    std::string air_typed, humidity_typed;
};

struct ShellAsked {
    bool find_edited = false, find_entered = false;
    bool set_day = false; // with the figures in the state
    bool stop = false;
    bool stop_watching = false;
    bool undo = false, redo = false;
    bool unfold_report = false, close_report = false;
    bool light = false; // the other paper: light for dark, dark for light
    bool keys = false;  // what can be pressed
    bool larger = false, smaller = false, as_first = false; // letters and all with them
    bool screen_changed = false;
    bool entry_opened = false; // in this frame: put the caret into it
};

// Brings the entry out, beside the screen or instead of it.
void show_entry(ShellState& state);

ShellAsked draw_shell(Page& page, const ShellShown& shown, ShellState& state);

} // namespace fettle::ui
