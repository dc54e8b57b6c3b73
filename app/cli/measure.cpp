#include "base/text.h"
#include "calc/display.h"
#include "cli/answer_text.h"
#include "cli/records.h"
#include "cli/typed.h"
#include "cli/verb.h"
#include "cli/verbs.h"
#include "desk/measuring.h"
#include "desk/places.h"

namespace fettle::cli {
namespace {

struct MeasureWish {
    std::string tag, feature, readings, on, note, remove;
    std::vector<std::string> values;
    bool decide = false;

    void check() const {
        if (!feature.empty() && readings.empty())
            throw CLI::ValidationError("READINGS is required after FEATURE");
        if (!remove.empty() && !feature.empty())
            throw CLI::ValidationError("--remove goes with TAG alone");
        if (feature.empty() && (decide || !on.empty() || !note.empty()))
            throw CLI::ValidationError("--on, --note and --decide go with FEATURE and READINGS");
    }
};

void declare_measure(CLI::App& verb, MeasureWish& wish) {
    verb.add_option("TAG", wish.tag, "The part")->required();
    verb.add_option("FEATURE", wish.feature, "What was measured on it, such as \"pin diameter\"");
    verb.add_option("READINGS", wish.readings,
                    "Place, reading and direction in degrees, rows split by ;: "
                    "\"1 0.9982 0; 1 0.9990 90\"");
    verb.add_option("name=value", wish.values,
                    "Other inputs of fit.wear; without them the position's limits and the last "
                    "measurement of the feature give them");
    verb.add_option("--on", wish.on, "The day; without it today")->option_text("DATE");
    verb.add_option("--note", wish.note, "What else is to be remembered")->option_text("TEXT");
    verb.add_flag("--decide", wish.decide,
                  "Take the verdict over as the part's decision; it never is without this");
    verb.add_option("--remove", wish.remove, "Remove the measurement of this number")
        ->option_text("ID");
    verb.footer("With TAG alone the measurements of the part are listed.\n"
                "JSON: {measurement, part, feature, day, verdict, note, answer} with the answer as "
                "`calc` prints it; listed: a list of these.");
}

calc::Catalogue measuring_sheets() {
    return calc::Catalogue(desk::calc_program(), desk::plugin_folders());
}

Json measurement_json(const desk::Measured& measured, const std::string& tag) {
    const Measurement& record = measured.record;
    return {{"measurement", record.id.value},
            {"part", tag},
            {"feature", record.feature},
            {"day", to_iso(record.day)},
            {"verdict", record.verdict},
            {"note", record.note},
            {"answer", calc::command_line_json(measured.answer, calc::Units::si)}};
}

// "25.31 mm (0.9965 in)" of an output; blank for one that has no figure.
std::string output_words(const calc::Answer& answer, std::string_view id) {
    for (const auto& row : calc::display_rows(answer))
        if (row.id == id && !row.blank)
            return row.metric + (row.inch.empty() ? "" : " (" + row.inch + ")");
    return {};
}

Result<Report> measurements_listed(const Call& call, const MeasureWish& wish) {
    auto notebook = call.for_reading();
    if (!notebook) return notebook.failure();
    const auto part = part_tagged(*notebook, wish.tag);
    if (!part) return part.failure();
    const auto features = desk::measured_features(*notebook, part->id);
    if (!features) return features.failure();
    Columns columns(
        {"measurement", "feature", "day", "verdict", "mean", "least", "greatest", "wear", "note"});
    Json json = Json::array();
    for (const auto& feature : *features)
        for (const auto& one : feature.measured) {
            const auto said = [&](const char* id) { return output_words(one.answer, id); };
            columns.row({std::to_string(one.record.id.value), one.record.feature,
                         to_words(one.record.day), one.record.verdict, said("mean"), said("least"),
                         said("greatest"), said("wear"), one.record.note});
            json.push_back(measurement_json(one, part->tag));
        }
    return Report{columns.empty() ? "no measurements\n" : columns.text(), std::move(json)};
}

Result<Report> measurement_removed(const Call& call, const MeasureWish& wish) {
    const auto id = parse_id<MeasurementId>("measurement", wish.remove);
    if (!id) return id.failure();
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    const auto part = part_tagged(*notebook, wish.tag);
    if (!part) return part.failure();
    const auto kept = list_measurements(*notebook, part->id);
    if (!kept) return kept.failure();
    if (std::ranges::find(*kept, *id, &Measurement::id) == kept->end())
        return Failure{FailureKind::not_found, part->tag + " has no measurement " + wish.remove +
                                                   ": `measure " + part->tag + "` lists them."};
    if (auto removed = remove_measurement(*notebook, *id); !removed) return removed.failure();
    return Report{"removed measurement " + wish.remove + '\n', {{"removed", id->value}}};
}

Result<Report> decided(Notebook& notebook, const Part& part, const desk::Measured& measured) {
    const auto decision = desk::decision_for(measured.record.verdict);
    if (!decision)
        return Failure{FailureKind::refused,
                       "The verdict \"" + measured.record.verdict +
                           "\" is no decision: the measurement is kept, the decision left as it "
                           "was."};
    const std::string said(word(*decision));
    if (auto set = set_part_field(notebook, part.tag, "decision", said); !set) return set.failure();
    return Report{"decision of " + part.tag + ": " + said + '\n', {{"decision", said}}};
}

Result<Report> measured_part(const Call& call, const MeasureWish& wish) {
    if (!wish.remove.empty()) return measurement_removed(call, wish);
    if (wish.feature.empty()) return measurements_listed(call, wish);
    auto typed = typed_pairs(wish.values, "name=value, such as wear_limit=0.995 in");
    if (!typed) return typed.failure();
    (*typed)["readings"] = wish.readings;
    const auto day = parse_day_or_today(wish.on);
    if (!day) return day.failure();
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    const auto part = part_tagged(*notebook, wish.tag);
    if (!part) return part.failure();
    auto sheets = measuring_sheets();
    const auto kept =
        desk::measure(*notebook, sheets, {part->id, wish.feature, *typed, *day, wish.note});
    if (!kept) return kept.failure();
    Report report{answer_text(kept->answer) + "measurement " +
                      std::to_string(kept->record.id.value) + " of " + part->tag + '\n',
                  measurement_json(*kept, part->tag)};
    if (!wish.decide) return report;
    const auto decision = decided(*notebook, *part, *kept);
    if (!decision) return decision.failure();
    report.text += decision->text;
    report.json.update(decision->json);
    return report;
}

struct LimitsWish {
    std::string position, feature;
    std::vector<std::string> values;
    bool remove = false;

