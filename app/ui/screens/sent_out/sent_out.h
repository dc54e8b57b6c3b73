// Sent out: one consignment a block: to whom, what for, since when, a line an item with out, back
// or missing, papers. Parts are put on and ticked off in the block that is chosen.
#pragma once

#include "notebook/consignments.h"
#include "notebook/photos.h"
#include "ui/beside/side_work.h"
#include "ui/context.h"
#include "ui/screens/sent_out/consignment_form.h"

#include <map>
#include <memory>
#include <string>
#include <vector>

namespace fettle::ui {

// One consignment with all that its block shows.
struct ShownConsignment {
    Consignment all;
    std::map<std::int64_t, std::vector<std::string>> lacks; // evidence, by part
    std::vector<SeenTags> arrivals;
    std::map<std::int64_t, Photo> photos; // of papers and arrivals
};
Result<std::vector<ShownConsignment>> read_consignments(const Notebook& book, Day today);

// What a person is in the middle of in the chosen block.
enum class Doing { nothing, putting_on, receiving, settling, choosing_papers };

struct SentOutState {
    ConsignmentForm form;
    bool writing = false; // the form is open
    ConsignmentId at{}, wanted{};
    int last_frame = -1;
    bool with_over = false;
    bool bring_up = false; // the chosen block goes to the top: something is done in it

    Doing doing = Doing::nothing;
    FindLine line;
    std::string pieces, value, day, reason, error;
    int condition = 0;              // 0: as they went; else one of the conditions
    PartId part{};                  // being settled, or held back for want of evidence
    std::vector<std::string> lacks; // of that part
    Snapshot<std::vector<Candidate>> parts;
    Snapshot<std::vector<Photo>, std::int64_t> lately; // photos that may be papers

    std::shared_ptr<Coming<Result<std::string>>> paper =
        std::make_shared<Coming<Result<std::string>>>();
    std::string paper_said, paper_failed;

    Snapshot<std::vector<ShownConsignment>, Day> list;

    void begin(Doing what);
};

void draw_sent_out(Page& page, Context& context, SideWork& work, SentOutState& state);
void lead_to(SentOutState& state, const Place& place);
// "2 out", "1 late"; blank when nothing is.
std::string sent_out_count(const std::vector<Consignment>& all, Day today);

// The lines below the acts of the chosen block (sent_out_acts.cpp): what is being done, and its
// fields.
void draw_consignment_acts(Page& page, Context& context, SideWork& work, SentOutState& state,
                           const ShownConsignment& shown);
// "came" beside an item while things are ticked off.
void receive_item(Context& context, SentOutState& state, const Consignment& all, PartId part);

} // namespace fettle::ui
