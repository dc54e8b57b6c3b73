// spring.sag as the contract describes it, and a compute that moves values between host and sheet.
#include "spring/forms.h"
#include "spring/sag_sheet.h"

namespace fettle::spring {
namespace {

using namespace fettle::plugin;

constexpr double kTolerance = 0.25 * 0.0254;
constexpr double kMostPacking = 0.5 * 0.0254;

enum Input : std::size_t {
    kFreeLeft,
    kFreeRight,
    kLoadedLeft,
    kLoadedRight,
    kLoadLeft,
    kLoadRight,
    kWantedFree,
    kWantedLoaded,
    kRate,
    kLength,
    kToleranceTyped,
    kMostPackingTyped
};

constexpr fettle_input arch(const char* id, const char* label, const char* help, const char* preset,
                            bool required) {
    return input(FETTLE_NUMBER, {.id = id,
                                 .label = label,
                                 .help = help,
                                 .quantity = "length",
                                 .unit = "in",
                                 .preset = preset,
                                 .least = -1,
                                 .greatest = 2,
                                 .required = required});
}

constexpr fettle_input load(const char* id, const char* label, const char* preset) {
    return input(FETTLE_NUMBER, {.id = id,
                                 .label = label,
                                 .help = "What that spring carried when its loaded arch was read: "
                                         "the weight on the wheel less wheel, brake and half the "
                                         "axle.",
                                 .quantity = "force",
                                 .unit = "lbf",
                                 .preset = preset,
                                 .least = 1,
                                 .greatest = 1e6});
}

constexpr const char* kFreeHelp =
    "Without load, off the vehicle: from a line between the eye centres to the top of the master "
    "leaf at the middle.";
constexpr const char* kLoadedHelp =
    "The same on the vehicle, standing level on its wheels: mean of a reading after pressing it "
    "down and one after lifting it.";

constexpr fettle_input kInputs[] = {
    arch("free_left", "Free arch, left", kFreeHelp, "3.85", true),
    arch("free_right", "Free arch, right", kFreeHelp, "4.15", true),
    arch("loaded_left", "Arch under load, left", kLoadedHelp, "2.5", false),
    arch("loaded_right", "Arch under load, right", kLoadedHelp, "2.85", false),
    load("load_left", "Load, left", "820"),
    load("load_right", "Load, right", "820"),
    arch("wanted_free", "Free arch wanted",
         "The maker's, or that of a pair known to be good. Blank judges one side by the other.",
         "4.25", false),
    arch("wanted_loaded", "Arch under load wanted",
         "The maker's, at the load typed; what is wanting is judged by it before the free arch.",
         "2.95", false),
    input(FETTLE_NUMBER, {.id = "rate",
                          .label = "Rate calculated",
                          .help = "From the sheet of the pack, or the maker's. A spring that shows "
                                  "another rate has something wrong with its leaves.",
                          .quantity = "spring_rate",
                          .unit = "lbf/in",
                          .preset = "630",
                          .least = 100,
                          .greatest = 1e8}),
    input(FETTLE_NUMBER, {.id = "length",
                          .label = "Length of the master leaf",
                          .help = "Along the leaf from eye centre to eye centre; only for the "
                                  "radius to set it to.",
                          .quantity = "length",
                          .unit = "in",
                          .preset = "36.25",
                          .least = 0.1,
                          .greatest = 10}),
    input(FETTLE_NUMBER,
          {.id = "tolerance",
           .label = "May differ by",
           .help = "From what is wanted and from side to side. Blank takes 1/4 in (common "
                   "practice, no source); the maker's figure comes first.",
           .quantity = "length",
           .unit = "in",
           .preset = "0.25",
           .least = 0.0001,
           .greatest = 0.2}),
    input(FETTLE_NUMBER, {.id = "most_packing",
                          .label = "Packing at most",
                          .help = "More than this is re-arched, not packed. Blank takes 1/2 in "
                                  "(common practice, no source); 0 forbids packing.",
                          .quantity = "length",
                          .unit = "in",
                          .preset = "0.5",
                          .least = 0,
                          .greatest = 0.2})};
constexpr auto kInputList = pointers(kInputs);

constexpr const char* kReadings = "difference of the readings";
constexpr const char* kShown = "load over deflection";
constexpr const char* kJudged = "readings against what is wanted; common practice, no source";
constexpr const char* kBounce = "natural frequency of a mass on a spring";
constexpr const char* kArc = "h = R(1 - cos(l/2R)), circular arc";

constexpr fettle_output length_out(const char* id, const char* label, const char* source) {
    return number_output({id, label, "length", "mm", "in", 3, source});
}

constexpr fettle_output kOutputs[] = {
    text_output({"verdict", "Verdict", kJudged}),
    length_out("difference_free", "Free, left over right", kReadings),
    length_out("difference_loaded", "Loaded, left over right", kReadings),
    length_out("rearch_left", "Re-arch by, left", kJudged),
    length_out("rearch_right", "Re-arch by, right", kJudged),
    length_out("packing_left", "Packing, left", kJudged),
    length_out("packing_right", "Packing, right", kJudged),
    length_out("radius_left", "Radius to set, left", kArc),
    length_out("radius_right", "Radius to set, right", kArc),
    number_output({"rate_left", "Rate shown, left", "spring_rate", "N/mm", "lbf/in", 2, kShown}),
    number_output({"rate_right", "Rate shown, right", "spring_rate", "N/mm", "lbf/in", 2, kShown}),
    number_output({"frequency_left", "Bounce, left", "frequency", "Hz", "", 2, kBounce}),
    number_output({"frequency_right", "Bounce, right", "frequency", "Hz", "", 2, kBounce}),
    number_output({"softer", "Softer ride than calculated", "ratio", "%", "", 2,
                   "1 - sqrt(rate shown / rate calculated)"})};
constexpr auto kOutputList = pointers(kOutputs);

constexpr fettle_column kSideShown[] = {
    text_column("side", "Side"), text_column("verdict", "What to do"),
    column("wanting", "Arch wanting", "length", "in", false, 3),
    column("new_arch", "Free arch after", "length", "in", false, 3)};
constexpr auto kSideShownList = pointers(kSideShown);
constexpr fettle_table kTables[] = {answer_table("sides", "Side by side", kSideShownList)};
constexpr auto kTableList = pointers(kTables);

constexpr fettle_axis kLoadAxis = axis("Load", "force", "N", "lbf");
constexpr fettle_axis kArchAxis = axis("Arch", "length", "mm", "in");
constexpr fettle_chart kCharts[] = {chart("arch", "Arch over load", kLoadAxis, kArchAxis)};
constexpr auto kChartList = pointers(kCharts);

constexpr std::array<const char*, 2> kSources = {
    "Natural frequency of a mass on a spring; arc and chord (geometry)",
    "What is left, packed or re-arched: common practice, no source"};

SagTyped typed_from(const fettle_value* const* values) {
    SagTyped typed{};
    typed.sides[0] = {number(values[kFreeLeft]).value_or(0), number(values[kLoadedLeft]),
                      number(values[kLoadLeft])};
    typed.sides[1] = {number(values[kFreeRight]).value_or(0), number(values[kLoadedRight]),
                      number(values[kLoadRight])};
    typed.wanted_free = number(values[kWantedFree]);
    typed.wanted_loaded = number(values[kWantedLoaded]);
    typed.rate = number(values[kRate]);
    typed.length = number(values[kLength]);
    typed.tolerance = number(values[kToleranceTyped]).value_or(kTolerance);
    typed.most_packing = number(values[kMostPackingTyped]).value_or(kMostPacking);
    return typed;
}

void give_sides(const fettle_sink* sink, const SagTyped& typed, const SagAnswer& answer) {
    static constexpr const char* kNames[] = {"left", "right"};
    static constexpr const char* kIds[2][5] = {
        {"rearch_left", "packing_left", "radius_left", "rate_left", "frequency_left"},
        {"rearch_right", "packing_right", "radius_right", "rate_right", "frequency_right"}};
    for (std::size_t i = 0; i < 2; ++i) {
        const SideFound& side = answer.found.sides[i];
        give_output(sink, kIds[i][0], side.rearch);
        give_output(sink, kIds[i][1], side.packing);
        give_output(sink, kIds[i][2], side.radius);
        give_output(sink, kIds[i][3], side.rate);
        give_output(sink, kIds[i][4], side.frequency);
        give_row(sink, "sides",
                 {kNames[i], answer.verdicts[i], side.wanting, typed.sides[i].free + side.rearch});
    }
}

void draw_arches(const fettle_sink* sink, const SagTyped& typed) {
    double most = 0;
    for (std::size_t i = 0; i < 2; ++i) {
        const Side& side = typed.sides[i];
        if (!side.loaded || !side.load) continue;
        give_series(sink, "arch", i == 0 ? "Left" : "Right", FETTLE_LINE,
                    {{0, side.free}, {*side.load, *side.loaded}});
        most = std::max(most, *side.load);
    }
    if (!typed.rate || !typed.wanted_free || most <= 0) return;
    give_series(sink, "arch", "Wanted free, rate calculated", FETTLE_DASHED,
                {{0, *typed.wanted_free}, {most, *typed.wanted_free - most / *typed.rate}});
}

std::int32_t compute_sag(const fettle_value* const* values, std::uint32_t count,
                         const fettle_sink* sink) {
    return guarded(count, kInputList.size(), sink, [&] {
        const SagTyped typed = typed_from(values);
        return answered(sink, work_sag(typed), [&](const SagAnswer& answer) {
            give_output(sink, "verdict", answer.verdict);
            give_output(sink, "difference_free", answer.found.difference_free);
            give_output(sink, "difference_loaded", answer.found.difference_loaded);
            give_output(sink, "softer", answer.found.softer);
            give_sides(sink, typed, answer);
            draw_arches(sink, typed);
        });
    });
}

} // namespace

// Not smooth: a verdict turns at its limit, and re-arch and packing with it.
constinit const fettle_sheet kSagForm =
    sheet({.revision = 1,
           .id = "spring.sag",
           .title = "Sagged springs",
           .answers = "Are left and right alike, and is a spring to be re-arched, packed or left?",
           .caution = kCaution},
          kInputList, kOutputList, kTableList, kSources, compute_sag, kChartList);

} // namespace fettle::spring
