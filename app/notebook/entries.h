// The build log: dated entries with hours, text, and what they speak of.
#pragma once

#include "base/date.h"
#include "notebook/notebook.h"
#include "notebook/ties.h"

#include <vector>

namespace fettle {

// One calculation kept on an entry. The answer is JSON as app/calc writes it; the notebook keeps it
// whole and does not look inside.
struct WorkedResult {
    WorkedResultId id;
    EntryId entry;
    std::string sheet; // "shim.stack"
    std::string plugin_version;
    std::string answer;
};

struct PhotoAtStage {
    PhotoId photo;
    Stage stage = Stage::during;
};

struct Entry {
    EntryId id;
    Day day{};
    std::optional<double> hours;
    std::string text; // Markdown
    std::vector<PartId> parts;
    std::vector<TaskId> tasks;
    std::vector<PhotoAtStage> photos;
    std::vector<WorkedResult> results;
};

struct EntryFilter {
    PartId part{};
    TaskId task{};
};

// Writes the whole entry as one act: a new one, or over the one with its id (parts, tasks, photos
// and results are then replaced by those given). Refused: no text and nothing attached; hours
// outside 0 to 24.
Result<EntryId> write_entry(Notebook& notebook, const Entry& entry);
Done remove_entry(Notebook& notebook, EntryId id);
// Adds one more worked result to an entry.
Result<WorkedResultId> add_result(Notebook& notebook, EntryId entry, const WorkedResult& result);
Result<WorkedResult> result_by_id(const Notebook& notebook, WorkedResultId id);

Result<Entry> entry_by_id(const Notebook& notebook, EntryId id);
// The newest day first, and on one day the last written first.
struct EntryOnDay {
    EntryId id;
    Day day{};
};
// What there is, without what stands in it: for lists that read only what is in sight.
Result<std::vector<EntryOnDay>> list_entry_days(const Notebook& notebook);
// In the same order.
Result<std::vector<Entry>> list_entries(const Notebook& notebook, const EntryFilter& filter = {});

} // namespace fettle
