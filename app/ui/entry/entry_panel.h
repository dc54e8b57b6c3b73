// The entry being written, as it stands beside every screen: day, hours, text, the parts and tasks
// it speaks of, photos, and worked sheets that calculate while one types. UI thread only.
#pragma once

#include "notebook/parts.h"
#include "notebook/photos.h"
#include "notebook/tasks.h"
#include "ui/beside/snapshot.h"
#include "ui/context.h"
#include "ui/entry/entry_desk.h"
#include "ui/entry/entry_names.h"
#include "ui/widgets/caret_list.h"
#include "ui/widgets/find_as_you_type.h"
#include "ui/worked/sheet_form.h"

#include <string>
#include <vector>

namespace fettle::ui {

// What the records named in the draft are called. One that is gone has a blank name.
struct DraftNames {
    std::vector<Part> parts;
    std::vector<Task> tasks;
    std::vector<Photo> photos;
};

struct DraftIds {
    std::vector<PartId> parts;
    std::vector<TaskId> tasks;
    std::vector<PhotoId> photos;
    bool operator==(const DraftIds&) const = default;
};

// What a person is in the middle of, beside the draft itself.
struct EntryPanelState {
    std::vector<SheetForm> forms; // of the draft's sheets, in their order
    FindLine put_in;
    CaretList at_caret;
    TextCaret caret;
    NamesFollowed named;
    Snapshot<std::vector<NameTold>, NamesToTell> told;
    bool take_caret = false;      // into the text, in the next frame
    bool show_last_sheet = false; // it was just put in: bring it into sight
    Snapshot<std::vector<Candidate>> candidates;
    Snapshot<DraftNames, DraftIds> names;
};

// "Entry, 7 Mar 2026"; "Changing 7 Mar 2026".
std::string entry_title(const EntryDraft& draft);

// "saved as a draft 21:04", "not yet saved", "writing", "nothing written yet".
std::string draft_state(const EntryDesk& desk);

// A fresh sheet at the end of the draft.
void put_in_sheet(Context& context, const calc::Sheet& sheet);
// A task, once; sheets of the draft that nobody has touched go on from it.
void put_in_task(Context& context, TaskId task);

void draw_entry_panel(Page& page, Context& context, EntryDesk& desk, SideWork& work,
                      EntryPanelState& state);

} // namespace fettle::ui
