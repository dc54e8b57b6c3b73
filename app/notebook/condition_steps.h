// How far a part has come, with the days: one step is kept whenever its condition changes.
#pragma once

#include "base/date.h"
#include "notebook/notebook.h"
#include "notebook/words.h"

#include <vector>

namespace fettle {

struct ConditionStep {
    Condition condition = Condition::as_found;
    Day on;
};

// In the order of their days. Parts noted by an earlier version begin with the first change.
Result<std::vector<ConditionStep>> list_condition_steps(const Notebook& notebook, PartId part);

// Changes the condition of a part as of a day that may lie back.
Done set_condition(Notebook& notebook, PartId part, Condition condition, Day on);

// Inside an act: keeps the step. One that goes back on the day of a further one takes its place: it
// was pressed by mistake.
void note_condition(store::Database& database, PartId part, Condition condition, Day on);
// Inside an act: pieces put apart have come as far as those they lay with.
void copy_steps(store::Database& database, PartId from, PartId to);

} // namespace fettle
