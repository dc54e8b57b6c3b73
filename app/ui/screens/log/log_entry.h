// One entry of the Log, read with the names of what it speaks of, and drawn.
#pragma once

#include "base/names_in_text.h"
#include "calc/run_sheet.h"
#include "notebook/entries.h"
#include "notebook/parts.h"
#include "notebook/photos.h"
#include "notebook/tasks.h"
#include "ui/beside/side_work.h"
#include "ui/context.h"
#include "ui/worked/sheet_results.h"

#include <map>
#include <memory>
#include <optional>
#include <vector>

namespace fettle::ui {

struct LoggedResult {
    WorkedResult record;
    std::optional<ShownAnswer> shown;
    std::string trouble; // why it cannot be shown
};

struct LoggedEntry {
    Entry entry;
    CutText text; // its names lead to what the entry is tied to
    std::vector<Part> parts;
    std::vector<Task> tasks;
    std::vector<Photo> photos;
    std::vector<Stage> stages; // of the photos
    std::vector<LoggedResult> results;
};
LoggedEntry read_logged(const Notebook& book, EntryId id);

// What a person does with a kept result: unfolds its working, runs it again.
struct ResultState {
    bool working_open = false, fresh_working_open = false;
    std::shared_ptr<Coming<calc::SheetRun>> again;
    std::optional<ShownAnswer> fresh; // today's answer, where it differs
    std::string said;                 // how running it again went
};
using ResultStates = std::map<WorkedResultId, ResultState>;

struct EntryTools {
    Context& context;
    SideWork& work;
    ResultStates& results;
};
// Text with the results that stand in it, photos, other results, parts and tasks, in what is left
// of the line. Keys begin `log.ID.`.
void draw_logged(Page& page, const LoggedEntry& logged, const EntryTools& tools);

} // namespace fettle::ui
