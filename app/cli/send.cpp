// send: makes a consignment, puts parts on, changes its head.
#include "base/text.h"
#include "cli/consignment_report.h"
#include "cli/typed.h"
#include "cli/verbs.h"

#include <algorithm>

namespace fettle::cli {
namespace {

struct SendWish {
    std::vector<std::string> words; // CONSIGNMENT when it is known, TAG[=PIECES]
    std::string to, from, purpose, finish, carrier, number, value, due, on, note;
    std::string without_evidence;
    std::vector<std::string> worth, off, papers;
    bool packed = false;

    bool makes() const { return !to.empty() || !from.empty(); }
    void check() const {
        if (!to.empty() && !from.empty())
            throw CLI::ValidationError("--to and --from exclude each other");
        if (makes() && purpose.empty())
            throw CLI::ValidationError("--for is required, such as --for blasting");
        if (!makes() && words.empty())
            throw CLI::ValidationError("--to FIRM, or the number of a consignment, is required");
        if (packed && !on.empty())
            throw CLI::ValidationError("--packed and --on exclude each other");
        if (!finish.empty() && finish != "goes" && finish != "stays")
            throw CLI::ValidationError("--finish is goes or stays");
    }
};

void declare_send(CLI::App& verb, SendWish& wish) {
    verb.add_option("TAG[=PIECES]", wish.words,
                    "Parts to put on, pieces of a lot after =; without --to and --from the number "
                    "of the consignment comes first");
    verb.add_option("--to", wish.to, "Make a consignment to this firm")->option_text("FIRM");
    verb.add_option("--from", wish.from, "Make one that is on its way in from this seller")
        ->option_text("SELLER");
    verb.add_option("--for", wish.purpose, "What for: " + join(usual_purposes(), ", ") + " ...")
        ->option_text("PURPOSE");
    verb.add_option("--finish", wish.finish,
                    "Whether the work takes the old surface off: goes or stays; without it as the "
                    "purpose says")
        ->option_text("WORD");
    verb.add_option("--carrier", wish.carrier, "Who carries it")->option_text("NAME");
    verb.add_option("--number", wish.number, "The carrier's number of it")->option_text("TEXT");
    verb.add_option("--value", wish.value, "Declared value of the whole, such as \"120 GBP\"")
        ->option_text("MONEY");
    add_repeated(verb, "--worth", wish.worth, "Declared value of one item, such as H7=\"40 GBP\"")
        ->option_text("TAG=MONEY");
    verb.add_option("--due", wish.due, "When it is to be back")->option_text("DATE");
    verb.add_option("--on", wish.on, "The day of sending; without it today")->option_text("DATE");
    verb.add_flag("--packed", wish.packed, "It is packed only, and not sent yet");
    verb.add_option("--note", wish.note, "Whatever else there is to say")->option_text("TEXT");
    verb.add_option("--without-evidence", wish.without_evidence,
                    "Why parts go without photos of what the work takes off")
        ->option_text("REASON");
    add_repeated(verb, "--off", wish.off, "Take this part off again")->option_text("TAG");
    add_repeated(verb, "--paper", wish.papers, "A photo of a paper that goes with it")
        ->option_text("PHOTO");
    verb.footer(std::string("All of one call happens or nothing.\nJSON: ") + kConsignmentFields +
                ".");
}

Done put_value(PutOn& wish, const Notebook& notebook, const std::vector<std::string>& worth) {
    for (const auto& typed : worth) {
        auto pair = parse_pair(typed, SplitAt::first, "TAG=MONEY, such as H7=\"40 GBP\"");
        if (!pair) return pair.failure();
        auto part = part_tagged(notebook, pair->first);
        if (!part) return part.failure();
        auto money = parse_money(pair->second);
        if (!money) return money.failure();
        if (part->id == wish.part) wish.value = *money;
    }
    return done();
}

Done read_head(Consignment& head, const SendWish& wish) {
    const auto put = [](std::string& field, const std::string& typed) {
        if (!typed.empty()) field = typed;
    };
    if (wish.makes()) head.inward = wish.to.empty();
    put(head.firm, wish.to + wish.from);
    put(head.purpose, wish.purpose);
    if (!wish.purpose.empty())
        head.destroys_finish = !head.inward && takes_finish_off(head.purpose);
    if (!wish.finish.empty()) head.destroys_finish = wish.finish == "goes";
    put(head.carrier, wish.carrier);
    put(head.carrier_number, wish.number);
    put(head.note, wish.note);
    if (!wish.value.empty()) {
        auto money = parse_money(wish.value);
        if (!money) return money.failure();
        head.value = *money;
    }
    if (!wish.due.empty()) {
        auto day = parse_day(wish.due);
        if (!day) return day.failure();
        head.due_on = *day;
    }
    return done();
}

// One sentence for all parts that lack evidence, with the way round it.
Done all_photographed(const Notebook& notebook, ConsignmentId id, const std::vector<PutOn>& parts) {
    std::string list;
    for (const auto& wish : parts) {
        auto lacks = evidence_wanted(notebook, id, wish.part);
        if (!lacks) return lacks.failure();
        if (lacks->empty()) continue;
        auto part = part_by_id(notebook, wish.part);
        if (!part) return part.failure();
        list += (list.empty() ? "" : " | ") + part->tag + ": " + join(*lacks, "; ");
    }
    if (list.empty()) return done();
    return Failure{FailureKind::refused,
                   "Photograph first what the work takes off, or give --without-evidence REASON: " +
                       list + "."};
}

Done put_all_on(Notebook& notebook, ConsignmentId id, const SendWish& wish,
                const std::vector<std::string>& tags) {
    std::vector<PutOn> parts;
    for (const auto& typed : tags) {
        auto tagged = parse_tagged_pieces(notebook, typed);
        if (!tagged) return tagged.failure();
        PutOn part{.part = tagged->part,
                   .pieces = tagged->pieces,
                   .without_evidence = wish.without_evidence};
        if (auto put = put_value(part, notebook, wish.worth); !put) return put;
        parts.push_back(std::move(part));
    }
    if (trim(wish.without_evidence).empty())
        if (auto fine = all_photographed(notebook, id, parts); !fine) return fine;
    for (const auto& part : parts)
        if (auto put = put_on(notebook, id, part); !put) return put;
    return done();
}

Result<ConsignmentId> head_kept(Notebook& notebook, const SendWish& wish,
                                std::vector<std::string>& tags) {
    Consignment head;
    if (!wish.makes()) {
        auto id = parse_id<ConsignmentId>("consignment", tags.front());
        if (!id) return id.failure();
        auto known = consignment_by_id(notebook, *id);
        if (!known) return known.failure();
        head = std::move(*known);
        tags.erase(tags.begin());
    }
    if (auto read = read_head(head, wish); !read) return read.failure();
    return keep_consignment(notebook, head);
}

Result<ConsignmentId> send_within(Notebook& notebook, const SendWish& wish) {
    auto tags = wish.words;
    auto id = head_kept(notebook, wish, tags);
    if (!id) return id;
    auto off = parts_tagged(notebook, wish.off);
    if (!off) return off.failure();
    for (const auto part : *off)
        if (auto taken = take_off(notebook, *id, part); !taken) return taken.failure();
    if (auto put = put_all_on(notebook, *id, wish, tags); !put) return put.failure();
    auto papers = parse_ids<PhotoId>("photo", wish.papers);
    if (!papers) return papers.failure();
    for (const auto photo : *papers)
        if (auto added = add_paper(notebook, *id, photo); !added) return added.failure();
    auto on = parse_day_or_today(wish.on);
    if (!on) return on.failure();
    const bool goes = wish.makes() ? !wish.packed && !tags.empty() : !wish.on.empty();
    if (goes)
        if (auto sent = send_consignment(notebook, *id, *on); !sent) return sent.failure();
    return id;
}

Result<Report> send(const Call& call, const SendWish& wish) {
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    const std::string whom = wish.to + wish.from;
    const std::string words =
        wish.makes()
            ? (wish.to.empty() ? "noted a consignment from " : "made a consignment to ") + whom
            : "changed consignment " + wish.words.front();
    auto id = notebook->act(words, [&](store::Database&) { return send_within(*notebook, wish); });
    if (!id) return id.failure();
    return consignment_report(*notebook, *id);
}

} // namespace

void add_send(Line& line) {
    add_verb(line, line.app, "send", "Send parts to a firm, or note parts on their way in",
             declare_send, send);
}

} // namespace fettle::cli
