// What a worked sheet holds when it is begun: its presets, the day's weather, and what goes on from
// the last kept result of the same sheet on the same task (trials, series of readings).
#pragma once

#include "calc/answer.h"
#include "calc/sheet.h"
#include "notebook/entries.h"

#include <vector>

namespace fettle::desk {

struct SheetPlace { // where a sheet is begun
    Day day{};
    std::vector<TaskId> tasks = {}; // of the entry it stands on
    EntryId changing{};             // an entry under change does not go on from itself
};

// Rows of tables on lines of their own.
Result<calc::TypedInputs> begun_inputs(const Notebook& notebook, const calc::Sheet& sheet,
                                       const SheetPlace& place);

// The newest kept result of a sheet on these tasks; nothing when there is none.
Result<std::optional<calc::Answer>> last_result(const Notebook& notebook, std::string_view sheet,
                                                const SheetPlace& place);

} // namespace fettle::desk
