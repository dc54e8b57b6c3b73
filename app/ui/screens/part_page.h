// The page of one part, as the card tied to it: tag and name large, its condition as a line of
// words, what is known; then before and after as a pair, marks, photos, entries and tasks.
#pragma once

#include "notebook/entries.h"
#include "notebook/marks.h"
#include "notebook/photos.h"
#include "notebook/tasks.h"
#include "notebook/ties.h"
#include "ui/screens/part_fields.h"
#include "ui/screens/part_measuring.h"

#include <map>
#include <vector>

namespace fettle::ui {

struct PhotoOfPart {
    Photo photo;
    fettle::Stage stage = fettle::Stage::during;
};

struct PartFacts {
    Part part;
    std::vector<PhotoOfPart> photos;      // in the order of time
    std::vector<Mark> marks;              // read on it
    std::map<std::int64_t, Photo> marked; // the photos of the marks, by id
    std::vector<Entry> entries;           // naming it, the newest first
    std::vector<TaskStanding> tasks;      // that need its position, or whose entries name it
};
Result<PartFacts> read_part(const Notebook& book, PartId id);

// What a person is in the middle of.
struct PartPageState {
    PartId part{}; // none: the screen shows the list
    PartFields fields;
    std::uint64_t filled_for = 0;      // the change counter the fields were filled at
    std::string active;                // the field being written in
    bool takes_keyboard = false;       // it has just been opened
    std::size_t before = 0, after = 0; // which of the photos are shown as the pair
    PartMeasuring measuring;
    Snapshot<PartFacts, std::int64_t> facts;

    void open(PartId id);
};

// Sets state.part to none when the page is left.
void draw_part_page(Page& page, Context& context, SideWork& work, PartPageState& state);

// What the part looked like and what happened to it; the lower part of the page.
void draw_part_story(Page& page, Context& context, PartPageState& state, const PartFacts& facts);

} // namespace fettle::ui
