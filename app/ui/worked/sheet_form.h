// A worked sheet one fills in, drawn from its description alone: fields as typed with unit, what
// was understood and what is wrong, and the results below or beside them. Reads what was typed at
// once and has it calculated beside the window; the last good answer stays, faded, until the new
// one comes. UI thread only.
#pragma once

#include "calc/run_sheet.h"
#include "ui/beside/side_work.h"
#include "ui/worked/sheet_results.h"

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace fettle::ui {

// What stands behind a form beside the typed text, which belongs to the caller.
struct SheetForm {
    std::optional<calc::TypedInputs> read_for; // what everything below was made from
    std::vector<std::string> understood;       // by number of the input
    calc::Problems problems;                   // to be shown beside their fields
    std::string trouble;                       // no field is to blame
    bool complete = false;                     // everything that is needed was filled in
    std::optional<ShownAnswer> answer;         // the last good one
    bool answer_is_old = false;
    std::shared_ptr<Coming<calc::SheetRun>> coming = std::make_shared<Coming<calc::SheetRun>>();
    double asked_at = 0; // seconds of the window's clock
    bool working_open = false;
    bool explains = false;                // each field says what it is for
    std::optional<calc::HandOver> handed; // pressed: to be taken by whoever draws the form
};

struct SheetBench {
    calc::Catalogue& sheets;
    SideWork& work;
    bool hand_key = false; // a key hands on what the answer offers first
};

// True when something was typed. Fields have the keys `key.INPUT`, results `key.result.OUTPUT`.
bool sheet_form(Page& page, std::string_view key, const calc::Sheet& sheet,
                calc::TypedInputs& typed, SheetForm& form, const SheetBench& bench);

} // namespace fettle::ui
