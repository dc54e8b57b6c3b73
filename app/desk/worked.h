// Worked results: answers of the calculation room kept on entries of the notebook, and run again.
#pragma once

#include "calc/answer.h"
#include "calc/catalogue.h"
#include "desk/carrying.h"
#include "notebook/entries.h"

namespace fettle::desk {

// The record the notebook keeps of an answer, and the answer of such a record.
WorkedResult to_record(const calc::Answer& answer);
Result<calc::Answer> answer_of(const WorkedResult& record);

// Works a sheet as it is begun at that place (desk/carrying.h), with what was typed over it.
Result<calc::Answer> work_at(const Notebook& notebook, calc::Catalogue& sheets,
                             std::string_view sheet, const calc::TypedInputs& typed,
                             const SheetPlace& place);

// The same on an entry that exists, and keeps the result with it. Where the plugin fails the answer
// kept is one marked as failed, as with a draft (desk/drafting.h), to be worked again.
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
