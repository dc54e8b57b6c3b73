// The page of one part, as the card tied to it: tag and name large, its condition as a line of
// words, what is known; then before and after as a pair, photos by stage, marks, measurements,
// tasks and its life day by day.
#pragma once

#include "notebook/condition_steps.h"
#include "notebook/consignments.h"
#include "notebook/entries.h"
#include "notebook/evidence.h"
#include "notebook/marks.h"
#include "notebook/part_life.h"
#include "notebook/part_pieces.h"
#include "notebook/photos.h"
#include "notebook/tasks.h"
#include "notebook/ties.h"
#include "ui/screens/parts/part_fields.h"
#include "ui/screens/parts/part_measuring.h"

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
    std::vector<ConditionStep> steps;     // how it came so far
    std::vector<Away> away;               // with whom it is, when it is not at hand
    std::vector<EvidenceLine> evidence;   // what photos show before its surface goes
    std::vector<Part> pieces;             // of an assembly
    std::optional<Part> holder;           // the assembly it is a piece of
    std::vector<LifeLine> life;           // day by day
    std::vector<Money> costs;             // paid for it so far, by currency
};
Result<PartFacts> read_part(const Notebook& book, PartId id);

// What a person is in the middle of.
struct PartPageState {
    PartId part{}; // none: the screen shows the list
    PartFields fields;
    std::uint64_t filled_for = 0;      // the reading of the facts the fields were filled from
    std::string active;                // the field being written in
    bool takes_keyboard = false;       // it has just been opened
    std::size_t before = 0, after = 0; // which of the photos are shown as the pair
    PartMeasuring measuring;
    bool putting_in = false; // a further piece is being named
    bool splitting = false;  // its pieces are being typed, a line each
    std::string pieces_typed, pieces_used, pieces_trouble;
    std::string divide_typed, divide_tag, divide_trouble; // pieces for a bag of their own
    std::string put_in;                                   // a further piece, by its tag
    std::string none_of, none_because; // the evidence said to be none, and why, being written
    Snapshot<PartFacts, std::int64_t> facts;

    void open(PartId id);
};

// Sets state.part to none when the page is left.
void draw_part_page(Page& page, Context& context, SideWork& work, PartPageState& state);

// With whom it is, and the days of its condition; below its condition. (part_evidence.cpp)
void draw_whereabouts(Page& page, Context& context, const PartFacts& facts);
// What to photograph before its surface goes, and what the photos of it show.
void draw_evidence(Page& page, Context& context, PartPageState& state, const PartFacts& facts);

// How many of a lot are used; the pieces of an assembly, splitting it and putting it together.
// (part_pieces.cpp)
void draw_pieces(Page& page, Context& context, PartPageState& state, const PartFacts& facts);

// What the part looked like and what happened to it; the lower part of the page.
void draw_part_story(Page& page, Context& context, PartPageState& state, const PartFacts& facts);

} // namespace fettle::ui
