// The plugin "torque": its description, and a compute that moves values between host and sheet.
#include "describe.hpp"
#include "torque/tighten_sheet.h"

#include <numbers>

namespace {

using namespace fettle::plugin;
using fettle::torque::kGradeNames;
using fettle::torque::kSurfaces;
using fettle::torque::TightenAnswer;
using fettle::torque::TightenTyped;

constexpr std::array<const char*, 2> kBases = {"proof", "yield"};
constexpr auto kSurfaceNames = [] {
    std::array<const char*, kSurfaces.size()> names{};
    for (std::size_t i = 0; i < names.size(); ++i)
        names[i] = kSurfaces[i].name;
    return names;
}();

enum Input : std::size_t {
    kThread,
    kGrade,
    kSurface,
    kMuThread,
    kMuHead,
    kBasis,
    kUse,
    kScatter,
    kBearingOd,
    kHole,
    kAdapter,
    kAdapterAngle,
    kWrench
};

constexpr fettle_input kInputs[] = {
    input(FETTLE_TEXT,
          {.id = "thread",
           .label = "Thread",
           .help = "Size and pitch as it is called: 5/16-24 UNF, 3/8-20 BSF, 1/2-12 "
                   "BSW, 2BA, M10x1.5. M8 alone is the coarse pitch. Measure the pitch, "
                   "do not guess it.",
           .preset = "5/16-24 UNF",
           .required = true}),
    choice_input({.id = "grade",
                  .label = "Grade",
                  .help = "By the marks on the head: SAE J429 radial lines (5: three, 8: six), ISO "
                          "898-1 figures, A574 for inch socket screws. No mark: SAE 1 or ISO 4.6.",
                  .preset = "SAE 5",
                  .required = true},
                 kGradeNames),
    choice_input({.id = "surface",
                  .label = "Surface",
                  .help =
                      "The state of thread and head. Friction is the middle of its range, unless "
                      "it is typed below.",
                  .preset = "oiled"},
                 kSurfaceNames),
    input(FETTLE_NUMBER, {.id = "mu_thread",
                          .label = "Friction in the thread",
                          .help = "Coefficient, if you know it better than the surface tells.",
                          .quantity = "number",
                          .least = 0.01,
                          .greatest = 1}),
    input(FETTLE_NUMBER, {.id = "mu_head",
                          .label = "Friction under the head",
                          .help = "Coefficient under whatever is turned, head or nut.",
                          .quantity = "number",
                          .least = 0.01,
                          .greatest = 1}),
    choice_input({.id = "basis",
                  .label = "Share of what",
                  .help = "proof: a share of the proof load. yield: a share of the yield, with the "
                          "torsion of tightening counted (VDI 2230).",
                  .preset = "proof"},
                 kBases),
    input(FETTLE_NUMBER, {.id = "use",
                          .label = "Share used",
                          .help = "0.75 or 75 %. Blank takes 0.75 of proof or 0.9 of yield.",
                          .quantity = "ratio",
                          .unit = "1",
                          .least = 0.05,
                          .greatest = 1.5}),
    input(FETTLE_NUMBER, {.id = "scatter",
                          .label = "Scatter of the preload",
                          .help = "Either way: 25 % for a torque wrench, 35 % by feel (Machinery's "
                                  "Handbook). Blank takes 25 %.",
                          .quantity = "ratio",
                          .unit = "1",
                          .preset = "25 %",
                          .least = 0,
                          .greatest = 0.9}),
    input(FETTLE_NUMBER,
          {.id = "bearing_od",
           .label = "Bearing diameter",
           .help = "Outside of the ring that rubs under head or nut. Blank takes the "
                   "usual head of the size.",
           .quantity = "length",
           .unit = "in",
           .least = 0.001,
           .greatest = 0.3}),
    input(FETTLE_NUMBER, {.id = "hole",
                          .label = "Hole under the head",
                          .help = "Inside of that ring: clearance hole or washer bore. Blank takes "
                                  "the usual hole of the size.",
                          .quantity = "length",
                          .unit = "in",
                          .least = 0.001,
                          .greatest = 0.3}),
    input(FETTLE_NUMBER,
          {.id = "adapter",
           .label = "Adapter length",
           .help = "Drive square to bolt centre of a crowfoot or extension bar across "
                   "the wrench. Blank for none.",
           .quantity = "length",
           .unit = "in",
           .least = 0,
           .greatest = 2}),
    input(FETTLE_NUMBER,
          {.id = "adapter_angle",
           .label = "Angle of the adapter",
           .help = "0 in line and lengthening the wrench, 90 square to it (no change), "
                   "180 folded back. Blank takes 0.",
           .quantity = "angle",
           .unit = "°",
           .least = 0,
           .greatest = std::numbers::pi}),
    input(FETTLE_NUMBER, {.id = "wrench",
                          .label = "Wrench length",
                          .help = "Drive square to the middle of the hand. Needed with an adapter.",
                          .quantity = "length",
                          .unit = "in",
                          .least = 0.01,
                          .greatest = 5})};
constexpr auto kInputList = pointers(kInputs);

constexpr fettle_output kOutputs[] = {
    number_output({"stress_area", "Stress area", "area", "mm2", "in2", 3,
                   "UN: ASME B1.1; metric: ISO 898-1; Whitworth and BA by the same rule"}),
    number_output({"proof_load", "Proof load", "force", "kN", "lbf", 3,
                   "SAE J429, ISO 898-1 or ASTM A574, by grade"}),
    number_output({"preload", "Preload", "force", "kN", "lbf", 3,
                   "share of proof load, or VDI 2230 for a share of yield"}),
    number_output({"preload_min", "Least preload", "force", "kN", "lbf", 2,
                   "scatter: Machinery's Handbook; friction range: VDI 2230 table A5"}),
    number_output({"preload_max", "Greatest preload", "force", "kN", "lbf", 2,
                   "scatter: Machinery's Handbook; friction range: VDI 2230 table A5"}),
    number_output({"torque", "Torque", "torque", "N.m", "lbf.ft", 3,
                   "VDI 2230: T = F(P/2pi + d2 mu/(2 cos a) + mu Dkm/2)"}),
    number_output({"wrench_setting", "Set on the wrench", "torque", "N.m", "lbf.ft", 3,
                   "Y = T L/(L + E cos a), levers"})};
constexpr auto kOutputList = pointers(kOutputs);

constexpr std::array<const char*, 6> kSources = {"ASME B1.1, ISO 261, BS 84, BS 93 (threads)",
                                                 "SAE J429 (grades 1, 2, 5, 8)",
                                                 "ISO 898-1 (4.6 to 12.9)",
                                                 "ASTM A574 (socket head cap screws)",
                                                 "VDI 2230 (preload, torque, friction classes)",
                                                 "Machinery's Handbook (scatter of preload)"};

constexpr const char* kCaution =
    "For brakes, steering, suspension, wheels and engine internals the maker's figure comes first, "
    "then local codes and licensed practice; this sheet only where there is none. Never reuse a "
    "bolt "
    "that was stretched, and never oil what the maker says to fit dry.";

TightenTyped typed_from(const fettle_value* const* values) {
    return {.thread = text(values[kThread]),
            .grade = text(values[kGrade]),
            .surface = text(values[kSurface]),
            .mu_thread = number(values[kMuThread]),
            .mu_head = number(values[kMuHead]),
            .basis = text(values[kBasis]),
            .use = number(values[kUse]),
            .scatter = number(values[kScatter]),
            .bearing_od = number(values[kBearingOd]),
            .hole = number(values[kHole]),
            .adapter = number(values[kAdapter]),
            .adapter_angle = number(values[kAdapterAngle]),
            .wrench = number(values[kWrench])};
}

std::int32_t compute_tighten(const fettle_value* const* values, std::uint32_t count,
                             const fettle_sink* sink) {
    return guarded(count, kInputList.size(), sink, [&] {
        const auto outcome = fettle::torque::work_tighten(typed_from(values));
        if (const auto* refusal = std::get_if<Refusal>(&outcome)) return refuse(sink, *refusal);
        const auto& answer = std::get<TightenAnswer>(outcome);
        const auto give = [sink](const char* id, double si) {
            sink->number(sink->context, id, si);
        };
        give("stress_area", answer.stress_area);
        give("proof_load", answer.proof_load);
        give("preload", answer.preload);
        give("preload_min", answer.preload_min);
        give("preload_max", answer.preload_max);
        give("torque", answer.torque);
        give("wrench_setting", answer.wrench_setting);
        give_account(sink, answer.account);
        return std::int32_t{FETTLE_DONE};
    });
}

constexpr fettle_sheet kSheets[] = {
    {sizeof(fettle_sheet), 1, "torque.tighten", "Tightening torque",
     "What preload does this bolt stand, and what torque brings it there?", kCaution,
     kInputList.size(), kInputList.data(), kOutputList.size(), kOutputList.data(), 0, nullptr,
     kSources.size(), kSources.data(), compute_tighten}};
constexpr auto kSheetList = pointers(kSheets);

constexpr fettle_plugin kPlugin = {
    sizeof(fettle_plugin), FETTLE_ABI_VERSION, "torque", "Bolts and torque", "1.0.0",
    kSheetList.size(),     kSheetList.data()};

} // namespace

const fettle_plugin* fettle_plugin_describe(std::uint32_t abi_version) {
    return abi_version == FETTLE_ABI_VERSION ? &kPlugin : nullptr;
}
