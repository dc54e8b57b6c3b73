// fit.limits as the contract describes it, and a compute that moves values between host and sheet.
#include "fit/described.h"
#include "fit/inch_fits.h"
#include "fit/limits_sheet.h"

namespace fettle::fit {
namespace {

using namespace fettle::plugin;

constexpr auto kClassNames = named(kInchClasses);

enum Input : std::size_t { kSystem, kSize, kHole, kShaft, kInchClass, kDuty };

constexpr fettle_input kInputs[] = {
    choice_input({.id = "system",
                  .label = "System of fits",
                  .help = "ISO 286 names a class for each part, such as H7/p6; ANSI B4.1 names one "
                          "for both, such as FN 2, in inches.",
                  .preset = kIsoSystem},
                 kSystems),
    input(FETTLE_NUMBER,
          {.id = "size",
           .label = "Nominal size",
           .help = "What the drawing says before the limits: 25 for a 25 mm pin. A bare number is "
                   "in mm; write 1 1/8 in for inches.",
           .quantity = "length",
           .unit = "mm",
           .preset = "25",
           .least = 0.0001,
           .greatest = 0.5001,
           .required = true}),
    input(FETTLE_TEXT, {.id = "hole",
                        .label = "Class of the hole",
                        .help = "Capital letter and grade: H7 is the usual reamed hole, H8 a good "
                                "bored one, H11 a drilled one.",
                        .preset = "H7",
                        .when = "system=ISO 286"}),
    input(FETTLE_TEXT, {.id = "shaft",
                        .label = "Class of the shaft",
                        .help = "Small letter and grade: f7 runs, g6 slides, h6 is snug, k6 taps "
                                "in, p6 and s6 press in.",
                        .preset = "p6",
                        .when = "system=ISO 286"}),
    choice_input({.id = "inch_class",
                  .label = "Class of fit",
                  .help = "RC runs or slides, LC is located with play, LT lies between, LN is "
                          "located by a press, FN is forced or shrunk. Low numbers are the "
                          "closest.",
                  .preset = "FN 2",
                  .when = "system=ANSI B4.1"},
                 kClassNames),
    choice_input({.id = "duty",
                  .label = "What the fit must do",
                  .help = "Says whether interference or play would be a fault here; the sheet "
                          "then stops where the limits allow it.",
                  .preset = "no matter"},
                 kDuties)};
constexpr auto kInputList = pointers(kInputs);

constexpr const char* kBothTables = "ISO 286-1 and 286-2, or ANSI B4.1, tables";

constexpr fettle_output kOutputs[] = {
    number_output({"hole_lower", "Hole, least size", "length", "mm", "in", 6, kBothTables,
                   "fit.wear.new_lower"}),
    number_output({"hole_upper", "Hole, greatest size", "length", "mm", "in", 6, kBothTables,
                   "fit.wear.new_upper"}),
    number_output({"shaft_lower", "Shaft, least size", "length", "mm", "in", 6, kBothTables,
                   "fit.wear.new_lower"}),
    number_output({"shaft_upper", "Shaft, greatest size", "length", "mm", "in", 6, kBothTables,
                   "fit.wear.new_upper"}),
    number_output({"clearance_min", "Least clearance", "length", "µm", "thou", 3,
                   "least hole less greatest shaft; negative is interference"}),
    number_output({"clearance_max", "Greatest clearance", "length", "µm", "thou", 3,
                   "greatest hole less least shaft; negative is interference"}),
    number_output({"interference_max", "Greatest interference", "length", "µm", "thou", 3,
                   "greatest shaft less least hole", "fit.press.interference_max"}),
    number_output({"interference_min", "Least interference", "length", "µm", "thou", 3,
                   "least shaft less greatest hole", "fit.press.interference_min"}),
    text_output({"kind", "Kind of fit", "ISO 286-1, clearance, transition, interference"}),
    text_output({"use", "Meant for", "ISO 286-1 and ANSI B4.1, descriptions, in trade words"})};
constexpr auto kOutputList = pointers(kOutputs);

constexpr fettle_column kZoneColumns[] = {
    text_column("part", "Part"), text_column("class", "Class"),
    column("upper", "Upper", "length", "µm", false, 4),
    column("lower", "Lower", "length", "µm", false, 4),
    column("tolerance", "Tolerance", "length", "µm", false, 4)};
constexpr auto kZoneColumnList = pointers(kZoneColumns);
constexpr fettle_table kTables[] = {
    answer_table("zones", "Deviations from the nominal", kZoneColumnList)};
constexpr auto kTableList = pointers(kTables);

constexpr fettle_axis kSide = axis("", "number", "", "");
constexpr fettle_axis kDeviation = axis("Deviation", "length", "µm", "thou");
constexpr fettle_chart kCharts[] = {
    chart("zones", "Limits against the nominal size, much enlarged", kSide, kDeviation)};
constexpr auto kChartList = pointers(kCharts);

constexpr std::array<const char*, 5> kSources = {
    "ISO 286-1, table 1 (IT4 to IT13) and fundamental deviations, up to 500 mm",
    "Narayana, Kannaiah and Reddy, Machine Drawing, tables 15.2 and 15.3 (reprint of the same)",
    "ANSI B4.1-1967 in Machinery's Handbook, 31st and 27th ed., tables 8 to 12",
    "From memory, held to the formulae of ISO 286-1: IT10 to IT13, shafts a, b, d to h and k at "
    "small "
    "sizes; from memory alone: c and j up to 120 mm, LC 1 to LC 5, LC 6 to LC 11 above 1.97 in, FN "
    "from 3.94 to 4.73 in, FN 2 above 15.75 in",
    "ANSI B4.2 (preferred fits)"};

constexpr const char* kCaution =
    "Limits say what new parts may measure; they do not say a worn part is safe. For brakes, "
    "steering and running gear the maker's limits come first.";

void give_part(const fettle_sink* sink, const LimitedPart& part) {
    give_row(sink, "zones",
             {part.part, part.named, part.upper, part.lower, part.upper - part.lower});
}

std::int32_t compute_limits(const fettle_value* const* values, std::uint32_t count,
                            const fettle_sink* sink) {
    return guarded(count, kInputList.size(), sink, [&] {
        return answered(
            sink,
            work_limits({text(values[kSystem]), number(values[kSize]), text(values[kHole]),
                         text(values[kShaft]), text(values[kInchClass]), text(values[kDuty])}),
            [&](const LimitsAnswer& answer) {
                give_output(sink, "hole_lower", answer.size + answer.hole.lower);
                give_output(sink, "hole_upper", answer.size + answer.hole.upper);
                give_output(sink, "shaft_lower", answer.size + answer.shaft.lower);
                give_output(sink, "shaft_upper", answer.size + answer.shaft.upper);
                give_output(sink, "clearance_min", answer.clearance_min);
                give_output(sink, "clearance_max", answer.clearance_max);
                if (answer.clearance_min < 0) {
                    give_output(sink, "interference_max", -answer.clearance_min);
                    give_output(sink, "interference_min", std::max(0.0, -answer.clearance_max));
                }
                give_output(sink, "kind", answer.kind);
                give_output(sink, "use", answer.use);
                give_part(sink, answer.hole);
                give_part(sink, answer.shaft);
                give_picture(sink, answer.picture);
            });
    });
}

} // namespace

constexpr fettle_sheet kLimitsSheet =
    sheet({.revision = 1,
           .id = "fit.limits",
           .title = "Limits and fits",
           .answers = "What may hole and shaft measure, and how much play or press is there?",
           .caution = kCaution},
          kInputList, kOutputList, kTableList, kSources, compute_limits, kChartList);

} // namespace fettle::fit
