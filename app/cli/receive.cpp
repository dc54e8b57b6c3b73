// receive: ticks items of a consignment off; consignments: lists them; packing-list and claim-pack.
#include "base/text.h"
#include "cli/consignment_report.h"
#include "cli/typed.h"
#include "cli/verbs.h"
#include "desk/consignment_papers.h"

#include <algorithm>

namespace fettle::cli {
namespace {

struct ReceiveWish {
    std::string consignment, condition, on, by_photo, rest;
    std::vector<std::string> tags, settle, papers;
    bool all = false;

    void check() const {
        if (all && !(tags.empty() && by_photo.empty()))
            throw CLI::ValidationError("--all goes without tags and --by-photo");
        if (settle.size() % 2 != 0)
            throw CLI::ValidationError("--settle takes a tag and the words how");
    }
};

void declare_receive(CLI::App& verb, ReceiveWish& wish) {
    verb.add_option("CONSIGNMENT", wish.consignment, "Its number")->required();
    verb.add_option("TAG[=PIECES]", wish.tags, "What came, pieces of a lot after =");
    verb.add_flag("--all", wish.all, "All that is missing came");
    verb.add_option("--by-photo", wish.by_photo,
                    "What came is what this photo shows by its tags; the photo becomes a paper")
        ->option_text("PHOTO");
    verb.add_option("--condition", wish.condition,
                    "In which condition they came: " + join(all_words<Condition>(), ", "))
        ->option_text("WORD");
    verb.add_option("--on", wish.on, "The day they came; without it today")->option_text("DATE");
    verb.add_option("--settle", wish.settle,
                    "Wait no longer for this part, and why, such as H7 \"lost by the carrier\"")
        ->option_text("TAG WORDS")
        ->type_size(2);
    verb.add_option("--settle-rest", wish.rest, "Wait no longer for anything missing, and why")
        ->option_text("WORDS");
    add_repeated(verb, "--paper", wish.papers, "A photo of a paper that came with it")
        ->option_text("PHOTO");
    verb.footer(std::string("What is missing stays listed until it comes or is settled. Without "
                            "anything to do the\nconsignment is shown.\nJSON: ") +
                kConsignmentFields + ".");
}

Done read_photo(const Notebook& notebook, ConsignmentId id, const std::string& typed,
                Receipt& receipt) {
    auto photo = parse_id<PhotoId>("photo", typed);
    if (!photo) return photo.failure();
    auto seen = awaited_in_photo(notebook, id, *photo);
    if (!seen) return seen.failure();
    if (seen->empty())
        return Failure{FailureKind::refused,
                       "Photo " + typed + " shows no tag of what is missing of consignment " +
                           std::to_string(id.value) + "."};
    receipt.paper = *photo;
    for (const auto part : *seen)
        if (std::ranges::find(receipt.items, part, &CameBack::part) == receipt.items.end())
            receipt.items.push_back({part});
    return done();
}

Done read_all(const Notebook& notebook, ConsignmentId id, Receipt& receipt) {
    auto from = consignment_by_id(notebook, id);
    if (!from) return from.failure();
    for (const auto& item : from->items)
        if (item.awaited()) receipt.items.push_back({item.part});
    if (!receipt.items.empty()) return done();
    return Failure{FailureKind::refused,
                   "Nothing is missing of consignment " + std::to_string(id.value) + "."};
}

Result<Receipt> receipt_of(const Notebook& notebook, ConsignmentId id, const ReceiveWish& wish,
                           Day on) {
    Receipt receipt{.on = on};
    for (const auto& typed : wish.tags) {
        auto came = parse_tagged_pieces(notebook, typed);
        if (!came) return came.failure();
        receipt.items.push_back({came->part, came->pieces});
    }
    if (!wish.condition.empty()) {
        auto condition = from_word<Condition>(wish.condition);
        if (!condition) return condition.failure();
        receipt.condition = *condition;
    }
    if (wish.all)
        if (auto read = read_all(notebook, id, receipt); !read) return read.failure();
    if (!wish.by_photo.empty())
        if (auto read = read_photo(notebook, id, wish.by_photo, receipt); !read)
            return read.failure();
    return receipt;
}

Done receive_within(Notebook& notebook, ConsignmentId id, const ReceiveWish& wish) {
    auto on = parse_day_or_today(wish.on);
    if (!on) return on.failure();
    auto receipt = receipt_of(notebook, id, wish, *on);
    if (!receipt) return receipt.failure();
    if (!receipt->items.empty())
        if (auto came = receive(notebook, id, *receipt); !came) return came;
    for (std::size_t at = 0; at < wish.settle.size(); at += 2) {
        auto part = part_tagged(notebook, wish.settle[at]);
        if (!part) return part.failure();
        if (auto settled = settle_item(notebook, id, part->id, wish.settle[at + 1], *on); !settled)
            return settled;
    }
    if (!wish.rest.empty())
        if (auto settled = settle_consignment(notebook, id, wish.rest, *on); !settled)
            return settled;
    auto papers = parse_ids<PhotoId>("photo", wish.papers);
    if (!papers) return papers.failure();
    for (const auto photo : *papers)
        if (auto added = add_paper(notebook, id, photo); !added) return added;
    return done();
}

Result<Report> receive_verb(const Call& call, const ReceiveWish& wish) {
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    auto id = parse_id<ConsignmentId>("consignment", wish.consignment);
    if (!id) return id.failure();
    auto received =
        notebook->act("received of consignment " + wish.consignment,
                      [&](store::Database&) { return receive_within(*notebook, *id, wish); });
    if (!received) return received.failure();
    return consignment_report(*notebook, *id);
}

struct ConsignmentsWish {
    std::string consignment;
    bool all = false;
};

void declare_consignments(CLI::App& verb, ConsignmentsWish& wish) {
    verb.add_option("CONSIGNMENT", wish.consignment, "Show this one, with its items");
    verb.add_flag("--all", wish.all, "Those that are over, too");
    verb.footer(std::string("Overdue ones come first.\nJSON: a list of, or for one: ") +
                kConsignmentFields + ".");
}

Result<Report> list_of_consignments(const Notebook& notebook, bool with_over) {
    auto all = list_consignments(notebook, today());
    if (!all) return all.failure();
    Columns columns({"", "whom", "for", "stands", "missing"});
    Json json = Json::array();
    for (const auto& one : *all) {
        if (!with_over && one.state(today()) == ConsignmentState::over) continue;
        auto told = consignment_json(notebook, one);
        if (!told) return told.failure();
        json.push_back(std::move(*told));
        const auto missing = missing_words(one);
        columns.row({"consignment " + std::to_string(one.id.value),
                     (one.inward ? "from " : "to ") + one.firm, one.purpose,
                     standing_words(one, today()),
                     missing.empty() ? "" : missing.substr(std::string("missing: ").size())});
    }
    return Report{columns.empty() ? "nothing is out\n" : columns.text(), std::move(json)};
}

Result<Report> consignments_verb(const Call& call, const ConsignmentsWish& wish) {
    auto notebook = call.for_reading();
    if (!notebook) return notebook.failure();
    if (wish.consignment.empty()) return list_of_consignments(*notebook, wish.all);
    auto id = parse_id<ConsignmentId>("consignment", wish.consignment);
    if (!id) return id.failure();
    return consignment_report(*notebook, *id);
}

struct PaperWish {
    std::string consignment, file;
};

void declare_paper(CLI::App& verb, PaperWish& wish) {
    verb.add_option("CONSIGNMENT", wish.consignment, "Its number")->required();
    verb.add_option("OUT.pdf", wish.file, "The file to write")->required();
    verb.footer("A4. Photos are drawn anew; nothing else of their files goes along.\n"
                "JSON: {file, pages}.");
}

template <desk::ConsignmentPaper kind>
Result<Report> paper_verb(const Call& call, const PaperWish& wish) {
    auto notebook = call.for_reading();
    if (!notebook) return notebook.failure();
    auto id = parse_id<ConsignmentId>("consignment", wish.consignment);
    if (!id) return id.failure();
    auto pages = desk::write_paper(*notebook, *id, kind, wish.file);
    if (!pages) return pages.failure();
    return Report{one_line(counted(std::size_t(*pages), "page") + " in " + wish.file) + '\n',
                  {{"file", wish.file}, {"pages", *pages}}};
}

} // namespace

void add_receive(Line& line) {
    add_verb(line, line.app, "receive", "Tick off what came back, and list what is missing",
             declare_receive, receive_verb);
    add_verb(line, line.app, "consignments", "List what is out and what is overdue, or show one",
             declare_consignments, consignments_verb);
    add_verb(line, line.app, "packing-list", "Write the packing list of a consignment as PDF",
             declare_paper, paper_verb<desk::ConsignmentPaper::packing_list>);
    add_verb(line, line.app, "claim-pack", "Write the claim for what was lost as PDF",
             declare_paper, paper_verb<desk::ConsignmentPaper::claim_pack>);
}

} // namespace fettle::cli
