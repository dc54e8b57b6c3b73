#include "desk/two_machines.h"

#include "base/text.h"
#include "cli/interrupt.h"
#include "cli/typed.h"
#include "cli/verb.h"
#include "cli/verbs.h"
#include "notebook/differences.h"

#include <ostream>

namespace fettle::cli {
namespace {

struct CarryVerbWish {
    std::string out, name;
    bool everything = false;
};

void declare_carry(CLI::App& verb, CarryVerbWish& wish) {
    verb.add_option("OUT", wish.out,
                    "The file to write, on a stick or wherever the other machine "
                    "finds it")
        ->required();
    verb.add_flag("--everything", wish.everything,
                  "All of it, also what the other machine is known to have");
    verb.add_option("--called", wish.name, "What this machine is to be called on the other one")
        ->option_text("NAME");
    verb.footer(
        "A second machine begins with `fettlebook meet OUT --notebook DIR` in a new or empty "
        "folder; from then\non either machine carries what has changed and meets what came. Before "
        "word has come back,\neverything is carried. Drafts stay where they are written.\n"
        "JSON: {file, everything, nothing_new, photos, left_out}; left_out lists {name, why}.");
}

Result<Report> carry(const Call& call, const CarryVerbWish& wish) {
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    const Interrupt interrupt;
    desk::CarryWish asked{.file = wish.out,
                          .everything = wish.everything,
                          .name = wish.name,
                          .stop = interrupt.token()};
    if (call.err_is_terminal) asked.progress = progress_line(call.err);
    auto report = desk::carry(*notebook, asked);
    if (call.err_is_terminal) call.err << kClearedLine;
    if (!report) return report.failure();
    Json left_out = Json::array();
    for (const auto& photo : report->left_out) {
        call.err << one_line(photo.name + " was left out: " + photo.why) << '\n';
        left_out.push_back({{"name", photo.name}, {"why", photo.why}});
    }
    return Report{desk::in_words(*report) + ": " + one_line(wish.out) + '\n',
                  Json{{"file", wish.out},
                       {"everything", report->everything},
                       {"nothing_new", report->nothing_new},
                       {"photos", report->photos},
                       {"left_out", std::move(left_out)}}};
}

struct MeetVerbWish {
    std::string in;
};

void declare_meet(CLI::App& verb, MeetVerbWish& wish) {
    verb.add_option("IN", wish.in, "The file that was carried from the other machine")->required();
    verb.footer(
        "In a new or empty folder the notebook begins with what was carried; two notebooks that "
        "never\nshared a beginning are refused. Meeting the same file again changes nothing. What "
        "both machines\nchanged differently is kept on both sides: `differences list` shows it. A "
        "meeting is not undone.\n"
        "JSON: {met, with, whole, new, changed, removed, photos, without_file, differences, "
        "nothing_done}; differences\ncounts the new ones, nothing_done says why there was nothing "
        "to do.");
}

Result<Report> meet(const Call& call, const MeetVerbWish& wish) {
    const Interrupt interrupt;
    desk::MeetWish asked{.file = wish.in, .stop = interrupt.token()};
    if (call.err_is_terminal) asked.progress = progress_line(call.err);
    auto report = desk::meet_in(call.notebook, asked);
    if (call.err_is_terminal) call.err << kClearedLine;
    if (!report) return report.failure();
    return Report{one_line(desk::in_words(*report)) + '\n',
                  Json{{"met", report->nothing_done.empty()},
                       {"with", report->met.with},
                       {"whole", report->met.whole},
                       {"new", report->met.made},
                       {"changed", report->met.changed},
                       {"removed", report->met.removed},
                       {"photos", report->photos},
                       {"without_file", report->met.without_file},
                       {"differences", report->met.differences},
                       {"nothing_done", report->nothing_done}}};
}

struct DifferencesWish {
    bool all = false;
};

void declare_differences(CLI::App& verb, DifferencesWish& wish) {
    verb.add_flag("--all", wish.all, "Also those that are settled");
    verb.footer(
        "What this and the other machine changed differently, side by side; what stands is "
        "marked with *.\n"
        "JSON: a list of {difference, kind, of, field, before, here, there, said, settled}; "
        "kind is changed,\nsame tag, removed or circle; here and there hold {side, on, "
        "value, stands}.");
}

Json side_json(const OneSide& side) {
    return {{"side", side.side},
            {"on", to_iso(side.day)},
            {"value", side.words},
            {"stands", side.stands}};
}

std::string kind_word(DifferenceKind kind) {
    switch (kind) {
    case DifferenceKind::changed:
        return "changed";
    case DifferenceKind::same_tag:
        return "same tag";
    case DifferenceKind::removed:
        return "removed";
    case DifferenceKind::circle:
        return "circle";
    }
    return {};
}

std::string side_line(const OneSide& side, const char* where) {
    return std::string(side.stands ? "* " : "  ") + where + "  " + side.side + ", " +
           to_words(side.day) + ": " + one_line(side.words);
}

std::string difference_text(const Difference& one) {
    std::string text = std::to_string(one.id.value) + "  " + one_line(one.of) +
                       (one.field.empty() ? "" : ": " + one.field) + '\n';
    const auto line = [&](const std::string& said) { text += "    " + one_line(said) + '\n'; };
    if (!one.before.empty()) line("  before " + one.before);
    if (!one.here.words.empty() || !one.there.words.empty()) {
        line(side_line(one.here, "here "));
        line(side_line(one.there, "there"));
    }
    if (!one.said().empty()) line("  " + one.said());
    if (!one.settled.empty()) line("  settled " + one.settled);
    return text;
}

Result<Report> differences(const Call& call, const DifferencesWish& wish) {
    auto notebook = call.for_reading();
    if (!notebook) return notebook.failure();
    auto list = list_differences(*notebook, wish.all);
    if (!list) return list.failure();
    std::string text;
    Json json = Json::array();
    for (const auto& one : *list) {
        text += difference_text(one);
        json.push_back({{"difference", one.id.value},
                        {"kind", kind_word(one.kind)},
                        {"of", one.of},
                        {"field", one.field},
                        {"before", one.before},
                        {"here", side_json(one.here)},
                        {"there", side_json(one.there)},
                        {"said", one.said()},
                        {"settled", one.settled}});
    }
    return Report{text.empty() ? "no differences\n" : text, std::move(json)};
}

struct SettleWish {
    std::string id, how, text;
    void check() const {
        if (how.empty() == text.empty())
            throw CLI::ValidationError("say how: here, there or stands, or --text TEXT");
    }
};

void declare_settle(CLI::App& verb, SettleWish& wish) {
    verb.add_option("ID", wish.id, "The difference, as `differences list` numbers it")->required();
    verb.add_option("HOW", wish.how,
                    "here: as on this machine; there: as on the other; stands: leave it");
    verb.add_option("--text", wish.text, "Or another text")->option_text("TEXT");
    verb.footer("It is carried on: the other machine takes it over.\nJSON: {settled}.");
}

Result<Settle> settle_word(const std::string& how) {
    if (how == "here") return Settle::here;
    if (how == "there") return Settle::there;
    if (how == "stands") return Settle::as_it_stands;
    return Failure{FailureKind::invalid,
                   fettle::quoted(how) + " settles nothing: accepted are here, there and stands, "
                                         "or --text with another text."};
}

Result<Report> settle(const Call& call, const SettleWish& wish) {
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    auto id = parse_id<DifferenceId>("difference", wish.id);
    if (!id) return id.failure();
    auto settled = done();
    if (wish.how.empty()) {
        settled = settle_with_text(*notebook, *id, wish.text);
    } else {
        auto how = settle_word(wish.how);
        if (!how) return how.failure();
        settled = settle_difference(*notebook, *id, *how);
    }
    if (!settled) return settled.failure();
    return Report{"settled difference " + std::to_string(id->value) + '\n',
                  Json{{"settled", id->value}}};
}

} // namespace

void add_two_machines(Line& line) {
    add_verb(line, line.app, "carry", "Write what has changed, for the other machine",
             declare_carry, carry);
    add_verb(line, line.app, "meet", "Bring in what was carried from the other machine",
             declare_meet, meet);
    auto& group = add_group(line, "differences",
                            "Show what both machines changed differently, and settle it");
    add_verb(line, group, "list", "Show them side by side", declare_differences, differences);
    add_verb(line, group, "settle", "Say which is to be", declare_settle, settle);
}

} // namespace fettle::cli
