// thread.engagement as the contract describes it, and a compute that moves values between host and
// sheet.
#include "screw_threads/words.h"
#include "thread/engagement_sheet.h"
#include "thread/forms.h"

namespace fettle::thread {
namespace {

using namespace fettle::plugin;

constexpr auto kIntoNames = screw::named(screw::kPartMaterials);

enum Input : std::size_t {
    kThread,
    kGrade,
    kTensile,
    kInto,
    kIntoStrength,
    kHave,
    kBoltMajor,
    kHoleMinor
};

constexpr fettle_input kInputs[] = {
    input(FETTLE_TEXT, kThreadField),
    choice_input(kGradeField, screw::kGradeNames),
    input(FETTLE_NUMBER, kTensileField),
    choice_input({.id = "into",
                  .label = "Screwed into",
                  .help = "What the bolt's thread holds in. A file or a magnet tells iron and "
                          "steel from aluminium; take cast iron when in doubt.",
                  .preset = "cast iron"},
                 kIntoNames),
    input(FETTLE_NUMBER, kIntoStrengthField),
    input(FETTLE_NUMBER, {.id = "have",
                          .label = "Thread engaged",
                          .help = "Length of full thread that is screwed in: count the turns from "
                                  "first bite to home, or depth gauge less the chamfer and a "
                                  "tapered tap's lead.",
                          .quantity = "length",
                          .unit = "mm",
                          .preset = "1 in",
                          .least = 0.5e-3,
                          .greatest = 200e-3}),
    input(FETTLE_NUMBER, {.id = "bolt_major",
                          .label = "Worn bolt, outside",
                          .help = "Over the crests where they are most worn. Blank takes the least "
                                  "of the standard.",
                          .quantity = "length",
                          .unit = "mm",
                          .least = 1e-3,
                          .greatest = 110e-3}),
    input(FETTLE_NUMBER, {.id = "hole_minor",
                          .label = "Worn hole, bore",
                          .help = "Between the crests where they are most worn. Blank takes the "
                                  "greatest of the standard.",
                          .quantity = "length",
                          .unit = "mm",
                          .least = 1e-3,
                          .greatest = 110e-3})};
constexpr auto kInputList = pointers(kInputs);

constexpr const char* kShear = "FED-STD-H28/2 and ASME B1.1 appendix B, thread shear areas";
constexpr fettle_output kOutputs[] = {
    number_output({"needed", "Engagement needed", "length", "mm", "in", 3, kShear}),
    number_output({"diameters", "In diameters", "number", "", "", 2, kShear}),
    number_output({"turns", "In turns", "number", "", "", 2, kShear}),
    number_output({"bolt_breaks", "Bolt breaks at", "force", "kN", "lbf", 3,
                   "tensile strength x stress area (ASME B1.1, ISO 898-1)"}),
    number_output({"strip_load", "Thread strips at", "force", "kN", "lbf", 3,
                   "FED-STD-H28/2, half the tensile strength in shear (BS 3580)"}),
    number_output({"reserve", "Strip over break", "ratio", "%", "", 3, kShear})};
constexpr auto kOutputList = pointers(kOutputs);

constexpr fettle_column kColumns[] = {text_column("material", "Screwed into"),
                                      column("tensile", "Strength", "pressure", "MPa", false, 3),
                                      column("needed", "Needed", "length", "mm", false, 3),
                                      column("diameters", "Diameters", "number", "", false, 2)};
constexpr auto kColumnList = pointers(kColumns);
constexpr fettle_table kTables[] = {answer_table("materials", "In other materials", kColumnList)};
constexpr auto kTableList = pointers(kTables);

constexpr fettle_axis kAlong = axis("", "length", "mm", "in");
constexpr fettle_axis kAcross = axis("", "length", "mm", "in");
constexpr fettle_axis kLengthAxis = axis("Engaged", "length", "mm", "in");
constexpr fettle_axis kLoadAxis = axis("Load", "force", "kN", "lbf");
constexpr fettle_chart kCharts[] = {chart("load", "What strips the thread", kLengthAxis, kLoadAxis),
                                    drawing("section", "Thread engaged, cut", kAlong, kAcross)};
constexpr auto kChartList = pointers(kCharts);

constexpr std::array<const char*, 5> kSources = {
    "FED-STD-H28/2, ASME B1.1 appendix B (shear areas and engagement)",
    "ISO 965-1, ASME B1.1, BS 84 (limits, from memory, checked)",
    "BS 3580 (strength in shear half the tensile strength)",
    "SAE J429, ISO 898-1, ASTM A574, BS 970 (bolt strengths, in part from memory)",
    "VDI 2230 (strengths of parts)"};

constexpr const char* kCaution =
    "Reckoned for sound metal: corroded, cracked or previously repaired bosses hold less. On "
    "brakes, steering, suspension and lifting gear the maker's length comes first, then local "
    "codes and licensed practice.";

EngagementTyped typed_from(const fettle_value* const* values) {
    return {.joined = {.thread = text(values[kThread]),
                       .grade = text(values[kGrade]),
                       .tensile_strength = number(values[kTensile]),
                       .into = text(values[kInto]),
                       .into_strength = number(values[kIntoStrength])},
            .have = number(values[kHave]),
            .bolt_major = number(values[kBoltMajor]),
            .hole_minor = number(values[kHoleMinor])};
}

void give(const fettle_sink* sink, const EngagementAnswer& answer) {
    give_output(sink, "needed", answer.needed);
    give_output(sink, "diameters", answer.diameters);
    give_output(sink, "turns", answer.turns);
    give_output(sink, "bolt_breaks", answer.bolt_breaks);
    give_output(sink, "strip_load", answer.strip_load);
    give_output(sink, "reserve", answer.reserve);
    for (const MaterialRow& row : answer.materials)
        give_row(sink, "materials", {row.name, row.tensile, row.needed, row.diameters});
    screw::give_picture(sink, answer.load);
    screw::give_picture(sink, answer.section);
}

std::int32_t compute(const fettle_value* const* values, std::uint32_t count,
                     const fettle_sink* sink) {
    return guarded(count, kInputList.size(), sink, [&] {
        return answered(sink, work_engagement(typed_from(values)),
                        [&](const EngagementAnswer& answer) { give(sink, answer); });
    });
}

} // namespace

constinit const fettle_sheet kEngagementForm =
    sheet({.revision = 1,
           .id = "thread.engagement",
           .title = "How much thread must hold",
           .answers = "How far must this bolt be screwed in so that it breaks before it strips?",
           .caution = kCaution,
           .smooth = true},
          kInputList, kOutputList, kTableList, kSources, compute, kChartList);

} // namespace fettle::thread
