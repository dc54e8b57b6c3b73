// The sheet shim.stack, described, and a compute that moves values between host and sheet.
#include "shim/described.h"
#include "shim/stack_sheet.h"
#include "shim/words.h"

namespace fettle::shim {
namespace {

using namespace plugin;

enum Input : std::size_t { kTarget, kTin, kTolerance, kMost, kKeepBack, kKeepThin };

constexpr fettle_input kInputs[] = {
    input(FETTLE_LIST, {.id = "target",
                        .label = "Stack wanted",
                        .help = "The thickness the stack must have. Several, split by ;, are made "
                                "from the one tin at the same time: left and right, say.",
                        .quantity = "length",
                        .unit = "in",
                        .preset = "0.042; 0.0375",
                        .least = 1e-6,
                        .greatest = 0.1,
                        .required = true}),
    input(FETTLE_LIST, {.id = "tin",
                        .label = "Shims in the tin",
                        .help = "Every shim by micrometer, cleaned and flat, not by its marking. "
                                "Equal ones as often as they are there, split by ;.",
                        .quantity = "length",
                        .unit = "in",
                        .preset = "0.003; 0.003; 0.005; 0.005; 0.0098; 0.010; 0.0102; 0.012; "
                                  "0.0151; 0.020; 0.0201; 0.030",
                        .least = 1e-6,
                        .greatest = 0.1,
                        .required = true}),
    input(FETTLE_NUMBER, {.id = "tolerance",
                          .label = "Error allowed",
                          .help = "Either way. A stack further off is marked: do not use.",
                          .quantity = "length",
                          .unit = "in",
                          .preset = "0.0005",
                          .least = 0,
                          .greatest = 0.01}),
    input(FETTLE_NUMBER, {.id = "most",
                          .label = "Most shims in a stack",
                          .help = "Few thick shims sit better than many thin ones. Blank takes 5.",
                          .quantity = "count",
                          .unit = "",
                          .preset = "5",
                          .least = 1,
                          .greatest = 40}),
    input(FETTLE_NUMBER, {.id = "keep_back",
                          .label = "Thinnest shims kept back",
                          .help = "How many of the thinnest stay in the tin for the last trial. "
                                  "They are used only where the tolerance cannot be met without.",
                          .quantity = "count",
                          .unit = "",
                          .preset = "0",
                          .least = 0,
                          .greatest = 200}),
    input(FETTLE_NUMBER, {.id = "keep_thin",
                          .label = "Keep back all thinner than",
                          .help = "Shims thinner than this stay in the tin likewise. Blank keeps "
                                  "back none for their thickness.",
                          .quantity = "length",
                          .unit = "in",
                          .preset = "",
                          .least = 0,
                          .greatest = 0.1})};
constexpr auto kInputList = pointers(kInputs);

constexpr const char* kAdding = "adding the measured thicknesses";

constexpr fettle_output kOutputs[] = {
    number_output({"sum", "Stack, first target", "length", "mm", "in", 4, kAdding}),
    number_output({"error", "Error, first target", "length", "mm", "in", 2, kAdding}),
    number_output(
        {"error_total", "Errors of all targets together", "length", "mm", "in", 2, kAdding}),
    number_output({"bound", "Errors together are at least", "length", "mm", "in", 2,
                   "bound of the search: proven for this tin"}),
    number_output({"used", "Shims used in all", "count", "", "", 3, kAdding}),
    number_output({"kept_back", "Thin shims kept back", "count", "", "", 3, "counted"})};
constexpr auto kOutputList = pointers(kOutputs);

constexpr fettle_column kShimColumns[] = {
    column("target", "Target", "count", "", false, 2),
    column("thickness", "Thickness", "length", "in", false, 4),
    column("which", "Which in the tin", "count", "", false, 3)};
constexpr auto kShimColumnList = pointers(kShimColumns);
constexpr fettle_column kStackColumns[] = {column("target", "Target", "count", "", false, 2),
                                           column("wanted", "Wanted", "length", "in", false, 4),
                                           column("sum", "Stack", "length", "in", false, 4),
                                           column("error", "Error", "length", "in", false, 2),
                                           column("shims", "Shims", "count", "", false, 2)};
constexpr auto kStackColumnList = pointers(kStackColumns);
constexpr fettle_table kTables[] = {answer_table("shims", "Shims to take", kShimColumnList),
                                    answer_table("stacks", "Stack by stack", kStackColumnList)};
constexpr auto kTableList = pointers(kTables);

constexpr fettle_axis kAcross = axis("", "length", "mm", "in");
constexpr fettle_axis kUp = axis("", "length", "mm", "in");
constexpr fettle_chart kCharts[] = {drawing("stacks", "The stacks, to scale", kAcross, kUp)};
constexpr auto kChartList = pointers(kCharts);

constexpr std::array<const char*, 1> kSources = {
    "Exact search over all sums the tin can make; no empirical figure is used"};

constexpr const char* kCaution =
    "Shims set bearing preload, gear mesh and steering play. After fitting, measure the end float, "
    "turning torque or backlash itself; the maker's figures and licensed practice come first.";

// Each stack a column of its shims, one beside the other; dashed where its target lies.
void draw(const fettle_sink* sink, const StackTyped& typed, const StackAnswer& answer) {
    const double tallest = *std::max_element(typed.targets.begin(), typed.targets.end());
    const double width = 0.5 * tallest;
    for (std::size_t i = 0; i < answer.stacks.size(); ++i) {
        const double left = 3 * width * static_cast<double>(i); // room for the figures beside it
        const double right = left + width;
        double foot = 0;
        for (const std::size_t shim : answer.stacks[i]) {
            const double top = foot + typed.tin[shim];
            give_series(sink, "stacks", "", FETTLE_BODY,
                        {{left, foot}, {right, foot}, {right, top}, {left, top}});
            give_label(sink, "stacks", {right, (foot + top) / 2}, both(typed.tin[shim]));
            foot = top;
        }
        give_series(
            sink, "stacks", i == 0 ? "wanted" : "", FETTLE_DASHED,
            {{left - 0.1 * width, typed.targets[i]}, {right + 0.1 * width, typed.targets[i]}});
    }
}

void give(const fettle_sink* sink, const StackTyped& typed, const StackAnswer& answer) {
    sink->number(sink->context, "sum", answer.sums.front());
    sink->number(sink->context, "error", answer.errors.front());
    sink->number(sink->context, "error_total", answer.error_total);
    sink->number(sink->context, "bound", answer.bound);
    sink->number(sink->context, "used", answer.shims_used);
    sink->number(sink->context, "kept_back", answer.kept_back);
    for (std::size_t i = 0; i < answer.stacks.size(); ++i) {
        const auto target = static_cast<double>(i + 1);
        for (const std::size_t shim : answer.stacks[i])
            give_row(sink, "shims", {target, typed.tin[shim], static_cast<double>(shim + 1)});
        give_row(sink, "stacks",
                 {target, typed.targets[i], answer.sums[i], answer.errors[i],
                  static_cast<double>(answer.stacks[i].size())});
    }
    draw(sink, typed, answer);
}

std::int32_t compute_stack(const fettle_value* const* values, std::uint32_t count,
                           const fettle_sink* sink) {
    return guarded(count, kInputList.size(), sink, [&] {
        const StackTyped typed{numbers(values[kTarget]),   numbers(values[kTin]),
                               number(values[kTolerance]), number(values[kMost]),
                               number(values[kKeepBack]),  number(values[kKeepThin])};
        return answered(sink, work_stack(typed),
                        [&](const StackAnswer& answer) { give(sink, typed, answer); });
    });
}

} // namespace

constexpr fettle_sheet kStackSheet =
    sheet({.revision = 2,
           .id = "shim.stack",
           .title = "Shim stack from the tin",
           .answers = "Which of the shims in the tin make the thickness wanted?",
           .caution = kCaution},
          kInputList, kOutputList, kTableList, kSources, compute_stack, kChartList);

} // namespace fettle::shim
