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

// Of each sheet that has results on a task, the newest, and how many there are; newest first.
struct LatestResult {
    Day day{};
    int kept = 0;
    calc::Answer answer;
};
Result<std::vector<LatestResult>> latest_results(const Notebook& notebook, TaskId task);

} // namespace fettle::desk
