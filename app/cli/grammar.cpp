#include "cli/grammar.h"

#include "base/text.h"
#include "desk/book.h"
#include "notebook/consignments.h"
#include "notebook/search.h"
#include "notebook/words.h"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <array>
#include <map>

namespace fettle::cli {
namespace {

using Words = std::vector<std::string>;

Words kinds_of_found() {
    Words kinds;
    for (const FoundKind kind : kFoundKinds)
        kinds.emplace_back(word(kind));
    return kinds;
}

Words parts_of_book() {
    Words parts;
    for (const desk::BookPart part : desk::all_book_parts())
        parts.emplace_back(desk::word(part));
    return parts;
}

// A purpose is kept as it is typed, so one with blanks cannot be offered with hyphens.
Words purposes_of_one_word() {
    Words purposes = usual_purposes();
    std::erase_if(purposes,
                  [](const std::string& words) { return words.find(' ') != std::string::npos; });
    return purposes;
}

// Options that take one of a few words, with their placeholders, which do not list them.
const Words* closed_choice(const OptionWords& option) {
    static const std::map<std::string, Words> choices = {
        {"--by ORDER", {"date", "group"}},
        {"--by WORD", {"part", "task", "consignment", "group", "month"}},
        {"--condition WORD", all_words<Condition>()},
        {"--decision WORD", all_words<Decision>()},
        {"--finish WORD", {"goes", "stays"}},
        {"--for PURPOSE", purposes_of_one_word()},
        {"--kind WORD", kinds_of_found()},
        {"--look KIND", {"lit", "relief", "depth", "albedo"}},
        {"--none WORD", all_words<Evidence>()},
        {"--origin WORD", all_words<Origin>()},
        {"--paper PAPER", {"a4", "letter"}},
        {"--shows WORD", all_words<Evidence>()},
        {"--size SIZE", {"small", "medium", "large"}},
        {"--stage STAGE", all_words<Stage>()},
        {"--sure WORD", all_words<Sureness>()},
        {"--units WORD", {"si", "inch"}},
        {"--without WHAT", parts_of_book()},
        {"HOW HOW", {"here", "there", "stands"}},
    };
    const auto found = choices.find(option.name + ' ' + option.value);
    return found == choices.end() ? nullptr : &found->second;
}

// `as found` is typed as-found where quotes would be in the way.
Words without_blanks(Words words) {
    for (auto& word : words)
        std::ranges::replace(word, ' ', '-');
    return words;
}

// By the placeholder. OUT of a verb is a file or a folder, which stand among the files.
Takes taken_by(const std::string& placeholder, bool positional) {
    constexpr std::array folders = {"DIR", "FOLDER"};
    constexpr std::array files = {"FILE", "PATH", "FILE.csv", "OUT.pdf", "OUT.png", "IN"};
    if (placeholder == "OUT") return positional ? Takes::file : Takes::folder;
    if (std::ranges::find(folders, placeholder) != folders.end()) return Takes::folder;
    return std::ranges::find(files, placeholder) != files.end() ? Takes::file : Takes::text;
}

OptionWords described(const CLI::Option& option) {
    OptionWords words{.about = option.get_description(),
                      .required = option.get_required(),
                      .repeated = option.get_expected_max() > 1};
    const bool positional = !option.nonpositional();
    words.name = positional                    ? option.get_name(true)
                 : option.get_lnames().empty() ? '-' + option.get_snames().front()
                                               : "--" + option.get_lnames().front();
    if (option.get_items_expected_min() == 0) return words; // a flag
    words.value = positional ? words.name : option.get_option_text();
    if (words.value.empty()) words.value = "VALUE";
    words.takes = taken_by(words.value, positional);
    if (const Words* choices = closed_choice(words))
        words.choices = without_blanks(*choices);
    else if (words.value.find('|') != std::string::npos)
        for (const auto choice : split(words.value, '|'))
            words.choices.emplace_back(choice);
    if (!words.choices.empty()) words.takes = Takes::choice;
    return words;
}

} // namespace

VerbWords described(const CLI::App& verb) {
    VerbWords words{
        .name = verb.get_name(), .about = verb.get_description(), .more = verb.get_footer()};
    for (const CLI::Option* option : verb.get_options()) {
        auto& list = option->nonpositional() ? words.options : words.positionals;
        list.push_back(described(*option));
    }
    for (const CLI::App* below : verb.get_subcommands([](const CLI::App*) { return true; }))
        words.verbs.push_back(described(*below));
    return words;
}

} // namespace fettle::cli
