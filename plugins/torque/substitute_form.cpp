// torque.substitute as the contract describes it, and a compute that moves values between host and
// sheet.
#include "screw_threads/words.h"
#include "torque/forms.h"
#include "torque/places.h"
#include "torque/substitute_sheet.h"

namespace fettle::torque {
namespace {

using namespace fettle::plugin;

constexpr auto kPlaceNames = named(kPlaces);

// A typed strength has no fields here: both grades are looked up.
constexpr auto kListedGrades = [] {
    std::array<const char*, kGradeNames.size() - 1> names{};
    for (std::size_t i = 0; i < names.size(); ++i)
        names[i] = kGradeNames[i];
    return names;
}();

enum Input : std::size_t {
    kAThread,
    kAGrade,
    kAHead,
    kAHeadOd,
    kAHeadHeight,
    kAShank,
    kBThread,
    kBGrade,
    kBHead,
    kBHeadOd,
    kBHeadHeight,
    kBShank,
    kBLength,
    kBFinish,
    kJob,
    kMating,
    kInto,
    kIntoStrength,
    kBearsOnWhat,
    kLocking,
    kGrip,
    kHeadRoom,
    kSeatHole,
    kSeatDepth,
    kPlace
};

constexpr fettle_input lengthwise(const char* id, const char* label, const char* help,
                                  const char* preset = "", const char* when = "") {
    return input(FETTLE_NUMBER, {.id = id,
                                 .label = label,
                                 .help = help,
                                 .quantity = "length",
                                 .unit = "in",
                                 .preset = preset,
                                 .least = 1e-4,
                                 .greatest = 2,
                                 .when = when});
}

constexpr fettle_input kInputs[] = {
    input(FETTLE_TEXT, {.id = "a_thread",
                        .label = "Original: thread",
                        .help = "Of the bolt that was there, as 7/16-18 BSF. Measure the pitch of "
                                "an old one, on bolt and nut.",
                        .preset = "7/16-18 BSF",
                        .required = true}),
    choice_input({.id = "a_grade",
                  .label = "Original: grade",
                  .help = "By the marks on its head. No mark: SAE 1 or ISO 4.6, but a plain old "
                          "spring bolt may have been better; ask the parts list.",
                  .preset = "BS letter R",
                  .required = true},
                 kListedGrades),
    choice_input({.id = "a_head",
                  .label = "Original: head",
                  .help = "hexagon or socket cap. Blank: socket for A574, else a hexagon. For a "
                          "round head type its diameter below.",
                  .preset = "hexagon"},
                 kHeadNames),
    lengthwise("a_head_od", "Original: head width",
               "Across the flats, or the diameter of a round head. Blank takes the standard head.",
               "0.68"),
    lengthwise("a_head_height", "Original: head height",
               "From the seat to the top. Blank takes the standard head.", "0.35"),
    lengthwise("a_shank", "Original: plain shank",
               "Unthreaded length under the head. Blank: it is taken to pass the joint."),
    input(FETTLE_TEXT, {.id = "b_thread",
                        .label = "Offered: thread",
                        .help = "Of the one you would fit, as 7/16-20 UNF or M12x1.5.",
                        .preset = "7/16-20 UNF",
                        .required = true}),
    choice_input({.id = "b_grade",
                  .label = "Offered: grade",
                  .help = "By the marks on its head: inch socket screws are ASTM A574, metric ones "
                          "ISO 12.9 unless they say otherwise.",
                  .preset = "ASTM A574",
                  .required = true},
                 kListedGrades),
    choice_input({.id = "b_head",
                  .label = "Offered: head",
                  .help = "hexagon or socket cap. Blank: socket for A574, else a hexagon.",
                  .preset = "socket cap"},
                 kHeadNames),
    lengthwise(
        "b_head_od", "Offered: head width",
        "Across the flats, or the diameter of a socket head. Blank takes the standard head."),
    lengthwise("b_head_height", "Offered: head height",
               "From the seat to the top. Blank takes the standard head."),
    lengthwise("b_shank", "Offered: plain shank",
               "Unthreaded length under the head, to where the thread begins to run out.", "1.75"),
    lengthwise("b_length", "Offered: length", "Under the head to the tip.", "2.75"),
    choice_input({.id = "b_finish",
                  .label = "Offered: finish",
                  .help = "Bright silver or gold is mostly electroplated; dull grey is zinc flake; "
                          "black is plain.",
                  .preset = "plain or black"},
                 kFinishes),
    choice_input({.id = "job",
                  .label = "What it does",
                  .help = "Clamps only; or also stands across the joint like a pin; or holds the "
                          "leaves and locates the axle with its head.",
                  .preset = kDuties[2]},
                 kDuties),
    choice_input({.id = "mating",
                  .label = "What it screws into",
                  .help = "Whether the old nut or tapped hole must be used on, or a nut of its own "
                          "thread comes with it.",
                  .preset = kMates[0]},
                 kMates),
    choice_input({.id = "into",
                  .label = "Tapped in",
                  .help = "What the hole is tapped in; the weakest usual sort is taken.",
                  .preset = "steel",
                  .when = "mating=the tapped hole stays"},
                 kBearsOn),
    input(FETTLE_NUMBER, {.id = "into_strength",
                          .label = "Its tensile strength",
                          .help = "Of the tapped part, if you know it.",
                          .quantity = "pressure",
                          .unit = "MPa",
                          .least = 20e6,
                          .greatest = 2500e6,
                          .when = "mating=the tapped hole stays"}),
    choice_input({.id = "bears_on",
                  .label = "Head bears on",
                  .help = "What the head presses on; a smaller head presses harder.",
                  .preset = "steel"},
                 kBearsOn),
    choice_input({.id = "locking",
                  .label = "Original locked by",
                  .help = "How the original was kept from turning.",
                  .preset = "nothing"},
                 kLockings),
    lengthwise("grip", "Clamped thickness",
               "All that is clamped between head and nut, washers too; the whole pack of leaves "
               "for a centre bolt.",
               "2.1"),
    lengthwise("head_room", "Room for the head",
               "Height that is free over the head's seat. Blank where nothing is near."),
    lengthwise("seat_hole", "Hole in the spring seat",
               "Diameter of the hole the head sits in, measured in its cleanest part.", "0.69",
               "job=centre bolt of a leaf spring"),
    lengthwise("seat_depth", "Depth of that hole", "Free depth for the head.", "0.5",
               "job=centre bolt of a leaf spring"),
    choice_input({.id = "place",
                  .label = "Where it sits",
                  .help = "Some places have their own rules; the caution for them comes with the "
                          "result.",
                  .preset = "suspension"},
                 kPlaceNames)};
constexpr auto kInputList = pointers(kInputs);

constexpr fettle_output kOutputs[] = {
    text_output({"verdict", "Verdict", "all findings together; reasons in the table"}),
    text_output({"because", "Because", "the findings that decide"}),
    text_output({"worse", "Worse in", "the comparison below"}),
    number_output({"strength_ratio", "Breaking load against the original", "ratio", "%", "", 3,
                   "tensile strength times stress area, by the grades' standards"}),
    number_output({"area_ratio", "Stress area against the original", "ratio", "%", "", 3,
                   "ASME B1.1, ISO 898-1, the same rule for British threads"}),
    number_output({"preload_ratio", "Preload against the original", "ratio", "%", "", 3,
                   "0.75 of the proof load, Shigley eq. 8-31"}),
    number_output({"head_pressure", "Pressure under its head", "pressure", "MPa", "psi", 2,
                   "at the lesser preload of both; limits of VDI 2230"}),
    number_output({"engagement", "Engagement it needs", "length", "mm", "in", 2,
                   "FED-STD-H28/2 and ASME B1.1, thread shear areas"}),
    text_output(
        {"offered_thread", "Thread to tighten", "as it is read above", "torque.tighten.thread"}),
    text_output(
        {"offered_grade", "Grade to tighten", "as it is read above", "torque.tighten.grade"})};
constexpr auto kOutputList = pointers(kOutputs);

constexpr fettle_column kColumns[] = {
    text_column("measure", "Measure"), text_column("original", "Original"),
    text_column("offered", "Offered"), text_column("finding", "Finding"),
    text_column("meaning", "What it means")};
constexpr auto kColumnList = pointers(kColumns);
constexpr fettle_table kTables[] = {answer_table("comparison", "Comparison", kColumnList)};
constexpr auto kTableList = pointers(kTables);

constexpr fettle_axis kAxis = axis("", "length", "mm", "in");
constexpr fettle_chart kCharts[] = {drawing("side_by_side", "Side by side", kAxis, kAxis)};
constexpr auto kChartList = pointers(kCharts);

constexpr std::array<const char*, 7> kSources = {
    "SAE J429, ISO 898-1, ASTM A574, BS 970 (grades; BS 970 from memory)",
    "ASME B1.1, ISO 261, BS 84, BS 93, BS 811 (threads)",
    "FED-STD-H28/2 (engagement)",
    "VDI 2230 (pressure under the head)",
    "ISO 4042, ASTM F1941 (hydrogen from electroplating)",
    "Shigley, Mechanical Engineering Design, 9th ed., eq. 8-31 (preload)",
    "common practice, no source: play of a centre bolt's head, shear at 0.6 of the tensile "
    "strength, toughness"};

constexpr const char* kCaution =
    "A spring's centre bolt, U-bolts and anything of brakes or steering: the maker's part comes "
    "first, then local codes and licensed practice; this sheet compares figures, it does not see "
    "cracks. A spring under load can kill: clamp the pack and stand clear. Split pins, tab washers "
    "and locking nuts are never used twice.";

FastenerTyped original_from(const fettle_value* const* values) {
    return {text(values[kAThread]),
            text(values[kAGrade]),
            text(values[kAHead]),
            number(values[kAHeadOd]),
            number(values[kAHeadHeight]),
            number(values[kAShank]),
            std::nullopt};
}

FastenerTyped offered_from(const fettle_value* const* values) {
    return {text(values[kBThread]),   text(values[kBGrade]),        text(values[kBHead]),
            number(values[kBHeadOd]), number(values[kBHeadHeight]), number(values[kBShank]),
            number(values[kBLength])};
}

SubstituteTyped typed_from(const fettle_value* const* values) {
    return {.original = original_from(values),
            .offered = offered_from(values),
            .duty = text(values[kJob]),
            .mate = text(values[kMating]),
            .finish = text(values[kBFinish]),
            .locking = text(values[kLocking]),
            .bears_on = text(values[kBearsOnWhat]),
            .into = text(values[kInto]),
            .into_strength = number(values[kIntoStrength]),
            .grip = number(values[kGrip]),
            .head_room = number(values[kHeadRoom]),
            .seat_hole = number(values[kSeatHole]),
            .seat_depth = number(values[kSeatDepth]),
            .place = text(values[kPlace])};
}

void give_answer(const fettle_sink* sink, const SubstituteAnswer& answer) {
    give_output(sink, "verdict", answer.verdict);
    give_output(sink, "because", answer.because);
    give_output(sink, "worse", answer.worse);
    give_output(sink, "strength_ratio", answer.ratios.strength);
    give_output(sink, "area_ratio", answer.ratios.area);
    give_output(sink, "preload_ratio", answer.ratios.preload);
    give_output(sink, "head_pressure", answer.ratios.pressure);
    give_output(sink, "engagement", answer.ratios.engagement);
    give_output(sink, "offered_thread", answer.thread);
    give_output(sink, "offered_grade", answer.grade);
    for (const Finding& found : answer.findings)
        give_row(sink, "comparison",
                 {found.measure, found.original, found.offered, found.word, found.reason});
    give_picture(sink, answer.picture);
}

std::int32_t compute(const fettle_value* const* values, std::uint32_t count,
                     const fettle_sink* sink) {
    return guarded(count, kInputList.size(), sink, [&] {
        return answered(sink, work_substitute(typed_from(values)),
                        [&](const SubstituteAnswer& answer) { give_answer(sink, answer); });
    });
}

} // namespace

constinit const fettle_sheet kSubstituteForm =
    sheet({.revision = 1,
           .id = "torque.substitute",
           .title = "Is this a fit replacement?",
           .answers = "May this screw stand in for that bolt, and if not, why not?",
           .caution = kCaution},
          kInputList, kOutputList, kTableList, kSources, compute, kChartList);

} // namespace fettle::torque