    void check() const {
        if (remove && (feature.empty() || !values.empty()))
            throw CLI::ValidationError("--remove goes with POSITION and FEATURE alone");
    }
};

void declare_limits(CLI::App& verb, LimitsWish& wish) {
    verb.add_option("POSITION", wish.position, "Its number in the parts list, or its name")
        ->required();
    verb.add_option("FEATURE", wish.feature, "What is measured there, such as \"pin diameter\"");
    verb.add_option("name=value", wish.values,
                    "Inputs of fit.wear: new_lower=0.9985 wear_limit=0.9950; a blank value takes "
                    "the limit away");
    verb.add_flag("--remove", wish.remove, "Take all limits of the feature away");
    verb.footer("With POSITION, and FEATURE, alone the limits are listed.\n"
                "JSON: a list of {position, feature, limits {name: as typed}}.");
}

Result<Report> limits_listed(const Notebook& notebook, const Position& position,
                             const std::string& feature) {
    const auto all = list_features(notebook, position.id);
    if (!all) return all.failure();
    Columns columns({"feature", "limit", "as typed"});
    Json json = Json::array();
    for (const PositionFeature& one : *all) {
        if (!feature.empty() && lower_ascii(one.feature) != lower_ascii(feature)) continue;
        if (one.typed.empty()) columns.row({one.feature, "", ""});
        for (const auto& [name, text] : one.typed)
            columns.row({one.feature, name, text});
        json.push_back(
            {{"position", position.number}, {"feature", one.feature}, {"limits", one.typed}});
    }
    return Report{columns.empty() ? "no limits\n" : columns.text(), std::move(json)};
}

Result<Report> limits_written(const Call& call, const LimitsWish& wish) {
    if (wish.values.empty() && !wish.remove) {
        auto notebook = call.for_reading();
        if (!notebook) return notebook.failure();
        const auto position = find_position(*notebook, wish.position);
        if (!position) return position.failure();
        return limits_listed(*notebook, *position, wish.feature);
    }
    auto typed = typed_pairs(wish.values, "name=value, such as wear_limit=0.995 in");
    if (!typed) return typed.failure();
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    const auto position = find_position(*notebook, wish.position);
    if (!position) return position.failure();
    const Done written = wish.remove
                             ? remove_feature(*notebook, position->id, wish.feature)
                             : desk::set_limits(*notebook, measuring_sheets(),
                                                {position->id, wish.feature, std::move(*typed)});
    if (!written) return written.failure();
    return limits_listed(*notebook, *position, wish.feature);
}

} // namespace

void add_measure(Line& line) {
    add_verb(line, line.app, "measure",
             "Judge readings of a part and keep them with it, or list what was measured",
             declare_measure, measured_part);
    add_verb(line, line.app, "limits",
             "Write down the limits that features of a position are held to, or list them",
             declare_limits, limits_written);
}

} // namespace fettle::cli
