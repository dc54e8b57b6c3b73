#include "notebook/described_within.h"
#include "notebook/words.h"

namespace fettle {
namespace {

constexpr ColumnSaid kNote{"note", Holds::text, kAlways, "whatever else is to be said"};
constexpr ColumnSaid kPluginVersion{"plugin_version", Holds::text, kAlways,
                                    "name, version and revision of the plugin that worked it out"};
constexpr ColumnSaid kAnswer{"answer", Holds::json, kAlways,
                             "the whole answer: inputs, outputs, working, notes; values in SI"};

constexpr ColumnSaid kVehicles[] = {
    kOwnId,
    {"name", Holds::text, kAlways, "what it is called; no two the same"},
    {"maker", Holds::text, kAlways, "who built it"},
    {"year", Holds::count, kMaybe, "when it was built", "year"},
    kNote,
};

constexpr ColumnSaid kMakers[] = {
    kOwnId,
    {"name", Holds::text, kAlways, "who stamps or casts marks; no two the same"},
    {"sign", Holds::text, kAlways, "how their mark looks"},
    kNote,
};

constexpr ColumnSaid kVehicleMakers[] = {
    kOwnId,
    {"vehicle_id", Holds::reference, kAlways, "the vehicle", "vehicles"},
    {"maker_id", Holds::reference, kAlways, "whose marks belong on its parts", "makers"},
};

constexpr ColumnSaid kContacts[] = {
    kOwnId,
    {"name", Holds::text, kAlways, "a person or firm; no two the same"},
    kNote,
    {"in_credits", Holds::flag, kAlways, "whether they are named in the credits"},
};

constexpr ColumnSaid kPositions[] = {
    kOwnId,
    {"vehicle_id", Holds::reference, kAlways, "the vehicle", "vehicles"},
    {"parts_group", Holds::text, kAlways, "group of the maker's parts list"},
    {"number", Holds::text, kAlways, "number in that list; once a vehicle"},
    {"name", Holds::text, kAlways, "what belongs there"},
    {"quantity", Holds::positive, kAlways, "how many", "pieces"},
    {"spec", Holds::text, kAlways, "what it must be like"},
    {"chosen_part_id", Holds::reference, kMaybe, "which of several alternates is to be used",
     "parts"},
};

constexpr ColumnSaid kPositionFeatures[] = {
    kOwnId,
    {"position_id", Holds::reference, kAlways, "the position", "positions"},
    {"feature", Holds::text, kAlways, "what is measured on the part there"},
    {"typed", Holds::json, kAlways, "the limits as typed: input of the sheet fit.wear to text"},
};

constexpr ColumnSaid kParts[] = {
    kOwnId,
    {"tag", Holds::text, kAlways, "the code on its card; no two the same in any case of letters"},
    {"name", Holds::text, kAlways, "what it is"},
    {"position_id", Holds::reference, kMaybe, "the position it is meant for", "positions"},
    {"vehicle_id", Holds::reference, kMaybe, "the vehicle it is held for", "vehicles"},
    {"origin", Holds::word, kAlways, "where it stems from", "", all_words<Origin>},
    {"condition", Holds::word, kAlways, "how far it has got", "", all_words<Condition>},
    {"decision", Holds::word, kAlways, "what is to become of it", "", all_words<Decision>},
    {"maker_id", Holds::reference, kMaybe, "who made it", "makers"},
    {"place", Holds::text, kAlways, "where it is kept"},
    {"contact_id", Holds::reference, kMaybe, "from whom it came", "contacts"},
    {"cost_minor", Holds::minor, kMaybe, "what it was bought for; with its currency or not at all"},
    {"currency", Holds::currency, kMaybe, "of that amount"},
    {"quantity", Holds::positive, kAlways, "pieces of a lot", "pieces"},
    {"acquired", Holds::day, kMaybe, "when it came"},
    kNote,
    {"used", Holds::count, kAlways, "pieces of a lot that are in their place", "pieces"},
    {"within_id", Holds::reference, kMaybe, "the assembly it is a piece of", "parts"},
    {"split_on", Holds::day, kMaybe, "an assembly: since when it lies in its pieces"},
};

constexpr ColumnSaid kConditionSteps[] = {
    kOwnId,
    {"part_id", Holds::reference, kAlways, "the part", "parts"},
    {"condition", Holds::word, kAlways, "how far it got", "", all_words<Condition>},
    {"on_date", Holds::day, kAlways, "on that day"},
};

constexpr ColumnSaid kMeasurements[] = {
    kOwnId,
    {"part_id", Holds::reference, kAlways, "the part", "parts"},
    {"feature", Holds::text, kAlways, "what was measured"},
    {"on_date", Holds::day, kAlways, "on that day"},
    {"sheet", Holds::text, kAlways, "the worked sheet that judged it"},
    kPluginVersion,
    kAnswer,
    {"verdict", Holds::text, kAlways, "what came out, in a word or two"},
    kNote,
};

constexpr ColumnSaid kTasks[] = {
    kOwnId,
    {"vehicle_id", Holds::reference, kMaybe, "the vehicle", "vehicles"},
    {"title", Holds::text, kAlways, "what is to be done"},
    kNote,
    {"state", Holds::word, kAlways, "whether it is over", "", all_words<TaskState>},
    {"estimate_hours", Holds::number, kMaybe, "how long it will take", "hours"},
    {"least_temperature_c", Holds::number, kMaybe, "how warm it must be", "degrees Celsius"},
    {"waits_for", Holds::text, kAlways, "what else it waits for, in words"},
    {"done_on", Holds::day, kMaybe, "when it was done"},
};

constexpr ColumnSaid kTaskNeeds[] = {
    {"task_id", Holds::reference, kAlways, "the task", "tasks"},
    {"needs_id", Holds::reference, kAlways, "what must be done first", "tasks"},
};

constexpr ColumnSaid kTaskPositions[] = {
    {"task_id", Holds::reference, kAlways, "the task", "tasks"},
    {"position_id", Holds::reference, kAlways, "the position that must be filled", "positions"},
    {"condition", Holds::word, kAlways, "by parts that have got so far", "", all_words<Condition>},
};

constexpr ColumnSaid kEntries[] = {
    kOwnId,
    {"on_date", Holds::day, kAlways, "the day it tells of"},
    {"hours", Holds::number, kMaybe, "how long was worked", "hours"},
    {"text", Holds::text, kAlways, "what was done, as Markdown"},
    {"written", Holds::moment, kAlways, "when it was written"},
};

constexpr ColumnSaid kEntryParts[] = {
    {"entry_id", Holds::reference, kAlways, "the entry", "entries"},
    {"part_id", Holds::reference, kAlways, "a part it speaks of", "parts"},
};

constexpr ColumnSaid kEntryTasks[] = {
    {"entry_id", Holds::reference, kAlways, "the entry", "entries"},
    {"task_id", Holds::reference, kAlways, "a task it speaks of", "tasks"},
};

constexpr ColumnSaid kWorkedResults[] = {
    kOwnId,
    {"entry_id", Holds::reference, kAlways, "the entry it stands in", "entries"},
    {"sheet", Holds::text, kAlways, "the worked sheet"},
    kPluginVersion,
    kAnswer,
};

constexpr ColumnSaid kDayConditions[] = {
    {"on_date", Holds::day, kAlways, "the day; once"},
    {"temperature_c", Holds::number, kMaybe, "air in the workshop", "degrees Celsius"},
    {"humidity", Holds::number, kMaybe, "relative humidity", "share, 0 to 1"},
    {"hours", Holds::number, kMaybe, "how long one has for the workshop", "hours"},
};

constexpr TableSaid kTables[] = {
    {"vehicles", "Machines being rebuilt, or that parts are held for.", kVehicles},
    {"makers", "Who made parts or stamped them.", kMakers},
    {"vehicle_makers", "Whose marks belong on a vehicle's parts; none: anybody's.", kVehicleMakers},
    {"contacts", "People and firms.", kContacts},
    {"positions", "Places on a vehicle that need a part.", kPositions},
    {"position_features", "What may be measured at a position, and its limits.", kPositionFeatures},
    {"parts", "Pieces and bagged lots.", kParts},
    {"condition_steps", "The days on which parts got so far.", kConditionSteps},
    {"measurements", "Readings of one feature of a part on one day, judged.", kMeasurements},
    {"tasks", "Pieces of work.", kTasks},
    {"task_needs", "What must be done before what.", kTaskNeeds},
    {"task_positions", "Which positions a task needs filled.", kTaskPositions},
    {"entries", "The build log.", kEntries},
    {"entry_parts", "Parts that entries speak of.", kEntryParts},
    {"entry_tasks", "Tasks that entries speak of.", kEntryTasks},
    {"worked_results", "Worked sheets kept in entries.", kWorkedResults},
    {"day_conditions", "The weather and the hours of days.", kDayConditions},
};

} // namespace

std::span<const TableSaid> described_rebuild() {
    return kTables;
}

} // namespace fettle
