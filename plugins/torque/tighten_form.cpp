// torque.tighten as the contract describes it, and a compute that moves values between host and
// sheet.
#include "torque/tighten_fields.h"

namespace fettle::torque {
namespace {

using namespace fettle::plugin;
using namespace fettle::torque::tighten;

constexpr fettle_output kOutputs[] = {
    number_output({"torque", "Torque", "torque", "N.m", "lbf.ft", 3,
                   "VDI 2230: T = F(P/2pi + d2 mu/(2 cos a) + mu Dkm/2)"}),
    number_output({"torque_min", "Torque at least friction", "torque", "N.m", "lbf.ft", 2,
                   "the same, friction range of the surface"}),
    number_output({"torque_max", "Torque at greatest friction", "torque", "N.m", "lbf.ft", 2,
                   "the same, friction range of the surface"}),
    number_output({"wrench_setting", "Set on the wrench", "torque", "N.m", "lbf.ft", 3,
                   "Y = T L/(L + E cos a), levers"}),
    number_output({"preload", "Preload", "force", "kN", "lbf", 3,
                   "share of proof load, or VDI 2230 for a share of yield"}),
    number_output({"preload_min", "Least preload", "force", "kN", "lbf", 2,
                   "scatter: Machinery's Handbook or VDI 2230; friction range: VDI 2230 table A5"}),
    number_output({"preload_max", "Greatest preload", "force", "kN", "lbf", 2,
                   "scatter: Machinery's Handbook or VDI 2230; friction range: VDI 2230 table A5"}),
    number_output(
        {"proof_share", "Preload over proof load", "ratio", "%", "", 3, "preload over proof load"}),
    number_output({"stress_area", "Stress area", "area", "mm2", "in2", 3,
                   "UN: ASME B1.1; metric: ISO 898-1; Whitworth, BA and cycle by the same rule"}),
    number_output({"proof_load", "Proof load", "force", "kN", "lbf", 3,
                   "SAE J429, ISO 898-1, ASTM A574 or BS 970, by grade"}),
    number_output({"engagement", "Engagement needed", "length", "mm", "in", 2,
                   "FED-STD-H28/2 and ASME B1.1, thread shear areas"}),
    number_output({"strip_load", "Thread strips at", "force", "kN", "lbf", 2,
                   "FED-STD-H28/2, half the tensile strength in shear (BS 3580)"}),
    number_output({"head_pressure", "Pressure under the head", "pressure", "MPa", "psi", 2,
                   "greatest preload over the bearing ring; limits of VDI 2230"}),
    number_output({"load_share", "Share of an outer load", "ratio", "%", "", 2,
                   "C = kb/(kb + km), Shigley section 8-7"}),
    number_output({"service_stress", "Stress under the load", "pressure", "MPa", "psi", 3,
                   "Shigley eq. 8-24"}),
    number_output({"separation_load", "Parts lose touch at", "force", "kN", "lbf", 2,
                   "Shigley eq. 8-30, with the least preload"})};
constexpr auto kOutputList = pointers(kOutputs);

constexpr fettle_axis kAlong = axis("", "length", "mm", "in");
constexpr fettle_axis kAcross = axis("", "length", "mm", "in");
constexpr fettle_axis kTorqueAxis = axis("Torque", "torque", "N.m", "lbf.ft");
constexpr fettle_axis kPreloadAxis = axis("Preload", "force", "kN", "lbf");
constexpr fettle_chart kCharts[] = {
    drawing("bolt", "Bolt and thread engaged", kAlong, kAcross),
    chart("preload", "Preload over torque", kTorqueAxis, kPreloadAxis)};
constexpr auto kChartList = pointers(kCharts);

constexpr std::array<const char*, 11> kSources = {
    "ASME B1.1, ISO 261, BS 84, BS 93, BS 811 (threads; BS 811 from memory)",
    "SAE J429; Shigley, Mechanical Engineering Design, 9th ed., table 8-9 (grades)",
    "ISO 898-1 (4.6 to 12.9, in part from memory)",
    "ASTM A574 (socket head cap screws)",
    "BS 970 (letter grades, from memory)",
    "VDI 2230 (preload, torque, friction classes, tightening factor, pressure under the head)",
    "Machinery's Handbook (scatter of preload)",
    "FED-STD-H28/2, ASME B1.1, ISO 965-1, BS 84 (engagement; limits from memory, checked)",
    "Shigley, sections 8-4 to 8-9 (joint stiffness, outer load), table 8-15 (nut factors)",
    "BS 1083, ISO 4014, ISO 4762, ASME B18.2.1, ASME B18.3 (heads)",
    "BS 3580 (shear strength of threads)"};

constexpr const char* kCaution =
    "For brakes, steering, suspension, wheels and engine internals the maker's figure comes first, "
    "then local codes and licensed practice; this sheet only where there is none. Never reuse a "
    "bolt that was stretched, a prevailing-torque nut or a split pin, and never oil what the maker "
    "says to fit dry.";

TightenTyped typed_from(const fettle_value* const* values) {
    return {.thread = text(values[kThread]),
            .grade = text(values[kGrade]),
            .proof_stress = number(values[kProofStress]),
            .tensile_strength = number(values[kTensileStrength]),
            .yield_stress = number(values[kYieldStress]),
            .surface = text(values[kSurface]),
            .mu_thread = number(values[kMuThread]),
            .mu_head = number(values[kMuHead]),
            .prevailing = number(values[kPrevailing]),
            .basis = text(values[kBasis]),
            .use = number(values[kUse]),
            .scatter_by = text(values[kScatterBy]),
            .scatter = number(values[kScatter]),
            .tightening_factor = number(values[kTighteningFactor]),
            .readings = numbers(values[kReadings]),
            .head = text(values[kHead]),
            .bearing_od = number(values[kBearingOd]),
            .hole = number(values[kHole]),
            .bears_on = text(values[kBearsOnWhat]),
            .into = text(values[kInto]),
            .into_strength = number(values[kIntoStrength]),
            .engagement_have = number(values[kEngagementHave]),
            .grip = number(values[kGrip]),
            .load = text(values[kLoad]),
            .external_load = number(values[kExternalLoad]),
            .shank = number(values[kShank]),
            .bolt_stiffness = number(values[kBoltStiffness]),
            .joint_stiffness = number(values[kJointStiffness]),
            .adapter = number(values[kAdapter]),
            .adapter_angle = number(values[kAdapterAngle]),
            .wrench = number(values[kWrench]),
            .place = text(values[kPlace])};
}

void give_answer(const fettle_sink* sink, const TightenAnswer& answer) {
    give_output(sink, "torque", answer.torque);
    give_output(sink, "torque_min", answer.torque_min);
    give_output(sink, "torque_max", answer.torque_max);
    give_output(sink, "wrench_setting", answer.wrench_setting);
    give_output(sink, "preload", answer.preload);
    give_output(sink, "preload_min", answer.preload_min);
    give_output(sink, "preload_max", answer.preload_max);
    give_output(sink, "proof_share", answer.proof_share);
    give_output(sink, "stress_area", answer.stress_area);
    give_output(sink, "proof_load", answer.proof_load);
    give_output(sink, "engagement", answer.engagement);
    give_output(sink, "strip_load", answer.strip_load);
    give_output(sink, "head_pressure", answer.head_pressure);
    give_output(sink, "load_share", answer.load_share);
    give_output(sink, "service_stress", answer.service_stress);
    give_output(sink, "separation_load", answer.separation_load);
    for (const Picture& picture : answer.pictures)
        give_picture(sink, picture);
}

std::int32_t compute(const fettle_value* const* values, std::uint32_t count,
                     const fettle_sink* sink) {
    return guarded(count, kInputList.size(), sink, [&] {
        return answered(sink, work_tighten(typed_from(values)),
                        [&](const TightenAnswer& answer) { give_answer(sink, answer); });
    });
}

} // namespace

constinit const fettle_sheet kTightenForm = sheet(
    {.revision = 2,
     .id = "torque.tighten",
     .title = "Tightening torque",
     .answers = "What preload does this bolt stand, what torque brings it there, and how much "
                "thread has to hold it?",
     .caution = kCaution,
     .smooth = true},
    kInputList, kOutputList, std::array<const fettle_table*, 0>{}, kSources, compute, kChartList);

} // namespace fettle::torque
