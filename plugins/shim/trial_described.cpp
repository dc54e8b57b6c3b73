// The sheet shim.trial, described, and a compute that moves values between host and sheet.
#include "shim/described.h"
#include "shim/trial_sheet.h"

namespace fettle::shim {
namespace {

using namespace plugin;

constexpr FactorInputs kFactor = factor_inputs("same");

enum Input : std::size_t {
    kPinion,
    kLeft,
    kRight,
    kBacklash,
    kRunout,
    kTorque,
    kDriveHeight,
    kDriveAlong,
    kCoastHeight,
    kCoastAlong,
    kWanted,
    kVariation,
    kRunoutMost,
    kTorqueWanted,
    kFirstStep,
    kActs,
    kRingSide,
    kFactorFirst,
    kEarlier = kFactorFirst + 10
};

constexpr fettle_column kTrialColumns[] = {
    column("pinion", "Pinion shim", "length", "in", true, 4),
    column("left", "Left", "length", "in", true, 4),
    column("right", "Right", "length", "in", true, 4),
    column("backlash", "Backlash", "length", "in", true, 3),
    column("variation", "Variation", "length", "in", true, 2),
    column("runout", "Run-out", "length", "in", false, 2),
    column("torque", "Torque", "torque", "lbf.in", false, 3),
    choice_column("drive_along", "Drive, along", false, kAlong),
    choice_column("drive_height", "Drive, height", false, kHeights),
    choice_column("coast_along", "Coast, along", false, kAlong),
    choice_column("coast_height", "Coast, height", false, kHeights)};
static_assert(std::size(kTrialColumns) == kTrialColumnCount);
constexpr auto kTrialColumnList = pointers(kTrialColumns);

constexpr fettle_input shim_input(const char* id, const char* label, const char* help,
                                  const char* preset) {
    return input(FETTLE_NUMBER, {.id = id,
                                 .label = label,
                                 .help = help,
                                 .quantity = "length",
                                 .unit = "in",
                                 .preset = preset,
                                 .least = 0,
                                 .greatest = 0.05,
                                 .required = true});
}

constexpr const char* kHeightHelp =
    "Where the paint is rubbed off the ring gear's teeth: at the face (the top of the tooth), "
    "at mid height, or at the flank (the root).";
constexpr const char* kAlongHelp =
    "Where the paint is rubbed off along the tooth: at the toe (the inner, narrow end), at the "
    "middle, or at the heel (the outer end).";

constexpr fettle_input kInputs[] = {
    shim_input("pinion", "Pinion shim in this trial",
               "The stack that is in, by micrometer: what was built, not what was meant.", "0.030"),
    shim_input("left", "Carrier shim, left", "The stack that is in, by micrometer.", "0.0375"),
    shim_input("right", "Carrier shim, right", "The stack that is in, by micrometer.", "0.042"),
    input(FETTLE_LIST,
          {.id = "backlash",
           .label = "Backlash at four or more teeth",
           .help = "Pinion held fast, ring gear rocked: the dial gauge at teeth evenly "
                   "around, split by ;.",
           .quantity = "length",
           .unit = "in",
           .preset = "0.0115; 0.012; 0.013; 0.0125",
           .least = 0,
           .greatest = 0.005,
           .required = true}),
    input(FETTLE_NUMBER, {.id = "runout",
                          .label = "Run-out of the ring gear",
                          .help = "Dial gauge on its plain back near the edge, over a whole turn: "
                                  "greatest less least. Blank where it was not read.",
                          .quantity = "length",
                          .unit = "in",
                          .preset = "",
                          .least = 0,
                          .greatest = 0.01}),
    input(FETTLE_NUMBER,
          {.id = "torque",
           .label = "Turning torque at the pinion",
           .help = "Pinion and carrier together, turning steadily; the sheet "
                   "shim.drag makes it out of the pull on a cord. Blank where it was "
                   "not measured.",
           .quantity = "torque",
           .unit = "lbf.in",
           .preset = "",
           .least = 0,
           .greatest = 1000}),
    choice_input({.id = "drive_height",
                  .label = "Drive side, height",
                  .help = kHeightHelp,
                  .preset = "not looked at"},
                 kHeights),
    choice_input({.id = "drive_along",
                  .label = "Drive side, along the tooth",
                  .help = kAlongHelp,
                  .preset = "not looked at"},
                 kAlong),
    choice_input({.id = "coast_height",
                  .label = "Coast side, height",
                  .help = kHeightHelp,
                  .preset = "not looked at"},
                 kHeights),
    choice_input({.id = "coast_along",
                  .label = "Coast side, along the tooth",
                  .help = kAlongHelp,
                  .preset = "not looked at"},
                 kAlong),
    input(FETTLE_LIST, {.id = "wanted",
                        .label = "Backlash wanted",
                        .help = "The maker's lowest and highest split by ;, or his one figure.",
                        .quantity = "length",
                        .unit = "in",
                        .preset = "0.006; 0.009",
                        .least = 1e-6,
                        .greatest = 0.005,
                        .required = true,
                        .continues = "same"}),
    input(FETTLE_NUMBER, {.id = "variation",
                          .label = "Variation permitted",
                          .help = "Of backlash over the teeth. Blank takes 0.002 in, which most "
                                  "makers permit.",
                          .quantity = "length",
                          .unit = "in",
                          .preset = "0.002",
                          .least = 0,
                          .greatest = 0.002,
                          .continues = "same"}),
    input(FETTLE_NUMBER, {.id = "runout_most",
                          .label = "Run-out permitted",
                          .help = "Of the ring gear's back. Blank takes 0.002 in.",
                          .quantity = "length",
                          .unit = "in",
                          .preset = "0.002",
                          .least = 0,
                          .greatest = 0.002,
                          .continues = "same"}),
    input(FETTLE_LIST, {.id = "torque_wanted",
                        .label = "Turning torque wanted",
                        .help = "The maker's lowest and highest for pinion and carrier together, "
                                "split by ;. Blank where it is not to be judged.",
                        .quantity = "torque",
                        .unit = "lbf.in",
                        .preset = "",
                        .least = 1e-4,
                        .greatest = 1000,
                        .continues = "same"}),
    input(FETTLE_NUMBER, {.id = "first_step",
                          .label = "First step of the pinion shim",
                          .help = "How far the pinion goes when the pattern asks for it the first "
                                  "time; later steps double or halve. Blank takes 0.004 in.",
                          .quantity = "length",
                          .unit = "in",
                          .preset = "0.004",
                          .least = 0.5 * kThou,
                          .greatest = 0.001,
                          .continues = "same"}),
    choice_input({.id = "pinion_acts",
                  .label = "A thicker pinion shim brings it",
                  .help =
                      "Behind the bearing at the pinion's head it comes nearer the ring gear; "
                      "under the flange of a pinion housing bolted on from outside it goes away.",
                  .preset = "nearer the ring gear",
                  .continues = "same"},
                 kPinionActs),
    choice_input({.id = "ring_side",
                  .label = "Side of the ring gear",
                  .help = "Seen from behind the axle with the pinion to the front: the side whose "
                          "bearing stands behind the ring gear's plain back.",
                  .preset = "left",
                  .continues = "same"},
                 kSides),
    kFactor.read_how,
    kFactor.pressure,
    kFactor.pitch,
    kFactor.ring_teeth,
    kFactor.pinion_teeth,
    kFactor.spiral,
    kFactor.read_radius,
    kFactor.pitch_radius,
    kFactor.maker_figure,
    kFactor.maker_says,
    table_input({.id = "earlier",
                 .label = "Earlier trials",
                 .help = "Filled in from the last trial kept on this task; a row that was misread "
                         "can be mended or struck.",
                 .preset = "",
                 .continues = "trials"},
                kTrialColumnList)};
constexpr auto kInputList = pointers(kInputs);

constexpr const char* kRule =
    "face: pinion nearer, flank: away; toe: more backlash, heel: less (maker's maintenance manual, "
    "p. 61)";
constexpr const char* kOrder =
    "run-out, preload, depth, backlash, one at a time: common practice, no source";

constexpr fettle_output kOutputs[] = {
    text_output({"next", "Next step", kRule}),
    text_output({"verdict", "Verdict", kOrder}),
    number_output({"trial", "Trial", "count", "", "", 3, "counted"}),
    number_output({"backlash", "Backlash, mean", "length", "mm", "in", 3, "mean of the readings"}),
    number_output({"variation", "Variation over the teeth", "length", "mm", "in", 2,
                   "greatest less least reading"}),
    number_output({"next_pinion", "Pinion shim of the next trial", "length", "mm", "in", 4, kRule,
                   "shim.stack.target"}),
    number_output({"next_left", "Left stack of the next trial", "length", "mm", "in", 4,
                   kMeshSource, "shim.stack.target"}),
    number_output({"next_right", "Right stack of the next trial", "length", "mm", "in", 4,
                   kMeshSource, "shim.stack.target"}),
    number_output({"expected", "Backlash expected then", "length", "mm", "in", 2, kMeshSource}),
    number_output({"factor", "Backlash a move of the ring gear", "number", "", "", 3,
                   "geometry, the maker's figure, or what the trials themselves show"})};
constexpr auto kOutputList = pointers(kOutputs);

constexpr fettle_table kTables[] = {answer_table("trials", "Trials so far", kTrialColumnList)};
constexpr auto kTableList = pointers(kTables);

constexpr fettle_axis kTrialAxis = axis("Trial", "count", "", "");
constexpr fettle_axis kBacklashAxis = axis("Backlash", "length", "mm", "in");
constexpr fettle_axis kShimAxis = axis("Shim", "length", "mm", "in");
constexpr fettle_chart kCharts[] = {
    chart("convergence", "Backlash, trial after trial", kTrialAxis, kBacklashAxis),
    chart("shims", "Shims, trial after trial", kTrialAxis, kShimAxis)};
constexpr auto kChartList = pointers(kCharts);

constexpr std::array<const char*, 4> kSources = {
    "Maker's maintenance manual, p. 61: contact pattern and its correction", kMeshSource,
    "Makers' service manuals: variation over the teeth up to 0.002 in, total carrier shim kept",
    kOrder};

constexpr const char* kCaution =
    "A differential that is set wrongly can lock the axle on the road. Chock the vehicle, stand "
    "the "
    "axle on proper stands, keep fingers out of the gears, lift the carrier with help. The advice "
    "follows what was read and judged; the maker's figures and licensed practice come first.";

TrialTyped typed_from(const fettle_value* const* values) {
    TrialTyped typed;
    typed.pinion = number(values[kPinion]);
    typed.left = number(values[kLeft]);
    typed.right = number(values[kRight]);
    typed.backlash = numbers(values[kBacklash]);
    typed.runout = number(values[kRunout]);
    typed.torque = number(values[kTorque]);
    typed.drive_height = text(values[kDriveHeight]);
    typed.drive_along = text(values[kDriveAlong]);
    typed.coast_height = text(values[kCoastHeight]);
    typed.coast_along = text(values[kCoastAlong]);
    typed.wanted = numbers(values[kWanted]);
    typed.variation = number(values[kVariation]);
    typed.runout_most = number(values[kRunoutMost]);
    typed.torque_wanted = numbers(values[kTorqueWanted]);
    typed.first_step = number(values[kFirstStep]);
    typed.pinion_acts = text(values[kActs]);
    typed.ring_side = text(values[kRingSide]);
    typed.factor = factor_typed(values + kFactorFirst);
    const fettle_value* earlier = values[kEarlier];
    if (earlier->given != 0 && earlier->numbers != nullptr) {
        const std::size_t cells = static_cast<std::size_t>(earlier->rows) * earlier->columns;
        typed.earlier.assign(earlier->numbers, earlier->numbers + cells);
    }
    return typed;
}

void draw_convergence(const fettle_sink* sink, const TrialTyped& typed, const TrialAnswer& answer) {
    const auto count = static_cast<double>(answer.trials.size());
    const bool moves = answer.step && answer.step->moves_shims();
    const double last = moves ? count + 1 : std::max(count, 2.0);
    for (const double limit : {answer.aims.backlash.low, answer.aims.backlash.high})
        give_series(sink, "convergence", limit == answer.aims.backlash.low ? "wanted" : "",
                    FETTLE_DASHED, {{1, limit}, {last, limit}});
    std::vector<fettle_point> means;
    for (std::size_t i = 0; i < answer.trials.size(); ++i)
        means.push_back({static_cast<double>(i + 1), answer.trials[i].backlash});
    give_series(sink, "convergence", "mean", FETTLE_LINE, means);
    std::vector<fettle_point> readings;
    for (const double reading : typed.backlash)
        readings.push_back({count, reading});
    give_series(sink, "convergence", "read this time", FETTLE_DOTS, readings);
    if (!moves) return;
    give_series(sink, "convergence", "expected next", FETTLE_DOTS,
                {{count + 1, answer.step->backlash}});
}

void draw_shims(const fettle_sink* sink, const TrialAnswer& answer) {
    std::vector<fettle_point> pinion, left, right;
    double at = 0;
    for (const Trial& trial : answer.trials) {
        at += 1;
        pinion.push_back({at, trial.pinion});
        left.push_back({at, trial.left});
        right.push_back({at, trial.right});
    }
    give_series(sink, "shims", "pinion", FETTLE_LINE, pinion);
    give_series(sink, "shims", "left", FETTLE_LINE, left);
    give_series(sink, "shims", "right", FETTLE_LINE, right);
}

void give_answer(const fettle_sink* sink, const TrialTyped& typed, const TrialAnswer& answer) {
    give_output(sink, "next", answer.next);
    give_output(sink, "verdict", answer.verdict);
    give_output(sink, "trial", static_cast<double>(answer.trials.size()));
    give_output(sink, "backlash", answer.trials.back().backlash);
    give_output(sink, "variation", answer.trials.back().variation);
    give_output(sink, "factor", answer.aims.factor.ring);
    if (answer.step && answer.step->moves_shims()) {
        give_output(sink, "next_pinion", answer.step->pinion);
        give_output(sink, "next_left", answer.step->left);
        give_output(sink, "next_right", answer.step->right);
        give_output(sink, "expected", answer.step->backlash);
    }
    for (const Trial& trial : answer.trials) {
        const auto row = row_of(trial);
        give_row(sink, "trials", {row.begin(), row.end()});
    }
    draw_convergence(sink, typed, answer);
    draw_shims(sink, answer);
}

std::int32_t compute_trial(const fettle_value* const* values, std::uint32_t count,
                           const fettle_sink* sink) {
    return guarded(count, kInputList.size(), sink, [&] {
        const TrialTyped typed = typed_from(values);
        return answered(sink, work_trial(typed),
                        [&](const TrialAnswer& answer) { give_answer(sink, typed, answer); });
    });
}

} // namespace

constexpr fettle_sheet kTrialSheet =
    sheet({.revision = 1,
           .id = "shim.trial",
           .title = "Setting up a differential: one trial",
           .answers = "After this trial: which shim next, by how much, and what will it do?",
           .caution = kCaution},
          kInputList, kOutputList, kTableList, kSources, compute_trial, kChartList);

} // namespace fettle::shim
