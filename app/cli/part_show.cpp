#include "cli/part_show.h"

#include "base/marked_text.h"
#include "base/text.h"
#include "cli/records.h"
#include "notebook/condition_steps.h"
#include "notebook/consignments.h"
#include "notebook/evidence.h"
#include "notebook/measurements.h"
#include "notebook/part_life.h"

#include <algorithm>

namespace fettle::cli {
namespace {

struct ShowWish {
    std::string tag;
};

void declare_show(CLI::App& verb, ShowWish& wish) {
    verb.add_option("TAG", wish.tag, "The part")->required();
    verb.footer(
        "JSON: the fields of `part list`, steps [{condition, on}], away [{consignment, pieces, "
        "standing}],\nevidence_missing, and photos [{photo, taken, name, stage}], marks as in "
        "`mark --list`,\nentries as in `log --list`, measurements [{measurement, feature, day, "
        "verdict}], pieces [tag],\nlife [{day, kind, words, consignment, entry}], costs, hours.");
}

Columns facts_of(const Part& part, const Names& names) {
    Columns facts;
    facts.fact("position", part.position_name.empty()
                               ? ""
                               : names.position(part.position) + ' ' + part.position_name);
    facts.fact("vehicle", names.vehicle(part.vehicle));
    facts.fact("origin", std::string(word(part.origin)));
    facts.fact("condition", std::string(word(part.condition)));
    facts.fact("decision", std::string(word(part.decision)));
    facts.fact("maker", part.maker);
    facts.fact("place", part.place);
    facts.fact("from", part.from);
    facts.fact("cost", part.cost ? to_words(*part.cost) : "");
    facts.fact("quantity",
               part.quantity == 1
                   ? ""
                   : std::to_string(part.quantity) +
                         (part.used > 0 ? ", of which " + std::to_string(part.used) + " used, " +
                                              std::to_string(part.left()) + " left"
                                        : ""));
    facts.fact("piece of", part.within_tag);
    facts.fact("split", part.split_on ? "in its pieces since " + to_words(*part.split_on) : "");
    facts.fact("acquired", part.acquired ? to_words(*part.acquired) : "");
    facts.fact("note", part.note);
    return facts;
}

Result<std::string> photo_lines(const Notebook& notebook, const std::vector<Tie>& ties) {
    Columns columns;
    for (const auto& tie : ties) {
        auto photo = photo_by_id(notebook, tie.photo);
        if (!photo) return photo.failure();
        columns.row({std::string(word(tie.stage)), "photo " + std::to_string(photo->id.value),
                     photo->taken ? to_words(*photo->taken) : "no time", photo->original_name});
    }
    return columns.empty() ? std::string() : "photos\n" + columns.text(2);
}

std::string mark_lines(const std::vector<Mark>& marks) {
    Columns columns;
    for (const auto& mark : marks)
        columns.row({"mark " + std::to_string(mark.id.value), mark.reading, mark.maker,
                     std::string(word(mark.sure)), "photo " + std::to_string(mark.photo.value)});
    return columns.empty() ? std::string() : "marks\n" + columns.text(2);
}

std::string measurement_lines(const std::vector<Measurement>& measurements) {
    Columns columns;
    for (const auto& one : measurements)
        columns.row({"measurement " + std::to_string(one.id.value), to_words(one.day), one.feature,
                     one.verdict});
    return columns.empty() ? std::string() : "measurements\n" + columns.text(2);
}

// What happened to it, day by day; and its pieces, where it is an assembly.
Result<std::string> add_life(const Notebook& notebook, PartId part, Columns& facts, Json& json) {
    auto life = life_of(notebook, part);
    if (!life) return life.failure();
    auto costs = costs_of_part(notebook, part);
    if (!costs) return costs.failure();
    auto pieces = list_parts(notebook, {.within = part});
    if (!pieces) return pieces.failure();
    std::vector<std::string> tags, sums;
    for (const auto& piece : *pieces)
        tags.push_back(piece.tag);
    for (const auto& cost : *costs)
        sums.push_back(to_words(cost));
    facts.fact("pieces", join(tags, ", "));
    facts.fact("cost so far", join(sums, " and "));
    double hours = 0;
    for (const auto& line : *life)
        hours += line.hours.value_or(0);
    facts.fact("worked so far", hours > 0 ? hours_words(hours) : "");
    json["pieces"] = tags;
    json["costs"] = sums;
    json["hours"] = hours;
    json["life"] = Json::array();
    Columns columns;
    for (const auto& line : *life) {
        columns.row({to_words(line.day), line.kind, hours_words(line.hours), line.words});
        const auto or_null = [](std::int64_t id) { return id ? Json(id) : Json(); };
        json["life"].push_back(Json{{"day", to_iso(line.day)},
                                    {"kind", line.kind},
                                    {"words", line.words},
                                    {"consignment", or_null(line.consignment.value)},
                                    {"entry", or_null(line.entry.value)}});
    }
    return columns.empty() ? std::string() : "life\n" + columns.text(2);
}

std::string entry_lines(const std::vector<Entry>& entries) {
    Columns columns;
    for (const auto& entry : entries)
        columns.row({"entry " + std::to_string(entry.id.value), to_words(entry.day),
                     hours_words(entry.hours), first_line_of_marked(entry.text)});
    return columns.empty() ? std::string() : "entries\n" + columns.text(2);
}

// How far it has come and when, where it is, what to photograph before its surface goes.
Done add_standing(const Notebook& notebook, const Part& part, Columns& facts, Json& json) {
    auto steps = list_condition_steps(notebook, part.id);
    if (!steps) return steps.failure();
    auto away = whereabouts(notebook, part.id);
    if (!away) return away.failure();
    auto lacks = evidence_missing(notebook, part.id);
    if (!lacks) return lacks.failure();
    std::vector<std::string> said;
    json["steps"] = json["away"] = Json::array();
    for (const auto& [condition, on] : *steps) {
        said.push_back(std::string(word(condition)) + " " + to_words(on));
        json["steps"].push_back(Json{{"condition", word(condition)}, {"on", to_iso(on)}});
    }
    facts.fact("steps", join(said, " -> "));
    for (const auto& one : *away) {
        const auto words = away_words(one, today());
        const auto number = "consignment " + std::to_string(one.consignment.value);
        const std::string pieces = part.quantity > 1 ? std::to_string(one.pieces) + " of " +
                                                           std::to_string(part.quantity) + " "
                                                     : "";
        facts.fact("away", pieces + words + " (" + number + ")");
        json["away"].push_back(Json{
            {"consignment", one.consignment.value}, {"pieces", one.pieces}, {"standing", words}});
    }
    json["evidence_missing"] = *lacks;
    facts.fact("to photograph", join(*lacks, "; "));
    return done();
}

Result<Report> show(const Call& call, const ShowWish& wish) {
    auto notebook = call.for_reading();
    if (!notebook) return notebook.failure();
    auto part = part_tagged(*notebook, wish.tag);
    if (!part) return part.failure();
    auto names = names_in(*notebook);
    if (!names) return names.failure();
    auto ties = ties_to(*notebook, part->id);
    if (!ties) return ties.failure();
    std::ranges::stable_sort(*ties, {}, &Tie::stage);
    auto marks = list_marks(*notebook, {.part = part->id});
    if (!marks) return marks.failure();
    auto entries = list_entries(*notebook, {.part = part->id});
    if (!entries) return entries.failure();
    auto measurements = list_measurements(*notebook, part->id);
    if (!measurements) return measurements.failure();

    auto photos = photo_lines(*notebook, *ties);
    if (!photos) return photos.failure();
    auto photos_json = tied_photos(*notebook, *ties);
    if (!photos_json) return photos_json.failure();
    Json json = to_json(*part, *names);
    Columns facts = facts_of(*part, *names);
    if (auto added = add_standing(*notebook, *part, facts, json); !added) return added.failure();
    auto life = add_life(*notebook, part->id, facts, json);
    if (!life) return life.failure();
    json["photos"] = std::move(*photos_json);
    json["marks"] = Json::array();
    for (const auto& mark : *marks)
        json["marks"].push_back(to_json(mark, *names));
    json["entries"] = Json::array();
    for (const auto& entry : *entries)
        json["entries"].push_back(to_json(entry, *names));
    json["measurements"] = Json::array();
    for (const auto& one : *measurements)
        json["measurements"].push_back({{"measurement", one.id.value},
                                        {"feature", one.feature},
                                        {"day", to_iso(one.day)},
                                        {"verdict", one.verdict}});
    return Report{one_line(part->tag + "  " + part->name) + '\n' + facts.text(2) + *photos +
                      mark_lines(*marks) + measurement_lines(*measurements) +
                      entry_lines(*entries) + *life,
                  std::move(json)};
}

} // namespace

void add_part_show(Line& line, CLI::App& group) {
    add_verb(line, group, "show",
             "Show a part with its photos by stage, marks, measurements and entries", declare_show,
             show);
}

} // namespace fettle::cli
