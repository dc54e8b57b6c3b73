// The worked sheets: all of them by plugin, each with what it answers and its caution; one opened
// wide, to calculate with or to be put into the entry; and the plugins that were refused.
#pragma once

#include "ui/context.h"
#include "ui/worked/sheet_form.h"

#include <map>
#include <string>

namespace fettle::ui {

// What a person is in the middle of; what was typed into a sheet stays when another is looked at.
struct SheetsState {
    std::string open;    // id of the sheet; empty: the list
    std::string drawn;   // what was open in the last frame: another one begins at its top
    int last_frame = -1; // of the screen being drawn
    bool takes_keyboard = false;
    struct Typed {
        calc::TypedInputs inputs;
        SheetForm form;
    };
    std::map<std::string, Typed> typed;
};

void draw_sheets(Page& page, Context& context, SideWork& work, SheetsState& state);

} // namespace fettle::ui
