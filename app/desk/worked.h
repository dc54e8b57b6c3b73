// Worked results: answers of the calculation room kept on entries of the notebook, and run again.
#pragma once

#include "calc/answer.h"
#include "calc/catalogue.h"
#include "notebook/entries.h"

namespace fettle::desk {

// The record the notebook keeps of an answer, and the answer of such a record.
WorkedResult to_record(const calc::Answer& answer);
Result<calc::Answer> answer_of(const WorkedResult& record);

// Calculates and keeps the result on an entry that exists. Inputs that are not named hold what a
// sheet begun on that entry would (desk/carrying.h).
Result<calc::Answer> work_on_entry(Notebook& notebook, calc::Catalogue& sheets, EntryId entry,
                                   std::string_view sheet, const calc::TypedInputs& typed);

// A kept result run once more with the plugin of today. Both are shown when they disagree.
struct RunAgain {
    calc::Answer kept;
    calc::Answer fresh;
    bool agree = false;
};
Result<RunAgain> run_again(calc::Catalogue& sheets, const WorkedResult& record);

} // namespace fettle::desk
