// The results of a worked sheet, typeset: figures in metric and inch, tables, notes, working,
// sources. Draws a fresh answer under its form and a kept one in the Log alike; needs no plugin.
#pragma once

#include "calc/answer.h"
#include "calc/display.h"
#include "ui/frame/page.h"

#include <optional>
#include <string_view>

namespace fettle::ui {

// An answer with its texts made once, since making them each frame would be felt in a long Log.
struct ShownAnswer {
    calc::Answer answer;
    std::vector<calc::HandOver> hands; // what other sheets can take on
    std::vector<calc::DisplayInput> inputs;
    std::vector<calc::DisplayRow> rows;
    std::vector<calc::DisplayTable> tables;
};
ShownAnswer shown_answer(calc::Answer answer);

struct ResultsLook {
    bool faded = false; // an older answer, until the new one comes
    bool kept = false;  // in the Log: what was typed stands first, notes and sources are folded
};

// `working_open` is what the person has unfolded.
void sheet_results(Page& page, std::string_view key, const ShownAnswer& shown, bool& working_open,
                   const ResultsLook& look = {});

} // namespace fettle::ui
