// The part of torque.tighten about what the bolt screws into, bears on and holds together.
#include "screw_threads/words.h"
#include "torque/joint.h"
#include "torque/places.h"
#include "torque/tighten_job.h"

#include <algorithm>

namespace fettle::torque {
namespace {

using plugin::figure;
using plugin::line;

void work_engagement(const Job& job, TightenAnswer& answer) {
    auto& working = answer.account.working;
    auto& notes = answer.account.notes;
    const Joint& joint = job.joint;
    const ThreadLimits limits = limits_of(job.thread);
    const Engagement found =
        needed_engagement(job.thread, limits, job.grade.tensile, joint.into_tensile);
    answer.engagement = found.needed;
    working.push_back(line("into ", joint.into.name, ", tensile strength ",
                           both_stresses(joint.into_tensile), ": ",
                           joint.into_typed ? "as typed" : joint.into.source));
    working.push_back(line(limits.source, ": bolt's least major diameter ", mm(limits.bolt_major),
                           " and pitch diameter ", mm(limits.bolt_pitch),
                           ", nut's greatest minor diameter ", mm(limits.nut_minor),
                           " and pitch diameter ", mm(limits.nut_pitch)));
    working.push_back(line("shear area of each millimetre engaged: bolt ",
                           mm2(bolt_strip_area(job.thread, limits, 1e-3)), ", part ",
                           mm2(nut_strip_area(job.thread, limits, 1e-3)), " (FED-STD-H28/2)"));
    working.push_back(
        line("engagement: Le = 2 x ", mm2(answer.stress_area),
             " / bolt's shear area = ", mm(found.by_bolt, 3),
             "; J = shear area x strength of bolt over part = ", figure(found.ratio, 3),
             found.ratio > 1 ? ", so J Le = " : ", so Le = ", both_lengths(found.needed), ", ",
             figure(found.needed / job.thread.diameter, 2), " diameters"));
    if (!joint.have) {
        if (joint.into.tensile > 0 || joint.into_typed) {
            notes.push_back({FETTLE_INFO, line("Screw in at least ", both_lengths(found.needed),
                                               " of full thread; type what is there and it is "
                                               "compared.")});
        }
        return;
    }
    const double strip =
        strip_load(job.thread, limits, *joint.have, job.grade.tensile, joint.into_tensile);
    answer.strip_load = strip;
    const double breaks = job.grade.tensile * answer.stress_area;
    working.push_back(line("strip_load with ", both_lengths(*joint.have), " engaged: ",
                           both_forces(strip), "; the bolt breaks at ", both_forces(breaks)));
    if (*joint.have < found.needed) {
        notes.push_back(
            {FETTLE_STOP,
             line("Engagement too short: ", both_lengths(*joint.have), " is there, ",
                  both_lengths(found.needed), " is needed. The thread strips at ",
                  both_forces(strip), " before the bolt breaks; the greatest preload is ",
                  percent(answer.preload_max / strip),
                  " of that. A longer bolt, a nut or a thread insert is called for.")});
    }
}

void work_head(const Job& job, TightenAnswer& answer) {
    const PartMaterial& under = job.joint.bears_on;
    answer.head_pressure = head_pressure(answer.preload_max, job.head.seat);
    answer.account.working.push_back(
        line("head_pressure at the greatest preload = ", kn(answer.preload_max),
             " over the ring of ", mm(job.head.seat.bearing_od), " and ", mm(job.head.seat.hole),
             " = ", both_stresses(answer.head_pressure), "; ", under.name, " bears ",
             mpa(under.pressure), " (VDI 2230)"));
    if (answer.head_pressure > under.pressure) {
        answer.account.notes.push_back(
            {FETTLE_CAUTION, line("The head presses ", both_stresses(answer.head_pressure), " on ",
                                  under.name, " that bears ", both_stresses(under.pressure),
                                  ": it sinks in and the preload is lost. Put a hardened washer "
                                  "under it.")});
    }
}

// N/m: typed, or from the grip.
struct Stiffness {
    double bolt, parts;
};

Stiffness stiffness(const Job& job, plugin::Account& account) {
    const Joint& joint = job.joint;
    Stiffness found{joint.bolt_stiffness.value_or(0), joint.parts_stiffness.value_or(0)};
    const auto in_words = [](double k) { return line(figure(k / 1e6, 3), " MN/m"); };
    if (!joint.bolt_stiffness) {
        found.bolt = bolt_stiffness(job.thread, *joint.grip, joint.shank, kSteelModulus);
        account.working.push_back(line("bolt kb = Ad At E/(Ad lt + At ld), grip ", mm(*joint.grip),
                                       " with ", mm(joint.shank),
                                       " plain = ", in_words(found.bolt)));
    }
    if (!joint.parts_stiffness) {
        const double modulus = joint.bears_on.modulus;
        found.parts = parts_stiffness(job.thread.diameter, *joint.grip, modulus);
        account.working.push_back(
            line("parts km = 0.5774 pi E d/(2 ln(5 (0.5774 l + 0.5 d)/(0.5774 "
                 "l + 2.5 d))), E ",
                 figure(modulus / 1e9, 3), " GPa (", joint.bears_on.name,
                 ") = ", in_words(found.parts)));
    }
    return found;
}

void work_load(const Job& job, TightenAnswer& answer) {
    auto& account = answer.account;
    const double load = *job.joint.outer_load;
    const Stiffness k = stiffness(job, account);
    const double share = load_share(k.bolt, k.parts);
    const double stress = service_stress(share, load, answer.preload, answer.stress_area);
    const double most = service_stress(share, load, answer.preload_max, answer.stress_area);
    const double apart = separation_load(share, answer.preload_min);
    answer.load_share = share;
    answer.service_stress = stress;
    answer.separation_load = apart;
    account.working.push_back(line(
        "share of an outer load the bolt feels: C = kb/(kb + km) = ", figure(k.bolt / 1e6, 3), "/(",
        figure(k.bolt / 1e6, 3), " + ", figure(k.parts / 1e6, 3), ") = ", figure(share, 3)));
    account.working.push_back(line("service_stress = (C P + F)/A = (", figure(share, 3), " x ",
                                   kn(load), " + ", kn(answer.preload), ")/",
                                   mm2(answer.stress_area), " = ", both_stresses(stress),
                                   "; with the greatest preload ", both_stresses(most)));
    account.working.push_back(
        line("separation_load = least preload/(1 - C) = ", kn(answer.preload_min), "/(1 - ",
             figure(share, 3), ") = ", both_forces(apart)));
    if (load >= apart) {
        account.notes.push_back(
            {FETTLE_STOP, line("The joint opens: with the least preload the parts lose touch at ",
                               both_forces(apart), ", the load is ", both_forces(load),
                               ". The bolt then carries all of it, and fatigue soon breaks it.")});
    }
    if (stress > job.grade.yield) {
        account.notes.push_back(
            {FETTLE_STOP, line("Under the load the bolt stands at ", both_stresses(stress),
                               ", above its yield of ", both_stresses(job.grade.yield), ".")});
    } else if (most > job.grade.proof) {
        account.notes.push_back(
            {FETTLE_CAUTION,
             line("With the greatest preload and the load the bolt stands at ", both_stresses(most),
                  ", above its proof stress of ", both_stresses(job.grade.proof), ".")});
    }
}

} // namespace

void work_joint(const Job& job, TightenAnswer& answer) {
    work_engagement(job, answer);
    work_head(job, answer);
    if (job.joint.outer_load) work_load(job, answer);
    const std::string caution = place_caution(job.place);
    if (!caution.empty()) answer.account.notes.push_back({FETTLE_CAUTION, caution});
}

} // namespace fettle::torque
