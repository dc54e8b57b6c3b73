#include "torque/tighten_job.h"

#include "screw_threads/designation.h"
#include "screw_threads/words.h"

#include <cmath>

namespace fettle::torque {
namespace {

using plugin::line;
using plugin::Outcome;
using plugin::Refusal;

constexpr double kDefaultScatter = 0.25; // torque wrench: Machinery's Handbook
constexpr double kDefaultFactor = 1.8;   // torque wrench, friction estimated: VDI 2230, 1.6 to 2
constexpr double kProofShare = 0.75;     // reusable joint: Shigley, eq. 8-31
constexpr double kYieldShare = 0.9;      // VDI 2230

Refusal unknown(const char* field, const std::string& typed, const std::string& accepted) {
    return {field,
            line(field, ": ", in_quotes(typed), " is not known; accepted are ", accepted, ".")};
}

Outcome<Grade> settle_grade(const TightenTyped& typed, const Thread& thread) {
    if (typed.grade != kTypedStrength) return grade_for(typed.grade, thread);
    if (!typed.proof_stress || !typed.tensile_strength) {
        const char* field = typed.proof_stress ? "tensile_strength" : "proof_stress";
        return Refusal{field, line(field, ": with a typed strength both the proof stress and the "
                                          "tensile strength are needed.")};
    }
    const double yield = typed.yield_stress.value_or(*typed.proof_stress);
    if (yield < *typed.proof_stress) {
        return Refusal{"yield_stress",
                       line("yield_stress: ", mpa(yield), " lies below the proof stress of ",
                            mpa(*typed.proof_stress), "; accepted is that and more.")};
    }
    if (*typed.tensile_strength < yield) {
        return Refusal{"tensile_strength", line("tensile_strength: ", mpa(*typed.tensile_strength),
                                                " lies below the yield of ", mpa(yield),
                                                "; accepted is that and more.")};
    }
    return typed_grade(*typed.proof_stress, *typed.tensile_strength, yield);
}

// The tightening factor of VDI 2230 belongs to the preload at the least friction.
Outcome<Rubbing> settle_rubbing(const TightenTyped& typed, bool at_least) {
    if (typed.mu_thread && typed.mu_head) {
        const Friction friction{*typed.mu_thread, *typed.mu_head};
        return Rubbing{friction, friction, friction, std::nullopt};
    }
    const auto surface = surface_named(typed.surface);
    if (!surface) {
        return Refusal{"surface", line("surface: ", in_quotes(typed.surface),
                                       " says no friction; choose one of ", names_of(kSurfaces),
                                       ", or type both mu_thread and mu_head.")};
    }
    const auto with = [&](double mu) {
        return Friction{typed.mu_thread.value_or(mu), typed.mu_head.value_or(mu)};
    };
    return Rubbing{with(at_least ? surface->least : surface->middle()), with(surface->least),
                   with(surface->greatest), surface};
}

Outcome<UsualHead> settle_head(const TightenTyped& typed, const Thread& thread,
                               const Grade& grade) {
    Head kind = usual_head_kind(grade);
    if (typed.head == kHeadNames[0]) kind = Head::hexagon;
    if (typed.head == kHeadNames[1]) kind = Head::socket;
    UsualHead found = usual_head(thread, kind);
    found.seat.bearing_od = typed.bearing_od.value_or(found.seat.bearing_od);
    found.seat.hole = typed.hole.value_or(found.seat.hole);
    if (typed.bearing_od && typed.hole) found.source = "as typed";
    found.across = std::max(found.across, found.seat.bearing_od);
    if (found.seat.hole < pitch_diameter(thread)) {
        return Refusal{"hole", line("hole: ", mm(found.seat.hole), " does not let ", thread.name,
                                    " through; accepted are ", mm(thread.diameter), " and more.")};
    }
    if (found.seat.bearing_od < found.seat.hole + 1e-5) {
        return Refusal{"bearing_od", line("bearing_od: ", mm(found.seat.bearing_od),
                                          " falls through the hole of ", mm(found.seat.hole),
                                          "; type a greater bearing diameter.")};
    }
    return found;
}

Outcome<ScatterBy> settle_scatter(const TightenTyped& typed) {
    if (typed.scatter_by.empty() || typed.scatter_by == kByShare) return ScatterBy::share;
    if (typed.scatter_by == kByFactor) return ScatterBy::factor;
    if (typed.scatter_by != kByReadings) {
        return unknown("scatter_by", typed.scatter_by,
                       line(kByShare, ", ", kByFactor, " and ", kByReadings));
    }
    if (typed.readings.size() < 3) {
        return Refusal{"readings",
                       line("readings: ", std::to_string(typed.readings.size()),
                            " given; at least three preloads of bolts tightened alike are needed "
                            "to tell their scatter.")};
    }
    return ScatterBy::readings;
}

Outcome<Joint> settle_joint(const TightenTyped& typed, const Grade& grade) {
    const auto into = part_material(typed.into.empty() ? kPartMaterials[0].name : typed.into);
    if (!into) return unknown("into", typed.into, names_of(kPartMaterials));
    const auto bears_on = part_material(typed.bears_on.empty() ? kBearsOn[0] : typed.bears_on);
    if (!bears_on) return unknown("bears_on", typed.bears_on, "steel, cast iron and aluminium");
    Joint joint{*into,      0,  typed.into_strength.has_value(), *bears_on, typed.engagement_have,
                typed.grip, {}, typed.shank.value_or(0),         {},        {}};
    joint.into_tensile =
        typed.into_strength.value_or(into->tensile > 0 ? into->tensile : grade.tensile);
    if (typed.load.empty() || typed.load == kNoLoad) return joint;
    if (typed.load != kPull) return unknown("load", typed.load, line(kNoLoad, " and ", kPull));
    if (!typed.external_load)
        return Refusal{"external_load", "external_load: how hard one bolt is pulled is needed."};
    const bool both = typed.bolt_stiffness && typed.joint_stiffness;
    if (!both && !typed.grip) {
        return Refusal{"grip", "grip: with a pull along the bolt the clamped thickness is needed, "
                               "or both bolt_stiffness and joint_stiffness."};
    }
    if (typed.grip && joint.shank > *typed.grip) {
        return Refusal{"shank", line("shank: ", mm(joint.shank),
                                     " of plain shank is more than the "
                                     "clamped thickness of ",
                                     mm(*typed.grip), ".")};
    }
    joint.outer_load = typed.external_load;
    joint.bolt_stiffness = typed.bolt_stiffness;
    joint.parts_stiffness = typed.joint_stiffness;
    return joint;
}

} // namespace

Outcome<Job> settle(const TightenTyped& typed) {
    const auto thread = read_thread(typed.thread);
    if (const auto* no = std::get_if<Refusal>(&thread)) return *no;
    const auto grade = settle_grade(typed, std::get<Thread>(thread));
    if (const auto* no = std::get_if<Refusal>(&grade)) return *no;
    const auto scatter = settle_scatter(typed);
    if (const auto* no = std::get_if<Refusal>(&scatter)) return *no;
    const bool factor = std::get<ScatterBy>(scatter) == ScatterBy::factor;
    const auto friction = settle_rubbing(typed, factor);
    if (const auto* no = std::get_if<Refusal>(&friction)) return *no;
    const auto head = settle_head(typed, std::get<Thread>(thread), std::get<Grade>(grade));
    if (const auto* no = std::get_if<Refusal>(&head)) return *no;
    if (!typed.basis.empty() && typed.basis != kByProof && typed.basis != kByYield)
        return unknown("basis", typed.basis, "proof and yield");
    const auto joint = settle_joint(typed, std::get<Grade>(grade));
    if (const auto* no = std::get_if<Refusal>(&joint)) return *no;
    const bool by_yield = typed.basis == kByYield;
    return Job{std::get<Thread>(thread),
               std::get<Grade>(grade),
               std::get<Rubbing>(friction),
               std::get<UsualHead>(head),
               std::get<UsualHead>(head).source,
               by_yield,
               typed.use.value_or(by_yield ? kYieldShare : kProofShare),
               std::get<ScatterBy>(scatter),
               typed.scatter.value_or(kDefaultScatter),
               typed.tightening_factor.value_or(kDefaultFactor),
               typed.readings,
               typed.prevailing.value_or(0),
               std::get<Joint>(joint),
               typed.place};
}

} // namespace fettle::torque
