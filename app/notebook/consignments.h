// Consignments: batches of parts sent out to a firm, or on their way in from a seller: what went,
// what came back, what is missing, papers, declared value. All acts can be undone.
#pragma once

#include "base/date.h"
#include "notebook/money.h"
#include "notebook/notebook.h"
#include "notebook/words.h"

#include <string>
#include <string_view>
#include <vector>

namespace fettle {

struct ConsignmentItem {
    PartId part{};
    std::string tag, name; // read only, as is `lot`
    int lot = 1;           // pieces the part holds
    int quantity = 1;      // pieces that went
    Condition condition_out = Condition::as_found;
    std::optional<Money> value; // declared, of all these pieces
    int back = 0;               // pieces that came
    std::optional<Day> back_on;
    std::optional<Condition> condition_back;
    std::string settled_how; // why what is missing is no longer waited for
    std::string note;

    int missing() const { return quantity - back; }
    bool awaited() const { return missing() > 0 && settled_how.empty(); }
};

// Packed: not on its way yet. Overdue: its day is past and something is still waited for. Over:
// nothing is waited for any longer.
enum class ConsignmentState { packed, out, overdue, over };

struct Consignment {
    ConsignmentId id{};
    bool inward = false; // on its way in from a seller
    std::string firm;    // a contact, by name
    std::string purpose;
    bool destroys_finish = false; // the work takes the old surface off
    std::string carrier, carrier_number;
    std::optional<Money> value; // declared, of the whole
    std::optional<Day> sent_on, due_on;
    std::optional<Day> settled_on; // read only: when nothing was waited for any longer
    std::string settled_how;       // read only
    std::string note;
    std::vector<ConsignmentItem> items; // read only; the acts below change them
    std::vector<PhotoId> papers;        // read only

    ConsignmentState state(Day today) const;
    const ConsignmentItem* item(PartId part) const; // nullptr when it does not hold it
};

// "out 12 days, due 3 Apr 2026", "overdue 5 days", "on its way 3 days", "packed, not sent yet",
// "all back 3 Apr 2026", "settled 3 Apr 2026".
std::string standing_words(const Consignment& consignment, Day today);
// How an item stands: "2 of 6 missing", "back 3 Apr 2026", "out", "missing, settled: 2 of 6 lost".
std::string standing_words(const ConsignmentItem& item, bool inward = false);
// "6 of 8" for a lot; blank for a single piece.
std::string pieces_words(const ConsignmentItem& item);

// Purposes to choose among; others may be written. True for one that takes the old surface off:
// blasting, stripping, plating and the like, by the words it holds.
const std::vector<std::string>& usual_purposes();
bool takes_finish_off(std::string_view purpose);

// Adds the consignment, or overwrites the head of the one with that id (all but its items and
// papers). Refused: no firm, no purpose, due before it is sent, sent after something came.
Result<ConsignmentId> keep_consignment(Notebook& notebook, const Consignment& consignment);
Result<Consignment> consignment_by_id(const Notebook& notebook, ConsignmentId id);
// What is being packed first, then what is waited for, the longest overdue before the rest; then
// what is over, the last first.
Result<std::vector<Consignment>> list_consignments(const Notebook& notebook, Day today);

struct PutOn {
    PartId part{};
    int pieces = 0; // 0: all that are at hand
    std::optional<Money> value;
    std::string note;
    // Why it goes without evidence (notebook/evidence.h) where the work takes the finish off; kept
    // in the item's note. Blank: then it is refused.
    std::string without_evidence;
};
// Puts a part, or pieces of a lot, on. Refused: pieces that are out elsewhere, a part that is on it
// already, missing evidence (the sentence lists what to photograph), a consignment that is over.
Done put_on(Notebook& notebook, ConsignmentId id, const PutOn& wish);
// What of the evidence is missing for a part that goes there; empty where it does not matter.
Result<std::vector<std::string>> evidence_wanted(const Notebook& notebook, ConsignmentId id,
                                                 PartId part);
// Refused when pieces of it came back.
Done take_off(Notebook& notebook, ConsignmentId id, PartId part);
Done send_consignment(Notebook& notebook, ConsignmentId id, Day on);

struct CameBack {
    PartId part{};
    int pieces = 0; // 0: all that are missing
};
struct Receipt {
    std::vector<CameBack> items;
    Day on;
    std::optional<Condition> condition; // in which they came; none: as they went
    PhotoId paper{};                    // kept with the papers
};
// Ticks items off. The condition becomes the part's as soon as all pieces at hand came with it: of
// a lot that went in part, the rest keeps the lot's. What was settled may still turn up.
Done receive(Notebook& notebook, ConsignmentId id, const Receipt& receipt);
// Says why what is missing is no longer waited for: lost, paid, scrapped.
Done settle_item(Notebook& notebook, ConsignmentId id, PartId part, const std::string& how, Day on);
// The same for all that is missing.
Done settle_consignment(Notebook& notebook, ConsignmentId id, const std::string& how, Day on);

Done add_paper(Notebook& notebook, ConsignmentId id, PhotoId photo);
Done drop_paper(Notebook& notebook, ConsignmentId id, PhotoId photo);

// Where pieces of a part are that are not at hand.
struct Away {
    ConsignmentId consignment{};
    bool inward = false;
    std::string firm, purpose;
    int pieces = 0;
    std::optional<Day> since, due;
    std::string settled_how; // lost: no longer waited for
    std::string within;      // the tag of the assembly it is away in; blank: by itself
};
Result<std::vector<Away>> whereabouts(const Notebook& notebook, PartId part);
// "with Saltash Row Blasting since 3 Mar 2026 for blasting, due 20 Mar 2026".
std::string away_words(const Away& away, const Day& today);

// A photo in which tags of awaited items were read.
struct SeenTags {
    PhotoId photo{};
    std::vector<PartId> parts;
};
// Which awaited items the photo shows, by the tags read in it.
Result<std::vector<PartId>> awaited_in_photo(const Notebook& notebook, ConsignmentId id,
                                             PhotoId photo);
// Photos taken since the day of sending that show any, the last first.
Result<std::vector<SeenTags>> photos_of_arrival(const Notebook& notebook, ConsignmentId id);

} // namespace fettle
