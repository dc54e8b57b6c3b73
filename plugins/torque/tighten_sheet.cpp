#include "torque/tighten_sheet.h"

#include "screw_threads/words.h"
#include "torque/tighten_job.h"

#include <algorithm>
#include <cmath>

namespace fettle::torque {
namespace {

using plugin::Account;
using plugin::figure;
using plugin::line;
using plugin::Outcome;
using plugin::Refusal;

void tell_area(const Job& job, const TightenAnswer& answer, Account& account) {
    const Thread& thread = job.thread;
    account.working.push_back(line(thread.name, ": ", form_name(thread.form), ", diameter ",
                                   mm(thread.diameter), ", pitch ", mm(thread.pitch),
                                   ", pitch diameter d2 ", mm(pitch_diameter(thread))));
    if (!thread.standard) {
        account.notes.push_back(
            {FETTLE_INFO, line(thread.name, " is in no standard series held "
                                            "here; measure diameter and pitch again.")});
    }
    if (thread.form == Form::unified) {
        account.working.push_back(line("stress_area = 0.7854 (D - 0.9743/n)² = 0.7854 (",
                                       figure(thread.diameter / kInch), " - 0.9743/",
                                       plain_number(kInch / thread.pitch),
                                       ")² in² = ", both_areas(answer.stress_area)));
        return;
    }
    const std::string inside = figure(stress_depth(thread.form), 4);
    account.working.push_back(line("stress_area = (pi/4)(d - ", inside, " P)² = (pi/4)(",
                                   mm(thread.diameter), " - ", inside, " x ", mm(thread.pitch),
                                   ")² = ", both_areas(answer.stress_area)));
    if (thread.form != Form::metric) {
        account.notes.push_back(
            {FETTLE_INFO, "No standard states a stress area for this thread form; it is taken from "
                          "the mean of pitch and minor diameter, the rule of ISO 898-1."});
    }
}

void tell_preload(const Job& job, const TightenAnswer& answer, Account& account) {
    const Grade& grade = job.grade;
    account.working.push_back(
        line(grade_words(grade), ": proof stress ", both_stresses(grade.proof), ", yield ",
             both_stresses(grade.yield), ", tensile ", both_stresses(grade.tensile)));
    account.working.push_back(line("proof_load = proof stress x area = ", mpa(grade.proof), " x ",
                                   mm2(answer.stress_area), " = ", both_forces(answer.proof_load)));
    if (job.by_yield) {
        account.working.push_back(
            line("preload = ", figure(job.use, 3), " x ", mpa(grade.yield), " x ",
                 mm2(answer.stress_area),
                 " / sqrt(1 + 3 [1.5 (d2/d0)(P/(pi d2) + mu_thread/cos a)]²), d0 of the area, a "
                 "the flank angle, mu_thread ",
                 figure(job.rubbing.taken.thread, 2), " = ", both_forces(answer.preload),
                 " (VDI 2230, tension and torsion together)"));
    } else {
        account.working.push_back(line("preload = ", figure(job.use, 3),
                                       " x proof_load = ", figure(job.use, 3), " x ",
                                       kn(answer.proof_load), " = ", both_forces(answer.preload)));
    }
    if (std::string_view(grade.standard) == "BS 970") {
        account.notes.push_back(
            {FETTLE_INFO, "British letter grades have a published tensile strength and yield (BS "
                          "970, from memory) but no proof stress; 0.85 of the yield is taken for "
                          "it, Shigley p. 442."});
    } else if (!speaks_of(grade, job.thread.form)) {
        account.notes.push_back(
            {FETTLE_CAUTION, line(grade.standard, " does not speak of ", form_name(job.thread.form),
                                  " threads; its strengths hold only if this bolt is truly of that "
                                  "steel.")});
    }
}

void tell_friction(const Job& job, Account& account) {
    const Rubbing& rub = job.rubbing;
    if (!rub.surface) {
        account.working.push_back(line("friction as typed: thread ", figure(rub.taken.thread, 2),
                                       ", head ", figure(rub.taken.head, 2)));
        return;
    }
    const bool least = job.scatter_by == ScatterBy::factor;
    account.working.push_back(
        line("surface ", rub.surface->name, ": friction ", figure(rub.surface->least, 2), " to ",
             figure(rub.surface->greatest, 2), ", ", rub.surface->source, "; ",
             least ? "the least is taken, as the tightening factor asks" : "the middle is taken",
             ": thread ", figure(rub.taken.thread, 2), ", head ", figure(rub.taken.head, 2)));
    const std::string_view name = rub.surface->name;
    if (name == "wet thread-locker") {
        account.notes.push_back({FETTLE_INFO,
                                 "Thread-locker lubricates while it is wet and holds once cured: "
                                 "tighten before it sets, never again afterwards. Its maker's own "
                                 "figure goes before this range."});
    } else if (name == "stainless, dry") {
        account.notes.push_back({FETTLE_CAUTION,
                                 "Stainless threads gall and seize dry; use an anti-seize and "
                                 "reckon with its friction."});
    }
}

void tell_torque(const Job& job, const TightenAnswer& answer, Account& account) {
    const Thread& thread = job.thread;
    const Seat& seat = job.head.seat;
    const Friction& mu = job.rubbing.taken;
    account.working.push_back(line("bearing diameter ", both_lengths(seat.bearing_od), ", hole ",
                                   both_lengths(seat.hole), ": ", job.seat_source));
    const double flank = flank_angle(thread.form);
    account.working.push_back(
        line("torque = F (P/(2 pi) + d2 mu_thread/(2 cos a) + mu_head Dkm/2)",
             job.prevailing > 0 ? " + prevailing" : "", ", a = ", degrees(flank), " = ",
             kn(answer.preload), " x (", mm(thread.pitch / (2 * kPi)), " + ",
             mm(pitch_diameter(thread) / (2 * std::cos(flank))), " x ", figure(mu.thread, 2), " + ",
             figure(mu.head, 2), " x ", mm((seat.bearing_od + seat.hole) / 4), ")",
             job.prevailing > 0 ? line(" + ", nm(job.prevailing)) : "", " = ",
             both_torques(answer.torque)));
    const double free = answer.torque - job.prevailing;
    account.working.push_back(line(
        "the same as T = K D F with K = ", figure(free / (thread.diameter * answer.preload), 2),
        "; by the power screw with its lead angle kept (Shigley 8-26) ",
        nm(power_screw_torque(thread, answer.preload, mu, (seat.bearing_od + seat.hole) / 2) +
           job.prevailing),
        "; with the K = 0.2 of rough tables ",
        nm(torque_by_nut_factor(0.2, thread.diameter, answer.preload) + job.prevailing)));
    if (answer.torque_max > answer.torque_min) {
        account.working.push_back(line(
            "torque for this preload over the friction range: ", both_torques(answer.torque_min),
            " to ", both_torques(answer.torque_max)));
    }
    if (job.prevailing > 0) {
        account.notes.push_back(
            {FETTLE_CAUTION,
             "A prevailing-torque nut is measured as it runs down, before it seats, and used once: "
             "fit a new one of the bolt's own grade each time, and a new split pin or tab washer "
             "likewise."});
    }
}

// ---- Scatter

PreloadRange wider_of_friction(const Job& job, const TightenAnswer& answer, PreloadRange range) {
    if (!job.rubbing.surface) return range;
    const Seat& seat = job.head.seat;
    const double most =
        preload_for(job.thread, answer.torque, job.rubbing.slick, seat, job.prevailing);
    const double least =
        preload_for(job.thread, answer.torque, job.rubbing.sticky, seat, job.prevailing);
    return {std::min(range.least, least), std::max(range.greatest, most)};
}

PreloadRange range_by_share(const Job& job, const TightenAnswer& answer, Account& account) {
    const PreloadRange wrench = by_share(answer.preload, job.scatter);
    const PreloadRange wider = wider_of_friction(job, answer, wrench);
    account.working.push_back(line("scatter ", percent(job.scatter),
                                   " either way: ", kn(wrench.least), " to ", kn(wrench.greatest)));
    if (job.rubbing.surface) {
        account.working.push_back(
            line("with the friction range of the surface at this torque, the wider of both: ",
                 both_forces(wider.least), " to ", both_forces(wider.greatest)));
    }
    return wider;
}

PreloadRange range_by_readings(const Job& job, const TightenAnswer& answer, Account& account) {
    const Spread spread = spread_of(job.readings);
    const double share = 2 * spread.deviation / spread.mean;
    const PreloadRange range = by_share(answer.preload, std::min(share, 1.0));
    account.working.push_back(
        line(std::to_string(job.readings.size()), " readings: mean ", both_forces(spread.mean),
             ", standard deviation ", both_forces(spread.deviation), "; two deviations are ",
             percent(share), " of the mean, so ", kn(range.least), " to ", kn(range.greatest)));
    if (share >= 1) {
        account.notes.push_back(
            {FETTLE_STOP, line("The readings contradict each other: two standard deviations are ",
                               percent(share),
                               " of their mean. Look for a bad thread or a slip of the pen and "
                               "measure again.")});
    }
    if (std::abs(spread.mean - answer.preload) > 0.25 * answer.preload) {
        account.notes.push_back(
            {FETTLE_CAUTION, line("The readings lie about ", both_forces(spread.mean),
                                  ", the preload wanted is ", both_forces(answer.preload),
                                  ": they were taken at another torque, or the friction is not "
                                  "what is taken here.")});
    }
    return range;
}

void spread(const Job& job, TightenAnswer& answer) {
    Account& account = answer.account;
    PreloadRange range{};
    if (job.scatter_by == ScatterBy::share) {
        range = range_by_share(job, answer, account);
    } else if (job.scatter_by == ScatterBy::readings) {
        range = range_by_readings(job, answer, account);
    } else {
        range = by_tightening_factor(answer.preload, job.factor);
        account.working.push_back(line("VDI 2230: the preload is the greatest; least = greatest / "
                                       "alpha_A = ",
                                       kn(range.greatest), " / ", figure(job.factor, 3), " = ",
                                       both_forces(range.least)));
    }
    answer.preload_min = range.least;
    answer.preload_max = range.greatest;
}

// ---- Is it safe?

void judge(const Job& job, TightenAnswer& answer) {
    auto& notes = answer.account.notes;
    if (job.use > 1) {
        notes.push_back(
            {FETTLE_STOP, line("A share of ", figure(job.use, 3), " asks for more than ",
                               job.by_yield ? "yield" : "the proof load",
                               "; the bolt would be stretched for good.")});
    }
    const double together =
        combined_stress(job.thread, answer.preload, job.rubbing.taken.thread, job.prevailing);
    const double most =
        combined_stress(job.thread, answer.preload_max, job.rubbing.slick.thread, job.prevailing);
    answer.account.working.push_back(
        line("tension and torsion while tightening: ", both_stresses(together), ", ",
             percent(together / job.grade.yield), " of yield; at the upper end of the scatter ",
             both_stresses(most)));
    if (together > job.grade.yield) {
        notes.push_back({FETTLE_STOP,
                         "While it is tightened, tension and torsion together pass the "
                         "yield of the bolt. Take a smaller share or less friction."});
    } else if (answer.preload_max > job.grade.tensile * answer.stress_area) {
        notes.push_back({FETTLE_STOP, "At the upper end of the scatter the bolt breaks. Narrow the "
                                      "scatter or take a smaller share."});
    } else if (most > job.grade.yield) {
        notes.push_back({FETTLE_CAUTION,
                         "At the upper end of the scatter, with the torsion of "
                         "tightening, the bolt yields. Narrow the scatter or take a "
                         "smaller share."});
    } else if (answer.preload_max > answer.proof_load) {
        notes.push_back({FETTLE_CAUTION, "At the upper end of the scatter the preload passes the "
                                         "proof load."});
    }
    notes.push_back({FETTLE_INFO,
                     "The torque is only as good as the friction. Clean threads, a "
                     "sound mating thread and one smooth pull are taken for granted."});
}

std::optional<Refusal> set_wrench(const TightenTyped& typed, TightenAnswer& answer) {
    auto& working = answer.account.working;
    answer.wrench_setting = answer.torque;
    const double adapter = typed.adapter.value_or(0);
    if (adapter == 0) {
        working.push_back("wrench_setting = torque, no adapter");
        return std::nullopt;
    }
    if (!typed.wrench) {
        return Refusal{"wrench", "wrench: with an adapter its length is needed, from the drive to "
                                 "the middle of the hand."};
    }
    const double angle = typed.adapter_angle.value_or(0);
    const double reach = *typed.wrench + adapter * std::cos(angle);
    if (*typed.wrench <= 0 || reach < *typed.wrench / 4) {
        return Refusal{"adapter", line("adapter: ", mm(adapter), " turned back along a wrench of ",
                                       mm(*typed.wrench), " leaves too little lever.")};
    }
    answer.wrench_setting = wrench_setting(answer.torque, *typed.wrench, adapter, angle);
    working.push_back(line("wrench_setting = T L / (L + E cos a) = ", nm(answer.torque), " x ",
                           mm(*typed.wrench), " / (", mm(*typed.wrench), " + ", mm(adapter),
                           " x cos ", degrees(angle), ") = ", both_torques(answer.wrench_setting)));
    return std::nullopt;
}

} // namespace

Outcome<TightenAnswer> work_tighten(const TightenTyped& typed) {
    const auto settled = settle(typed);
    if (const auto* no = std::get_if<Refusal>(&settled)) return *no;
    const Job& job = std::get<Job>(settled);
    TightenAnswer answer{};
    const Rubbing& rub = job.rubbing;
    answer.stress_area = stress_area(job.thread);
    answer.proof_load = job.grade.proof * answer.stress_area;
    answer.preload = job.by_yield
                         ? preload_at_yield(job.thread, job.grade.yield, job.use, rub.taken.thread)
                         : job.use * answer.proof_load;
    answer.proof_share = answer.preload / answer.proof_load;
    const auto torque_at = [&](Friction friction) {
        return torque_for(job.thread, answer.preload, friction, job.head.seat, job.prevailing);
    };
    answer.torque = torque_at(rub.taken);
    answer.torque_min = torque_at(rub.slick);
    answer.torque_max = torque_at(rub.sticky);
    tell_area(job, answer, answer.account);
    tell_preload(job, answer, answer.account);
    tell_friction(job, answer.account);
    tell_torque(job, answer, answer.account);
    spread(job, answer);
    if (auto refusal = set_wrench(typed, answer)) return *refusal;
    judge(job, answer);
    work_joint(job, answer);
    answer.pictures = {bolt_drawing(job, answer), preload_chart(job, answer)};
    return answer;
}

} // namespace fettle::torque
