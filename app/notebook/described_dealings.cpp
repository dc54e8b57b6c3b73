#include "notebook/credits.h"
#include "notebook/described_within.h"
#include "notebook/words.h"

namespace fettle {
namespace {

const std::vector<std::string>& did_words() {
    static const std::vector<std::string> words = [] {
        std::vector<std::string> all;
        for (const Did did : kDid)
            all.emplace_back(word(did));
        return all;
    }();
    return words;
}

constexpr ColumnSaid kConsignmentId{"consignment_id", Holds::reference, kAlways, "the consignment",
                                    "consignments"};
constexpr ColumnSaid kPartId{"part_id", Holds::reference, kAlways, "the part", "parts"};
constexpr ColumnSaid kNote{"note", Holds::text, kAlways, "whatever else is to be said"};
constexpr ColumnSaid kCurrency{"currency", Holds::currency, kAlways, "of that amount"};
constexpr ColumnSaid kMaybeCurrency{"currency", Holds::currency, kMaybe, "of that amount"};

constexpr ColumnSaid kConsignments[] = {
    kOwnId,
    {"inward", Holds::flag, kAlways, "whether it comes from a seller; else it goes to a firm"},
    {"contact_id", Holds::reference, kMaybe, "the firm or seller", "contacts"},
    {"purpose", Holds::text, kAlways, "the work it goes for"},
    {"destroys_finish", Holds::flag, kAlways, "whether that takes surfaces off"},
    {"carrier", Holds::text, kAlways, "who carries it"},
    {"carrier_number", Holds::text, kAlways, "their number for it"},
    {"value_minor", Holds::minor, kMaybe, "its declared value; with its currency or not at all"},
    kMaybeCurrency,
    {"sent_on", Holds::day, kMaybe, "when it was sent; nothing: it is being packed"},
    {"due_on", Holds::day, kMaybe, "when it is to be back"},
    {"settled_on", Holds::day, kMaybe, "when it was over"},
    {"settled_how", Holds::text, kAlways, "how, where not all came back"},
    kNote,
};

constexpr ColumnSaid kConsignmentItems[] = {
    kOwnId,
    kConsignmentId,
    kPartId,
    {"quantity", Holds::positive, kAlways, "how many of it", "pieces"},
    {"condition_out", Holds::word, kAlways, "how it went", "", all_words<Condition>},
    {"value_minor", Holds::minor, kMaybe, "what it is worth; with its currency or not at all"},
    kMaybeCurrency,
    {"back", Holds::count, kAlways, "how many came back", "pieces"},
    {"back_on", Holds::day, kMaybe, "when"},
    {"condition_back", Holds::word, kMaybe, "how it came back", "", all_words<Condition>},
    {"settled_how", Holds::text, kAlways, "why what is missing is no longer waited for"},
    kNote,
};

constexpr ColumnSaid kConsignmentPhotos[] = {
    kOwnId,
    kConsignmentId,
    {"photo_id", Holds::reference, kAlways, "a photo of its papers", "photos"},
};

constexpr ColumnSaid kEvidence[] = {
    kOwnId,
    kPartId,
    {"shows", Holds::word, kAlways, "what is shown of how it was found", "", all_words<Evidence>},
    {"photo_id", Holds::reference, kMaybe, "the photo that shows it", "photos"},
    {"none_because", Holds::text, kAlways, "or why there is nothing to show: exactly one of them"},
};

constexpr ColumnSaid kTaskConsignments[] = {
    kOwnId,
    {"task_id", Holds::reference, kAlways, "the task", "tasks"},
    {"consignment_id", Holds::reference, kAlways, "what it waits for", "consignments"},
};

constexpr ColumnSaid kArrivalLooks[] = {
    kOwnId,
    kConsignmentId,
    kPartId,
    {"on_date", Holds::day, kAlways, "when what came back was looked at"},
};

constexpr ColumnSaid kCosts[] = {
    kOwnId,
    {"on_date", Holds::day, kAlways, "when it was paid"},
    {"amount_minor", Holds::minor, kAlways, "how much"},
    kCurrency,
    {"what", Holds::text, kAlways, "for what"},
    {"part_id", Holds::reference, kMaybe, "on which part", "parts"},
    {"task_id", Holds::reference, kMaybe, "or task", "tasks"},
    {"consignment_id", Holds::reference, kMaybe, "or consignment: at most one of the three",
     "consignments"},
    {"contact_id", Holds::reference, kMaybe, "to whom it was paid", "contacts"},
};

constexpr ColumnSaid kEstimates[] = {
    kOwnId,
    {"vehicle_id", Holds::reference, kAlways, "the vehicle", "vehicles"},
    {"parts_group", Holds::text, kAlways, "group of its parts list"},
    {"amount_minor", Holds::minor, kAlways, "what is reckoned with"},
    kCurrency,
};

constexpr ColumnSaid kHelps[] = {
    kOwnId,
    {"contact_id", Holds::reference, kAlways, "who", "contacts"},
    {"did", Holds::word, kAlways, "did", "", did_words},
    {"what", Holds::text, kAlways, "what"},
    {"on_date", Holds::day, kMaybe, "when"},
};

constexpr ColumnSaid kDrafts[] = {
    {"name", Holds::text, kAlways, "what it is a draft of"},
    {"body", Holds::text, kAlways, "what was typed and not written yet"},
    {"changed", Holds::moment, kAlways, "when it was typed"},
};

constexpr TableSaid kTables[] = {
    {"consignments", "Batches sent out to a firm, or on their way in.", kConsignments},
    {"consignment_items", "What is in them, and what came back.", kConsignmentItems},
    {"consignment_photos", "Photos of their papers.", kConsignmentPhotos},
    {"evidence", "What photos show of how a part was found.", kEvidence},
    {"task_consignments", "Consignments that tasks wait for.", kTaskConsignments},
    {"arrival_looks", "That what came back was looked at.", kArrivalLooks},
    {"costs", "Money that went out for something other than buying a part.", kCosts},
    {"estimates", "What was reckoned with, by group.", kEstimates},
    {"helps", "What people did, as told.", kHelps},
    {"drafts", "What a person is in the middle of.", kDrafts},
};

} // namespace

std::span<const TableSaid> described_dealings() {
    return kTables;
}

} // namespace fettle
