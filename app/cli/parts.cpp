#include "notebook/parts.h"

#include "base/text.h"
#include "cli/missing.h"
#include "cli/part_pieces.h"
#include "cli/part_show.h"
#include "cli/records.h"
#include "cli/typed.h"
#include "cli/verb.h"
#include "cli/verbs.h"

#include <array>
#include <map>

namespace fettle::cli {
namespace {

constexpr const char* kPartFields =
    "{tag, name, vehicle, position, origin, condition, decision, maker, place, from,\ncost, "
    "quantity, used, within, split, acquired, note}";

struct PartOption {
    const char* option;
    const char* field; // as put_part_field calls it
    const char* value;
    const char* about;
};

constexpr std::array kPartOptions = {
    PartOption{"--tag", "tag", "TAG", "Its tag; without it the next free one"},
    PartOption{"--position", "position", "POSITION",
               "The position it is intended for, by number or name"},
    PartOption{"--vehicle", "vehicle", "NAME", "The vehicle it is held for"},
    PartOption{"--origin", "origin", "WORD",
               "original, period replacement, reproduction, new old stock or unknown"},
    PartOption{"--condition", "condition", "WORD",
               "as found, stripped, cleaned, repaired, primed, finished, fitted or scrap"},
    PartOption{"--decision", "decision", "WORD", "undecided, reuse, repair, replace or hold"},
    PartOption{"--maker", "maker", "NAME", "Who made it"},
    PartOption{"--place", "place", "TEXT", "Where it is kept"},
    PartOption{"--from", "from", "WHO", "Whom it came from"},
    PartOption{"--cost", "cost", "MONEY", "What it cost, such as \"12.50 GBP\""},
    PartOption{"--quantity", "quantity", "N", "How many pieces the bagged lot holds"},
    PartOption{"--used", "used", "N", "How many of them are in their place already"},
    PartOption{"--on", "acquired", "DATE", "The day it came"},
    PartOption{"--note", "note", "TEXT", "Whatever else there is to say"},
};

struct AddWish {
    std::string name;
    std::map<std::string, std::string> fields;
};

void declare_add(CLI::App& verb, AddWish& wish) {
    verb.add_option("NAME", wish.name, "What it is, such as \"spring hanger\"")->required();
    for (const auto& [option, name, value, about] : kPartOptions)
        verb.add_option_function<std::string>(
                option,
                [&wish, field = name](const std::string& text) { wish.fields[field] = text; },
                about)
            ->option_text(value);
    verb.footer(std::string("JSON: ") + kPartFields + ".");
}

Result<Report> part_report(const Notebook& notebook, PartId id) {
    auto part = part_by_id(notebook, id);
    if (!part) return part.failure();
    auto names = names_in(notebook);
    if (!names) return names.failure();
    return Report{one_line("part " + part->tag + "  " + part->name) + '\n', to_json(*part, *names)};
}

Result<Report> add(const Call& call, const AddWish& wish) {
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    Part part{.name = wish.name};
    for (const auto& [field, text] : wish.fields)
        if (auto put = put_part_field(*notebook, part, field, text); !put) return put.failure();
    auto added = add_part(*notebook, part);
    if (!added) return added.failure();
    return part_report(*notebook, added->id);
}

struct SetWish {
    std::string tag;
    std::vector<std::string> fields;
};

void declare_set(CLI::App& verb, SetWish& wish) {
    verb.add_option("TAG", wish.tag, "The part")->required();
    verb.add_option("field=value", wish.fields,
                    "Fields: tag, name, position, vehicle, origin, condition, decision, maker, "
                    "place, from, cost, quantity, used, within, acquired, note")
        ->required();
    verb.footer(std::string("All fields of one call change together or not at all.\nJSON: ") +
                kPartFields + ".");
}

Result<Report> set(const Call& call, const SetWish& wish) {
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    auto part = part_tagged(*notebook, wish.tag);
    if (!part) return part.failure();
    for (const auto& typed : wish.fields) {
        auto pair = parse_pair(typed, SplitAt::first, "field=value, such as condition=cleaned");
        if (!pair) return pair.failure();
        if (auto put = put_part_field(*notebook, *part, pair->first, pair->second); !put)
            return put.failure();
    }
    if (auto done = set_part(*notebook, *part); !done) return done.failure();
    return part_report(*notebook, part->id);
}

struct ListWish {
    bool missing = false;
    std::vector<std::string> words;

    void check() const {
        if (missing && !words.empty())
            throw CLI::ValidationError("--missing lists positions and goes without WORDS");
    }
};

void declare_list(CLI::App& verb, ListWish& wish) {
    verb.add_flag("--missing", wish.missing,
                  "List the positions that lack parts, and how many, instead");
    verb.add_option("WORDS", wish.words, "Only parts with all of these in tag, name, maker, place");
    verb.footer(std::string("JSON: a list of ") + kPartFields +
                ";\nwith --missing as `missing`: a list of " + kMissingFields + ".");
}

Result<Report> list(const Call& call, const ListWish& wish) {
    auto notebook = call.for_reading();
    if (!notebook) return notebook.failure();
    if (wish.missing) {
        auto lines = list_missing(*notebook);
        if (!lines) return lines.failure();
        return missing_report(*lines);
    }
    auto parts = list_parts(*notebook, {.words = join(wish.words, " ")});
    if (!parts) return parts.failure();
    auto names = names_in(*notebook);
    if (!names) return names.failure();
    Columns columns({"tag", "name", "pieces", "condition", "decision", "position", "place"});
    Json json = Json::array();
    for (const auto& part : *parts) {
        std::string pieces = part.quantity > 1 ? std::to_string(part.quantity) : std::string();
        if (part.used > 0) pieces = std::to_string(part.left()) + " of " + pieces + " left";
        columns.row({part.tag, part.name, pieces, std::string(word(part.condition)),
                     std::string(word(part.decision)), part.position_name, part.place});
        json.push_back(to_json(part, *names));
    }
    return Report{columns.empty() ? "no parts\n" : columns.text(), std::move(json)};
}

} // namespace

void add_parts(Line& line) {
    auto& group = add_group(line, "part", "Add, show, list and change parts");
    add_verb(line, group, "add", "Add a part", declare_add, add);
    add_part_show(line, group);
    add_verb(line, group, "list", "List parts, or positions that lack parts", declare_list, list);
    add_part_pieces(line, group);
    add_verb(line, group, "set", "Change fields of a part", declare_set, set);
}

} // namespace fettle::cli
