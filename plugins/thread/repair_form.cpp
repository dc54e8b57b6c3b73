// thread.repair as the contract describes it, and a compute that moves values between host and
// sheet.
#include "screw_threads/words.h"
#include "thread/forms.h"
#include "thread/repair_sheet.h"

namespace fettle::thread {
namespace {

using namespace fettle::plugin;

enum Input : std::size_t {
    kThread,
    kWay,
    kBushOd,
    kInto,
    kIntoStrength,
    kGrade,
    kTensile,
    kLength,
    kHoleNow,
    kEdge,
    kDrills,
    kShare
};

constexpr fettle_input kInputs[] = {
    input(FETTLE_TEXT, kThreadField),
    choice_input({.id = "way",
                  .label = "Way of mending",
                  .help = "All four are compared below; this one is worked in full.",
                  .preset = kInsert,
                  .required = true},
                 kWays),
    input(FETTLE_NUMBER,
          {.id = "bush_od",
           .label = "Bush, outside diameter",
           .help = "Of a threaded bush at the pitch of the bolt. Blank takes one and "
                   "a half diameters of the bolt.",
           .quantity = "length",
           .unit = "mm",
           .least = 2e-3,
           .greatest = 200e-3,
           .when = "way=solid bush"}),
    choice_input({.id = "into",
                  .label = "Stripped in",
                  .help = "The metal of the part. A file or a magnet tells iron and steel from "
                          "aluminium; take cast iron when in doubt.",
                  .preset = "aluminium",
                  .required = true},
                 screw::kBearsOn),
    input(FETTLE_NUMBER, kIntoStrengthField),
    choice_input(kGradeField, screw::kGradeNames),
    input(FETTLE_NUMBER, kTensileField),
    input(FETTLE_NUMBER, {.id = "length",
                          .label = "Length of thread",
                          .help = "Full thread that the mended hole will have, or the insert's "
                                  "fitted length: depth gauge less the tap's lead.",
                          .quantity = "length",
                          .unit = "mm",
                          .preset = "0.75 in",
                          .least = 1e-3,
                          .greatest = 200e-3,
                          .required = true}),
    input(FETTLE_NUMBER, {.id = "hole_now",
                          .label = "Hole as torn",
                          .help = "Across the widest place, with small-bore gauge or the largest "
                                  "drill shank that enters. Blank takes the full outside of the "
                                  "bolt, nothing left.",
                          .quantity = "length",
                          .unit = "mm",
                          .preset = "9.3",
                          .least = 0.5e-3,
                          .greatest = 200e-3}),
    input(FETTLE_NUMBER, {.id = "edge",
                          .label = "Middle of hole to edge",
                          .help = "From the middle of the hole to the nearest outside, bore or "
                                  "waterway of the part, with vernier: to the hole's near side, "
                                  "plus half the hole.",
                          .quantity = "length",
                          .unit = "mm",
                          .preset = "14",
                          .least = 1e-3,
                          .greatest = 1,
                          .required = true}),
    choice_input({.id = "drills",
                  .label = "Drills at hand",
                  .help = "The set that the drill is chosen from.",
                  .preset = "all"},
                 kDrillSets),
    input(FETTLE_NUMBER, {.id = "share",
                          .label = "Share of full thread wanted",
                          .help = "Blank takes the usual: metric d - P, 82 % for British forms, "
                                  "75 % for the others. Hard steel taps easier at 60 to 65 %.",
                          .quantity = "ratio",
                          .unit = "%",
                          .least = 0.5,
                          .greatest = 0.95})};
constexpr auto kInputList = pointers(kInputs);

constexpr const char* kStrip = "FED-STD-H28/2, half the tensile strength in shear (BS 3580)";
constexpr const char* kDrilled = "ISO 2306, BS 1157, DIN 8140 (inserts, from memory)";
constexpr fettle_output kOutputs[] = {
    number_output({"drill", "Drill", "length", "mm", "in", 3, kDrilled}),
    text_output({"drill_name", "Called", "ISO 235, ASME B94.11M (from memory)"}),
    number_output({"thread_share", "Share of full thread", "ratio", "%", "", 2,
                   "(D - hole)/(k P), k by form"}),
    text_output({"tap", "Tap", "DIN 8140 (inserts, from memory), or the thread's own"}),
    number_output({"tap_major", "Tap, outside", "length", "mm", "in", 4,
                   "D + 1.299038 P for inserts (DIN 8140, from memory)"}),
    text_output(
        {"thread_after", "Bolt afterwards", "the series of the thread", "torque.tighten.thread"}),
    number_output({"wall", "Wall left", "length", "mm", "in", 3, "edge less half of the tap"}),
    number_output({"needed", "Length needed", "length", "mm", "in", 2, kStrip}),
    number_output({"strip_before", "Old thread held", "force", "kN", "lbf", 2, kStrip}),
    number_output({"strip_load", "Mended thread strips at", "force", "kN", "lbf", 2, kStrip}),
    number_output({"bolt_breaks", "Bolt breaks at", "force", "kN", "lbf", 3,
                   "tensile strength x stress area (ASME B1.1, ISO 898-1)"})};
constexpr auto kOutputList = pointers(kOutputs);

constexpr fettle_column kColumns[] = {text_column("way", "Way"),
                                      text_column("tap", "Tap"),
                                      column("drill", "Drill", "length", "mm", false, 3),
                                      text_column("drill_name", "Called"),
                                      column("share", "Thread left", "ratio", "%", false, 2),
                                      column("wall", "Wall", "length", "mm", false, 3),
                                      column("strip", "Strips at", "force", "kN", false, 2),
                                      column("needed", "Needed", "length", "mm", false, 2),
                                      text_column("verdict", "Verdict")};
constexpr auto kColumnList = pointers(kColumns);
constexpr fettle_table kTables[] = {answer_table("ways", "Ways of mending", kColumnList)};
constexpr auto kTableList = pointers(kTables);

constexpr fettle_axis kAlong = axis("", "length", "mm", "in");
constexpr fettle_axis kAcross = axis("", "length", "mm", "in");
constexpr fettle_chart kCharts[] = {drawing("section", "Mended hole, cut", kAlong, kAcross)};
constexpr auto kChartList = pointers(kCharts);

constexpr std::array<const char*, 6> kSources = {
    "DIN 8140 (taps for wire-thread inserts: major D + 1.299038 P; from memory)",
    "ISO 2306 (metric drills, d - P), BS 1157 (British, 77 to 87 % of thread)",
    "ISO 235, ASME B94.11M (drill sizes, from memory)",
    "FED-STD-H28/2, BS 3580, VDI 2230 (shear areas, strengths)",
    "SAE J429, ISO 898-1, ASTM A574, BS 970 (bolt strengths, in part from memory)",
    "least walls: common practice, no source"};

constexpr const char* kCaution =
    "Not for steering, brake, suspension, wheel or lifting parts unless the maker allows it: there "
    "a stripped part is replaced, as local codes and licensed practice ask. Look for cracks first; "
    "mind waterways and oilways when drilling, and wear eye protection.";

RepairTyped typed_from(const fettle_value* const* values) {
    return {.joined = {.thread = text(values[kThread]),
                       .grade = text(values[kGrade]),
                       .tensile_strength = number(values[kTensile]),
                       .into = text(values[kInto]),
                       .into_strength = number(values[kIntoStrength])},
            .way = text(values[kWay]),
            .length = number(values[kLength]),
            .hole_now = number(values[kHoleNow]),
            .edge = number(values[kEdge]),
            .bush_od = number(values[kBushOd]),
            .drills = text(values[kDrills]),
            .share = number(values[kShare])};
}

void give(const fettle_sink* sink, const RepairAnswer& answer) {
    give_output(sink, "drill", answer.drill);
    give_output(sink, "drill_name", answer.drill_name);
    give_output(sink, "thread_share", answer.share);
    give_output(sink, "tap", answer.tap);
    give_output(sink, "tap_major", answer.tap_major);
    give_output(sink, "thread_after", answer.thread_after);
    give_output(sink, "wall", answer.wall);
    give_output(sink, "needed", answer.needed);
    give_output(sink, "strip_before", answer.strip_before);
    give_output(sink, "strip_load", answer.strip);
    give_output(sink, "bolt_breaks", answer.bolt_breaks);
    for (const WayRow& row : answer.ways) {
        give_row(sink, "ways",
                 {row.name, row.tap, row.drill, row.drill_name, row.share, row.wall, row.strip,
                  row.needed, row.verdict});
    }
    screw::give_picture(sink, answer.section);
}

std::int32_t compute(const fettle_value* const* values, std::uint32_t count,
                     const fettle_sink* sink) {
    return guarded(count, kInputList.size(), sink, [&] {
        const RepairTyped typed = typed_from(values);
        if (!typed.length) return refuse(sink, {"length", "length: nothing is typed."});
        if (!typed.edge) return refuse(sink, {"edge", "edge: nothing is typed."});
        return answered(sink, work_repair(typed),
                        [&](const RepairAnswer& answer) { give(sink, answer); });
    });
}

} // namespace

constinit const fettle_sheet kRepairForm =
    sheet({.revision = 1,
           .id = "thread.repair",
           .title = "Mending a stripped hole",
           .answers = "What to drill and tap, what it then holds, and is there metal enough?",
           .caution = kCaution},
          kInputList, kOutputList, kTableList, kSources, compute, kChartList);

} // namespace fettle::thread
