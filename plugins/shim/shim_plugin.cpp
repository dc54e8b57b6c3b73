// The plugin "shim": its description, and a compute that moves values between host and sheet.
#include "describe.hpp"
#include "shim/stack_sheet.h"

namespace {

using namespace fettle::plugin;
using fettle::shim::StackAnswer;
using fettle::shim::StackTyped;

enum Input : std::size_t { kTarget, kTin, kTolerance, kMost };

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
                          .greatest = 40})};
constexpr auto kInputList = pointers(kInputs);

constexpr const char* kAdding = "adding the measured thicknesses";

constexpr fettle_output kOutputs[] = {
    number_output({"sum", "Stack, first target", "length", "mm", "in", 4, kAdding}),
    number_output({"error", "Error, first target", "length", "mm", "in", 2, kAdding}),
    number_output(
        {"error_total", "Errors of all targets together", "length", "mm", "in", 2, kAdding}),
    number_output({"used", "Shims used in all", "count", "", "", 3, kAdding})};
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
constexpr fettle_table kTables[] = {{sizeof(fettle_table), "shims", "Shims to take",
                                     kShimColumnList.size(), kShimColumnList.data()},
                                    {sizeof(fettle_table), "stacks", "Stack by stack",
                                     kStackColumnList.size(), kStackColumnList.data()}};
constexpr auto kTableList = pointers(kTables);

constexpr std::array<const char*, 1> kSources = {
    "Exact search over all sums the tin can make; no empirical figure is used"};

constexpr const char* kCaution =
    "Shims set bearing preload, gear mesh and steering play. After fitting, measure the end float, "
    "turning torque or backlash itself; the maker's figures and licensed practice come first.";

std::vector<double> list(const fettle_value* value) {
    if (value->given == 0 || value->numbers == nullptr) return {};
    return {value->numbers, value->numbers + value->rows};
}

void give(const fettle_sink* sink, const StackTyped& typed, const StackAnswer& answer) {
    sink->number(sink->context, "sum", answer.sums.front());
    sink->number(sink->context, "error", answer.errors.front());
    sink->number(sink->context, "error_total", answer.error_total);
    sink->number(sink->context, "used", answer.shims_used);
    for (std::size_t i = 0; i < answer.stacks.size(); ++i) {
        const auto target = static_cast<double>(i + 1);
        for (const std::size_t shim : answer.stacks[i])
            give_row(sink, "shims", {target, typed.tin[shim], static_cast<double>(shim + 1)});
        give_row(sink, "stacks",
                 {target, typed.targets[i], answer.sums[i], answer.errors[i],
                  static_cast<double>(answer.stacks[i].size())});
    }
    give_account(sink, answer.account);
}

std::int32_t compute_stack(const fettle_value* const* values, std::uint32_t count,
                           const fettle_sink* sink) {
    return guarded(count, kInputList.size(), sink, [&] {
        const StackTyped typed{list(values[kTarget]), list(values[kTin]),
                               number(values[kTolerance]), number(values[kMost])};
        const auto outcome = fettle::shim::work_stack(typed);
        if (const auto* refusal = std::get_if<Refusal>(&outcome)) return refuse(sink, *refusal);
        give(sink, typed, std::get<StackAnswer>(outcome));
        return std::int32_t{FETTLE_DONE};
    });
}

constexpr fettle_sheet kSheets[] = {
    {sizeof(fettle_sheet), 1, "shim.stack", "Shim stack from the tin",
     "Which of the shims in the tin make the thickness wanted?", kCaution, kInputList.size(),
     kInputList.data(), kOutputList.size(), kOutputList.data(), kTableList.size(),
     kTableList.data(), kSources.size(), kSources.data(), compute_stack}};
constexpr auto kSheetList = pointers(kSheets);

constexpr fettle_plugin kPlugin = {
    sizeof(fettle_plugin), FETTLE_ABI_VERSION, "shim", "Shims and backlash", "1.0.0",
    kSheetList.size(),     kSheetList.data()};

} // namespace

const fettle_plugin* fettle_plugin_describe(std::uint32_t abi_version) {
    return abi_version == FETTLE_ABI_VERSION ? &kPlugin : nullptr;
}
