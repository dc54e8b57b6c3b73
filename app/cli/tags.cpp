#include "base/text.h"
#include "cli/typed.h"
#include "cli/verb.h"
#include "cli/verbs.h"
#include "desk/tag_cards.h"

namespace fettle::cli {
namespace {

struct TagsWish {
    std::string file;
    std::vector<std::string> parts;
    std::string paper = "a4", size = "medium";
};

void declare_tags(CLI::App& verb, TagsWish& wish) {
    verb.add_option("OUT.pdf", wish.file, "The file to write")->required();
    add_repeated(verb, "--part", wish.parts, "Only for the part with this tag; may be repeated")
        ->option_text("TAG");
    verb.add_option("--paper", wish.paper, "a4 or letter; without it a4")->option_text("PAPER");
    verb.add_option("--size", wish.size, "small, medium or large; without it medium")
        ->option_text("SIZE");
    verb.footer("A card a part, with its QR code, its tag in large type and its name, and marks to "
                "cut along.\nPrint them unscaled. Take-in reads a card when a picture of 4000 "
                "pixels' width shows no more\nthan this much of the bench: small 0.4 m, medium "
                "0.6 m, large 1 m.\n"
                "JSON: {file, cards, sheets, paper, size}.");
}

Result<std::vector<desk::TagCard>> cards_of(const Notebook& notebook, const TagsWish& wish) {
    std::vector<desk::TagCard> cards;
    for (const auto& tag : wish.parts) {
        auto part = part_tagged(notebook, tag);
        if (!part) return part.failure();
        cards.push_back({part->tag, part->name});
    }
    if (!wish.parts.empty()) return cards;
    auto parts = list_parts(notebook);
    if (!parts) return parts.failure();
    for (const auto& part : *parts)
        cards.push_back({part.tag, part.name});
    return cards;
}

Result<Report> write_tags(const Call& call, const TagsWish& wish) {
    auto notebook = call.for_reading();
    if (!notebook) return notebook.failure();
    auto paper = desk::paper_called(wish.paper);
    if (!paper) return paper.failure();
    auto size = desk::card_size_called(wish.size);
    if (!size) return size.failure();
    auto cards = cards_of(*notebook, wish);
    if (!cards) return cards.failure();
    auto sheets = desk::write_tag_cards(wish.file, *cards, *paper, *size);
    if (!sheets) return sheets.failure();
    return Report{one_line(counted(cards->size(), "tag card") + " on " +
                           counted(std::size_t(*sheets), "sheet") + " in " + wish.file) +
                      '\n',
                  {{"file", wish.file},
                   {"cards", cards->size()},
                   {"sheets", *sheets},
                   {"paper", desk::measures_of(*paper).name},
                   {"size", desk::measures_of(*size).name}}};
}

} // namespace

void add_tags(Line& line) {
    add_verb(line, line.app, "tags", "Make a PDF of tag cards to print and tie to parts",
             declare_tags, write_tags);
}

} // namespace fettle::cli
