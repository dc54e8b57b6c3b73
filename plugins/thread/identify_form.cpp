// thread.identify as the contract describes it, and a compute that moves values between host and
// sheet.
#include "thread/drills.h"
#include "thread/forms.h"
#include "thread/identify_sheet.h"

namespace fettle::thread {
namespace {

using namespace fettle::plugin;

enum Input : std::size_t {
    kKind,
    kMajor,
    kMinor,
    kTpi,
    kPitch,
    kPitches,
    kAngle,
    kWear,
    kDiameterDoubt,
    kPitchDoubt,
    kMet,
    kDrills
};

constexpr fettle_input kInputs[] = {
    choice_input({.id = "kind",
                  .label = "What is measured",
                  .help = "A bolt is measured over its crests, a nut or hole across the bore.",
                  .preset = kBolt},
                 kKinds),
    input(FETTLE_NUMBER, {.id = "major",
                          .label = "Outside diameter",
                          .help = "Over the crests with micrometer or vernier, cleaned, where no "
                                  "nut has run: next to the head or at the end of the thread. The "
                                  "largest of several readings.",
                          .quantity = "length",
                          .unit = "mm",
                          .preset = "0.371 in",
                          .least = 1e-3,
                          .greatest = 70e-3,
                          .when = "kind=bolt or stud"}),
    input(FETTLE_NUMBER, {.id = "minor",
                          .label = "Bore across the crests",
                          .help = "Of a nut or tapped hole, with a small-bore gauge, a drill shank "
                                  "that just enters, or the inside jaws. The smallest of several "
                                  "readings.",
                          .quantity = "length",
                          .unit = "mm",
                          .least = 0.8e-3,
                          .greatest = 70e-3,
                          .when = "kind=nut or tapped hole"}),
    input(FETTLE_NUMBER, {.id = "tpi",
                          .label = "Threads to the inch",
                          .help = "The leaf of an inch pitch gauge that sits without light. Leave "
                                  "blank when a metric leaf fits better, and type the pitch.",
                          .quantity = "number",
                          .preset = "20",
                          .least = 3,
                          .greatest = 130}),
    input(FETTLE_NUMBER,
          {.id = "pitch",
           .label = "Pitch, or length over several",
           .help = "The leaf of a metric pitch gauge that sits without light, or the "
                   "length from crest to crest over several turns.",
           .quantity = "length",
           .unit = "mm",
           .least = 0.2e-3,
           .greatest = 100e-3}),
    input(FETTLE_NUMBER, {.id = "pitches",
                          .label = "Turns in that length",
                          .help = "How many turns the length above spans, first crest not counted. "
                                  "Blank or 1 for a gauge leaf; ten turns are ten times surer.",
                          .quantity = "count",
                          .least = 1,
                          .greatest = 100}),
    choice_input({.id = "angle",
                  .label = "Angle between the flanks",
                  .help = "Degrees, from a gauge leaf held against the light: 60 American, metric "
                          "and cycle, 55 British, 47.5 BA. Without it 55 and 60 cannot be told.",
                  .preset = "55"},
                 kAngles),
    input(FETTLE_NUMBER, {.id = "wear",
                          .label = "Wear on the diameter",
                          .help = "What rust, blasting and nuts may have taken off the crests, "
                                  "beyond the tolerance of a new one. A guess: 0.1 mm, 0.3 rusted.",
                          .quantity = "length",
                          .unit = "mm",
                          .preset = "0.1",
                          .least = 0,
                          .greatest = 3e-3}),
    input(FETTLE_NUMBER, {.id = "diameter_doubt",
                          .label = "Doubt of the diameter",
                          .help = "Either way: 0.02 mm for a micrometer on clean crests, 0.05 for "
                                  "a vernier, 0.5 for a rule.",
                          .quantity = "length",
                          .unit = "mm",
                          .preset = "0.05",
                          .least = 2e-6,
                          .greatest = 2e-3}),
    input(FETTLE_NUMBER, {.id = "pitch_doubt",
                          .label = "Doubt of the pitch",
                          .help = "Share either way for one reading. A gauge leaf over eight turns "
                                  "tells about 1.5 %, a rule over one inch 3 %.",
                          .quantity = "ratio",
                          .unit = "%",
                          .preset = "1.5",
                          .least = 0.001,
                          .greatest = 0.1}),
    choice_input({.id = "met",
                  .label = "Looked for among",
                  .help = "Where the vehicle or the part comes from. Settles the order of threads "
                          "that fit alike and nothing else.",
                  .preset = "British"},
                 kMetAt),
    choice_input({.id = "drills",
                  .label = "Drills at hand",
                  .help = "The set that the tapping drill is chosen from.",
                  .preset = "all"},
                 kDrillSets)};
constexpr auto kInputList = pointers(kInputs);

constexpr const char* kRanking = "root of the sum of squares of the misfits; series as in sources";
constexpr fettle_output kOutputs[] = {
    text_output({"thread", "Thread", kRanking, "torque.tighten.thread"}),
    text_output({"why", "Why", kRanking}),
    number_output({"misfit", "Misfit (1: edge of wear and gauge)", "number", "", "", 2, kRanking}),
    number_output({"major_nominal", "Nominal outside diameter", "length", "mm", "in", 4,
                   "standard of the series"}),
    number_output(
        {"pitch_nominal", "Nominal pitch", "length", "mm", "in", 4, "standard of the series"}),
    text_output({"look_alike", "Next nearest", kRanking}),
    text_output({"told_apart", "Told apart by", "differences of the basic profiles"}),
    number_output({"tapping_drill", "Tapping drill", "length", "mm", "in", 3,
                   "ISO 2306 (d - P), BS 1157 (77 to 87 % of thread), 75 % for the others"}),
    text_output({"drill_name", "Called", "ISO 235, ASME B94.11M (from memory)"})};
constexpr auto kOutputList = pointers(kOutputs);

constexpr fettle_column kColumns[] = {
    text_column("thread", "Thread"),
    column("angle", "Flanks", "angle", "°", false, 3),
    column("diameter", "Outside", "length", "mm", false, 4),
    column("pitch", "Pitch", "length", "mm", false, 4),
    column("tpi", "To the inch", "number", "", false, 3),
    column("diameter_off", "Diameter off", "length", "mm", false, 2),
    column("pitch_off", "Pitch off", "ratio", "%", false, 2),
    column("misfit", "Misfit", "number", "", false, 2),
    text_column("verdict", "Verdict")};
constexpr auto kColumnList = pointers(kColumns);
constexpr fettle_table kTables[] = {
    answer_table("ranked", "Nearest standard threads", kColumnList)};
constexpr auto kTableList = pointers(kTables);

constexpr fettle_axis kAlong = axis("", "length", "mm", "in");
constexpr fettle_axis kAcross = axis("", "length", "mm", "in");
constexpr fettle_axis kDiameterAxis = axis("Diameter", "length", "mm", "in");
constexpr fettle_axis kPitchAxis = axis("Pitch", "length", "mm", "in");
constexpr fettle_chart kCharts[] = {
    drawing("profile", "Profile found, and the next nearest", kAlong, kAcross),
    chart("field", "Standard threads round the reading", kDiameterAxis, kPitchAxis)};
constexpr auto kChartList = pointers(kCharts);

constexpr std::array<const char*, 8> kSources = {
    "ASME B1.1 (UNC, UNF, 8-UN; UNEF from memory)",
    "BS 84 (BSW, BSF), BS 93 (BA)",
    "BS 811 (cycle threads, from memory)",
    "ISO 68-1, ISO 261 (metric; fine pitches from memory)",
    "ISO 228-1, ASME B1.20.1 (pipe threads, from memory)",
    "brass thread, 26 to the inch: trade practice, from memory",
    "ISO 965-1, ASME B1.1, BS 84 (tolerances, from memory, checked)",
    "ISO 2306, BS 1157 (tapping drills)"};

constexpr const char* kCaution =
    "A worn thread proves little: try a known new mate by hand, the whole length and without "
    "force, before trusting a name. On brakes, steering, suspension and wheels replace what is "
    "worn by the maker's part; local codes and licensed practice come first.";

IdentifyTyped typed_from(const fettle_value* const* values) {
    return {.kind = text(values[kKind]),
            .major = number(values[kMajor]),
            .minor = number(values[kMinor]),
            .tpi = number(values[kTpi]),
            .pitch = number(values[kPitch]),
            .pitches = number(values[kPitches]),
            .angle = text(values[kAngle]),
            .wear = number(values[kWear]),
            .diameter_doubt = number(values[kDiameterDoubt]),
            .pitch_doubt = number(values[kPitchDoubt]),
            .met = text(values[kMet]),
            .drills = text(values[kDrills])};
}

void give(const fettle_sink* sink, const IdentifyAnswer& answer) {
    give_output(sink, "thread", answer.thread);
    give_output(sink, "why", answer.why);
    give_output(sink, "misfit", answer.misfit);
    give_output(sink, "major_nominal", answer.major);
    give_output(sink, "pitch_nominal", answer.pitch);
    give_output(sink, "look_alike", answer.look_alike);
    give_output(sink, "told_apart", answer.told_apart);
    give_output(sink, "tapping_drill", answer.tapping_drill);
    give_output(sink, "drill_name", answer.drill_name);
    for (const RankedRow& row : answer.ranked) {
        give_row(sink, "ranked",
                 {row.thread, row.angle, row.diameter, row.pitch, row.tpi, row.diameter_off,
                  row.pitch_off, row.misfit, row.verdict});
    }
    screw::give_picture(sink, answer.profile);
    screw::give_picture(sink, answer.field);
}

std::int32_t compute(const fettle_value* const* values, std::uint32_t count,
                     const fettle_sink* sink) {
    return guarded(count, kInputList.size(), sink, [&] {
        return answered(sink, work_identify(typed_from(values)),
                        [&](const IdentifyAnswer& answer) { give(sink, answer); });
    });
}

} // namespace

constinit const fettle_sheet kIdentifyForm =
    sheet({.revision = 1,
           .id = "thread.identify",
           .title = "What thread is this?",
           .answers = "Which standard thread is this worn one, and what looks like it?",
           .caution = kCaution},
          kInputList, kOutputList, kTableList, kSources, compute, kChartList);

} // namespace fettle::thread
