#include "base/text.h"
#include "cli/records.h"
#include "cli/typed.h"
#include "cli/verb.h"
#include "cli/verbs.h"
#include "notebook/people.h"
#include "notebook/search.h"

namespace fettle::cli {
namespace {

struct FindWish {
    std::vector<std::string> words;
    std::string kind, from, to, part, maker;

    void check() const {
        if (words.empty() && kind.empty() && from.empty() && to.empty() && part.empty() &&
            maker.empty())
            throw CLI::ValidationError("WORDS or one of --kind, --from, --to, --part and --maker "
                                       "is needed");
    }
};

void declare_find(CLI::App& verb, FindWish& wish) {
    verb.add_option("WORDS", wish.words, "Every one of them; the beginning of a word is enough");
    verb.add_option("--kind", wish.kind,
                    "Only part, task, entry, mark, photo, position, consignment, measurement, "
                    "cost, contact or result")
        ->option_text("WORD");
    verb.add_option("--from", wish.from, "Only of this day and later")->option_text("DATE");
    verb.add_option("--to", wish.to, "Only of this day and before")->option_text("DATE");
    verb.add_option("--part", wish.part, "Only what names, shows or holds this part")
        ->option_text("TAG");
    verb.add_option("--maker", wish.maker, "Only what is theirs or bears their mark")
        ->option_text("NAME");
    verb.footer("The best 50, best first; without WORDS the newest first.\n"
                "JSON: a list of {kind, KIND, title, excerpt, on, within}; the second field is "
                "named by the kind and\nholds the tag or number; within is the tag of a "
                "measurement's part or the entry of a worked result.");
}

Result<FindFilter> filter_of(const Notebook& notebook, const FindWish& wish) {
    FindFilter filter{.words = join(wish.words, " ")};
    if (!wish.kind.empty()) {
        auto kind = found_kind(wish.kind);
        if (!kind) return kind.failure();
        filter.kind = *kind;
    }
    auto from = parse_day_or_none(wish.from), to = parse_day_or_none(wish.to);
    if (!from) return from.failure();
    if (!to) return to.failure();
    filter.from = *from;
    filter.to = *to;
    auto part = part_or_none(notebook, wish.part);
    if (!part) return part.failure();
    filter.part = *part;
    if (wish.maker.empty()) return filter;
    auto maker = maker_called(notebook, wish.maker);
    if (!maker) return maker.failure();
    filter.maker = *maker;
    return filter;
}

// What the next command takes for a record: a tag, a number in the parts list, or its id.
Json handle(const Found& found, const Names& names) {
    if (found.kind == FoundKind::part) return names.tag({found.id});
    if (found.kind == FoundKind::position) return names.position({found.id});
    return found.id;
}

Result<Report> find_words(const Call& call, const FindWish& wish) {
    auto notebook = call.for_reading();
    if (!notebook) return notebook.failure();
    auto filter = filter_of(*notebook, wish);
    if (!filter) return filter.failure();
    auto found = find(*notebook, *filter);
    if (!found) return found.failure();
    auto names = names_in(*notebook);
    if (!names) return names.failure();
    Columns columns;
    Json json = Json::array();
    for (const auto& one : *found) {
        const std::string kind(word(one.kind));
        const Json id = handle(one, *names);
        columns.row({kind + ' ' + (id.is_string() ? id.get<std::string>() : id.dump()), one.title,
                     one.excerpt});
        Json within;
        if (one.kind == FoundKind::measurement) within = names->tag({one.within});
        if (one.kind == FoundKind::result) within = one.within;
        json.push_back(Json{{"kind", kind},
                            {kind, id},
                            {"title", one.title},
                            {"excerpt", one.excerpt},
                            {"on", one.day ? Json(to_iso(*one.day)) : Json()},
                            {"within", within}});
    }
    return Report{columns.empty() ? "nothing found\n" : columns.text(), std::move(json)};
}

} // namespace

void add_find(Line& line) {
    add_verb(line, line.app, "find", "Find words in everything the notebook holds", declare_find,
             find_words);
}

} // namespace fettle::cli
