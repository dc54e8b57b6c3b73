// position add, set, remove, show, choose: single positions, and the parts for one side by side.
#include "base/text.h"
#include "base/whole_number.h"
#include "cli/records.h"
#include "cli/typed.h"
#include "cli/verb.h"
#include "cli/verbs.h"
#include "desk/alternates.h"

namespace fettle::cli {
namespace {

constexpr const char* kPositionFields =
    "{position, group, name, quantity, on_hand, in_place, out, on_its_way, missing,\nto_get, spec, "
    "chosen}";

struct PositionWish {
    std::string number, name, vehicle, part;
    std::vector<std::string> fields;
    std::string group, quantity, spec;
};

void declare_one(CLI::App& verb, PositionWish& wish) {
    verb.add_option("NUMBER", wish.number, "Its number in the parts list, or its name")->required();
    verb.add_option("--vehicle", wish.vehicle, "The vehicle, where several have the number")
        ->option_text("NAME");
}

void declare_position_add(CLI::App& verb, PositionWish& wish) {
    verb.add_option("NUMBER", wish.number, "Its number in the maker's parts list")->required();
    verb.add_option("NAME", wish.name, "What belongs there")->required();
    verb.add_option("--group", wish.group, "The group, such as \"Rear axle\"")->option_text("TEXT");
    verb.add_option("--quantity", wish.quantity, "How many it needs; without it 1")
        ->option_text("N");
    verb.add_option("--spec", wish.spec, "Size, material, thread")->option_text("TEXT");
    verb.add_option("--vehicle", wish.vehicle, "The vehicle by its name; without it the first one")
        ->option_text("NAME");
    verb.footer(std::string("JSON: ") + kPositionFields + ".");
}

Done put_position_field(Position& position, const std::string& field, const std::string& text) {
    if (field == "group")
        position.group = text;
    else if (field == "number")
        position.number = text;
    else if (field == "name")
        position.name = text;
    else if (field == "spec")
        position.spec = text;
    else if (field == "quantity") {
        const auto count = whole_number(text);
        if (!count || *count < 1)
            return Failure{FailureKind::invalid, "The quantity " + fettle::quoted(text) +
                                                     " is not a whole number of 1 or more."};
        position.quantity = *count;
    } else {
        return Failure{FailureKind::invalid, "A position has no field " + fettle::quoted(field) +
                                                 ": it has group, number, name, quantity, spec."};
    }
    return done();
}

Result<Position> position_meant(const Notebook& notebook, const PositionWish& wish) {
    if (wish.vehicle.empty()) return find_position(notebook, wish.number);
    auto vehicle = vehicle_named(notebook, wish.vehicle);
    if (!vehicle) return vehicle.failure();
    return find_position(notebook, wish.number, vehicle->id);
}

Json alternate_json(const desk::Alternate& one, const Names& names) {
    Json json = to_json(one.part, names);
    json["at_hand"] = one.at_hand;
    json["measured"] = one.measured;
    json["chosen"] = one.chosen;
    json["for"] = json["against"] = Json::array();
    for (const auto& [speaks_for, words] : one.reasons)
        json[speaks_for ? "for" : "against"].push_back(words);
    return json;
}

// The position, and all parts intended for it in columns with what speaks for and against each.
Result<Report> position_report(const Notebook& notebook, PositionId id) {
    auto position = position_by_id(notebook, id);
    if (!position) return position.failure();
    auto fills = list_positions(notebook, position->vehicle);
    if (!fills) return fills.failure();
    const auto fill =
        std::ranges::find(*fills, id, [](const PositionFill& one) { return one.position.id; });
    auto names = names_in(notebook);
    if (!names) return names.failure();
    auto all = desk::alternates_for(notebook, *position, today());
    if (!all) return all.failure();
    Json json = to_json(*fill, *names);
    json["parts"] = Json::array();
    Columns facts;
    facts.fact("vehicle", names->vehicle(position->vehicle));
    facts.fact("group", position->group);
    facts.fact("spec", position->spec);
    facts.fact("needs", std::to_string(position->quantity) + ", at hand " +
                            std::to_string(fill->on_hand) + ", to get " +
                            std::to_string(fill->to_get()));
    std::string text = one_line(position->number + "  " + position->name) + '\n' + facts.text(2);
    for (const auto& one : *all) {
        Columns said;
        said.fact("condition", std::string(word(one.part.condition)));
        said.fact("origin", std::string(word(one.part.origin)));
        said.fact("maker", one.part.maker);
        said.fact("measured", join(one.measured, "; "));
        said.fact("cost", one.part.cost ? to_words(*one.part.cost) : "");
        for (const auto& [speaks_for, words] : one.reasons)
            said.row({speaks_for ? "for" : "against", words});
        text += one_line(one.part.tag + "  " + one.part.name + (one.chosen ? "  (chosen)" : "")) +
                '\n' + said.text(2);
        json["parts"].push_back(alternate_json(one, *names));
    }
    return Report{text, std::move(json)};
}

Result<Report> position_add(const Call& call, const PositionWish& wish) {
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    auto vehicle = vehicle_or_first(*notebook, wish.vehicle);
    if (!vehicle) return vehicle.failure();
    Position position{.vehicle = vehicle->id,
                      .group = wish.group,
                      .number = wish.number,
                      .name = wish.name,
                      .spec = wish.spec};
    if (!wish.quantity.empty())
        if (auto put = put_position_field(position, "quantity", wish.quantity); !put)
            return put.failure();
    auto added = add_position(*notebook, position);
    if (!added) return added.failure();
    return position_report(*notebook, *added);
}

void declare_position_set(CLI::App& verb, PositionWish& wish) {
    declare_one(verb, wish);
    verb.add_option("field=value", wish.fields, "Fields: group, number, name, quantity, spec")
        ->required();
    verb.footer(std::string("JSON: ") + kPositionFields + ".");
}

Result<Report> position_set(const Call& call, const PositionWish& wish) {
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    auto position = position_meant(*notebook, wish);
    if (!position) return position.failure();
    for (const auto& typed : wish.fields) {
        auto pair = parse_pair(typed, SplitAt::first, "field=value, such as quantity=4");
        if (!pair) return pair.failure();
        if (auto put = put_position_field(*position, pair->first, pair->second); !put)
            return put.failure();
    }
    if (auto set = set_position(*notebook, *position); !set) return set.failure();
    return position_report(*notebook, position->id);
}

void declare_position_show(CLI::App& verb, PositionWish& wish) {
    declare_one(verb, wish);
    verb.footer(std::string("JSON: the fields of a position, and parts: a list of the fields of "
                            "`part list` with at_hand, measured,\nfor, against, chosen."));
}

Result<Report> position_show(const Call& call, const PositionWish& wish) {
    auto notebook = call.for_reading();
    if (!notebook) return notebook.failure();
    auto position = position_meant(*notebook, wish);
    if (!position) return position.failure();
    return position_report(*notebook, position->id);
}

void declare_choose(CLI::App& verb, PositionWish& wish) {
    declare_one(verb, wish);
    verb.add_option("TAG", wish.part, "The part to use, or none")->required();
    verb.footer("JSON as of `position show`.");
}

Result<Report> position_choose(const Call& call, const PositionWish& wish) {
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    auto position = position_meant(*notebook, wish);
    if (!position) return position.failure();
    PartId chosen;
    if (wish.part != "none") {
        auto part = part_tagged(*notebook, wish.part);
        if (!part) return part.failure();
        chosen = part->id;
    }
    if (auto done = choose_part(*notebook, position->id, chosen); !done) return done.failure();
    return position_report(*notebook, position->id);
}

void declare_position_remove(CLI::App& verb, PositionWish& wish) {
    declare_one(verb, wish);
    verb.footer("Refused while a part is intended for it, a task needs it or limits are kept.\n"
                "JSON: {removed}.");
}

Result<Report> position_remove(const Call& call, const PositionWish& wish) {
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    auto position = position_meant(*notebook, wish);
    if (!position) return position.failure();
    if (auto removed = remove_position(*notebook, position->id); !removed) return removed.failure();
    return Report{one_line("removed position " + position->number) + '\n',
                  {{"removed", position->number}}};
}

} // namespace

void add_position_verbs(Line& line) {
    auto& group = add_group(line, "position",
                            "Add, show, change and remove single positions, and "
                            "choose the part for one");
    add_verb(line, group, "add", "Add a position", declare_position_add, position_add);
    add_verb(line, group, "show", "Show a position with the parts for it side by side",
             declare_position_show, position_show);
    add_verb(line, group, "set", "Change fields of a position", declare_position_set, position_set);
    add_verb(line, group, "choose", "Say which part to use there", declare_choose, position_choose);
    add_verb(line, group, "remove", "Remove a position nothing hangs on", declare_position_remove,
             position_remove);
}

} // namespace fettle::cli
