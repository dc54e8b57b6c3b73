#include "base/text.h"
#include "cli/records.h"
#include "cli/verb.h"
#include "cli/verbs.h"
#include "notebook/search.h"

namespace fettle::cli {
namespace {

struct FindWish {
    std::vector<std::string> words;
};

void declare_find(CLI::App& verb, FindWish& wish) {
    verb.add_option("WORDS", wish.words, "Every one of them; the beginning of a word is enough")
        ->required();
    verb.footer("The best 50, best first.\n"
                "JSON: a list of {kind, part | task | entry | mark | photo | position, title, "
                "excerpt}; the second\nfield is named by the kind and holds the tag or number.");
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
    auto found = find(*notebook, join(wish.words, " "));
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
        json.push_back(
            Json{{"kind", kind}, {kind, id}, {"title", one.title}, {"excerpt", one.excerpt}});
    }
    return Report{columns.empty() ? "nothing found\n" : columns.text(), std::move(json)};
}

} // namespace

void add_find(Line& line) {
    add_verb(line, line.app, "find",
             "Find words in parts, tasks, entries, marks, photos and positions", declare_find,
             find_words);
}

} // namespace fettle::cli
