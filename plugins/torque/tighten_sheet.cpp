#include "torque/tighten_sheet.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fettle::torque {
namespace {

using plugin::Account;
using plugin::figure;
using plugin::line;
using plugin::Outcome;
using plugin::Refusal;

constexpr double kDefaultScatter = 0.25; // torque wrench: Machinery's Handbook
constexpr double kProofShare = 0.75;     // reusable joint: Shigley, eq. 8-31
constexpr double kYieldShare = 0.9;      // VDI 2230
constexpr double kInch = 0.0254;
constexpr double kPoundForce = 4.4482216152605;

std::string mm(double metres) {
    return line(figure(metres * 1e3), " mm");
}
std::string mm2(double area) {
    return line(figure(area * 1e6, 3), " mm²");
}
std::string kn(double force) {
    return line(figure(force / 1e3, 3), " kN");
}
std::string mpa(double pascals) {
    return line(figure(pascals / 1e6, 4), " MPa");
}
std::string nm(double torque) {
    return line(figure(torque, 3), " N·m");
}
std::string lbfft(double torque) {
    return line(figure(torque / (kPoundForce * 12 * kInch), 3), " lbf·ft");
}
std::string percent(double share) {
    return line(figure(share * 100, 3), " %");
}

struct Rubbing {
    Friction friction;
    std::optional<Surface> surface; // when the friction, or half of it, came from there
};

Outcome<Rubbing> rubbing(const TightenTyped& typed) {
    if (typed.mu_thread && typed.mu_head) {
        return Rubbing{{*typed.mu_thread, *typed.mu_head}, std::nullopt};
    }
    const auto surface = surface_named(typed.surface);
    if (!surface) {
        std::string names;
        for (const Surface& known : kSurfaces)
            names += line(names.empty() ? "" : ", ", known.name);
        return Refusal{"surface", line("surface: \"", typed.surface.substr(0, 32),
                                       "\" says no friction; choose one of ", names,
                                       ", or type both mu_thread and mu_head.")};
    }
    const double middle = (surface->least + surface->greatest) / 2;
    return Rubbing{{typed.mu_thread.value_or(middle), typed.mu_head.value_or(middle)}, surface};
}

Outcome<UsualSeat> seat(const TightenTyped& typed, const Thread& thread, const Grade& grade) {
    UsualSeat found = usual_seat(thread, grade);
    if (typed.bearing_od && typed.hole) found.source = "as typed";
    found.seat.bearing_od = typed.bearing_od.value_or(found.seat.bearing_od);
    found.seat.hole = typed.hole.value_or(found.seat.hole);
    if (found.seat.hole < pitch_diameter(thread)) {
        return Refusal{"hole", line("hole: ", mm(found.seat.hole), " does not let ", thread.name,
                                    " through; accepted are ", mm(thread.diameter), " and more.")};
    }
    if (found.seat.bearing_od <= found.seat.hole) {
        return Refusal{"bearing_od", line("bearing_od: ", mm(found.seat.bearing_od),
                                          " falls through the hole of ", mm(found.seat.hole),
                                          "; type a greater bearing diameter.")};
    }
    return found;
}

struct Job { // everything settled before the sum is done
    Thread thread;
    Grade grade;
    Rubbing rubbing;
    UsualSeat seat;
    bool by_yield;
    double use;
    double scatter;
};

Outcome<Job> settle(const TightenTyped& typed) {
    const auto thread = read_thread(typed.thread);
    if (const auto* no = std::get_if<Refusal>(&thread)) return *no;
    const auto grade = grade_for(typed.grade, std::get<Thread>(thread));
    if (const auto* no = std::get_if<Refusal>(&grade)) return *no;
    const auto friction = rubbing(typed);
    if (const auto* no = std::get_if<Refusal>(&friction)) return *no;
    const auto bearing = seat(typed, std::get<Thread>(thread), std::get<Grade>(grade));
    if (const auto* no = std::get_if<Refusal>(&bearing)) return *no;
    if (!typed.basis.empty() && typed.basis != "proof" && typed.basis != "yield") {
        return Refusal{"basis", line("basis: \"", typed.basis.substr(0, 32),
                                     "\" is not known; accepted are proof and yield.")};
    }
    const bool by_yield = typed.basis == "yield";
    return Job{std::get<Thread>(thread),
               std::get<Grade>(grade),
               std::get<Rubbing>(friction),
               std::get<UsualSeat>(bearing),
               by_yield,
               typed.use.value_or(by_yield ? kYieldShare : kProofShare),
               typed.scatter.value_or(kDefaultScatter)};
}

void tell_area(const Job& job, const TightenAnswer& answer, Account& account) {
    const Thread& thread = job.thread;
    account.working.push_back(line(thread.name, ": ", form_name(thread.form), ", diameter ",
                                   mm(thread.diameter), ", pitch ", mm(thread.pitch),
                                   ", pitch diameter d2 ", mm(pitch_diameter(thread))));
    if (thread.form == Form::unified) {
        account.working.push_back(line("stress_area = 0.7854 (D - 0.9743/n)² = 0.7854 (",
                                       figure(thread.diameter / kInch), " - 0.9743/",
                                       figure(kInch / thread.pitch, 3),
                                       ")² in² = ", figure(answer.stress_area / (kInch * kInch), 3),
                                       " in² = ", mm2(answer.stress_area)));
        return;
    }
    const char* inside = thread.form == Form::metric      ? "0.9382"
                         : thread.form == Form::whitworth ? "0.9605"
                                                          : "0.9";
    account.working.push_back(line("stress_area = (pi/4)(d - ", inside, " P)² = (pi/4)(",
                                   mm(thread.diameter), " - ", inside, " x ", mm(thread.pitch),
                                   ")² = ", mm2(answer.stress_area)));
    if (thread.form != Form::metric) {
        account.notes.push_back(
            {FETTLE_INFO, "No standard states a stress area for this thread form; it is taken from "
                          "the mean of pitch and minor diameter, the rule of ISO 898-1."});
    }
}

void tell_preload(const Job& job, const TightenAnswer& answer, Account& account) {
    const Grade& grade = job.grade;
    account.working.push_back(line(grade.name, " of ", grade.standard, ": proof stress ",
                                   mpa(grade.proof), ", yield ", mpa(grade.yield), ", tensile ",
                                   mpa(grade.tensile)));
    account.working.push_back(line("proof_load = proof stress x area = ", mpa(grade.proof), " x ",
                                   mm2(answer.stress_area), " = ", kn(answer.proof_load)));
    if (job.by_yield) {
        account.working.push_back(
            line("preload = ", figure(job.use, 3), " x ", mpa(grade.yield),
                 " x area / sqrt(1 + 3 "
                 "[1.5 (d2/d0)(P/(pi d2) + mu_thread/cos a)]²), d0 of the area, a the flank angle "
                 "= ",
                 kn(answer.preload), " (VDI 2230, tension and torsion together)"));
    } else {
        account.working.push_back(line("preload = ", figure(job.use, 3),
                                       " x proof_load = ", figure(job.use, 3), " x ",
                                       kn(answer.proof_load), " = ", kn(answer.preload)));
    }
    if (grade.form != job.thread.form) {
        account.notes.push_back(
            {FETTLE_CAUTION, line(grade.standard, " does not speak of ", form_name(job.thread.form),
                                  " threads; its strengths hold only "
                                  "if this bolt is truly of that steel.")});
    }
}

void tell_torque(const Job& job, const TightenAnswer& answer, Account& account) {
    const Rubbing& rub = job.rubbing;
    if (rub.surface) {
        account.working.push_back(
            line("surface ", rub.surface->name, ": friction ", figure(rub.surface->least, 2),
                 " to ", figure(rub.surface->greatest, 2), ", class ", rub.surface->friction_class,
                 " of VDI 2230 table A5 (from memory); the middle is taken where nothing "
                 "was typed"));
    }
    account.working.push_back(line("bearing diameter ", mm(job.seat.seat.bearing_od), ", hole ",
                                   mm(job.seat.seat.hole), ": ", job.seat.source));
    const double half_mean = (job.seat.seat.bearing_od + job.seat.seat.hole) / 4;
    account.working.push_back(
        line("torque = F (P/(2 pi) + d2 mu_thread/(2 cos a) + mu_head Dkm/2), a = ",
             figure(flank_angle(job.thread.form) * 180 / std::numbers::pi, 4),
             "° = ", kn(answer.preload), " x (", mm(job.thread.pitch / (2 * std::numbers::pi)),
             " + ", mm(pitch_diameter(job.thread) / (2 * std::cos(flank_angle(job.thread.form)))),
             " x ", figure(rub.friction.thread, 2), " + ", figure(rub.friction.head, 2), " x ",
             mm(half_mean), ") = ", nm(answer.torque), " = ", lbfft(answer.torque)));
    const double factor = answer.torque / (job.thread.diameter * answer.preload);
    account.working.push_back(
        line("the same as T = K D F with K = ", figure(factor, 2),
             " (books give about 0.2 dry, 0.15 oiled); at K = 0.2 it would be ",
             nm(torque_by_nut_factor(0.2, job.thread.diameter, answer.preload))));
}

// At the torque found, what the preload may be: the wider of the wrench's scatter and the friction
// range of the surface.
void spread(const Job& job, TightenAnswer& answer) {
    Account& account = answer.account;
    answer.preload_min = answer.preload * (1 - job.scatter);
    answer.preload_max = answer.preload * (1 + job.scatter);
    account.working.push_back(line("scatter ", percent(job.scatter), " either way: ",
                                   kn(answer.preload_min), " to ", kn(answer.preload_max)));
    if (!job.rubbing.surface) return;
    const auto at = [&](double mu, double typed, double middle) {
        return std::abs(typed - middle) < 1e-12 ? mu : typed;
    };
    const Surface& surface = *job.rubbing.surface;
    const double middle = (surface.least + surface.greatest) / 2;
    const Friction& taken = job.rubbing.friction;
    const Friction slick{at(surface.least, taken.thread, middle),
                         at(surface.least, taken.head, middle)};
    const Friction sticky{at(surface.greatest, taken.thread, middle),
                          at(surface.greatest, taken.head, middle)};
    const double most = preload_for(job.thread, answer.torque, slick, job.seat.seat);
    const double least = preload_for(job.thread, answer.torque, sticky, job.seat.seat);
    account.working.push_back(line("friction range of the surface at this torque: ", kn(least),
                                   " to ", kn(most), "; the wider of both is given"));
    answer.preload_min = std::min(answer.preload_min, least);
    answer.preload_max = std::max(answer.preload_max, most);
}

void judge(const Job& job, TightenAnswer& answer) {
    auto& notes = answer.account.notes;
    const char* measure = job.by_yield ? "yield" : "the proof load";
    if (job.use > 1) {
        notes.push_back(
            {FETTLE_STOP, line("A share of ", figure(job.use, 3), " asks for more than ", measure,
                               "; the bolt would be stretched for good.")});
    }
    const double together =
        combined_stress(job.thread, answer.preload, job.rubbing.friction.thread);
    answer.account.working.push_back(line("tension and torsion while tightening: ", mpa(together),
                                          ", ", percent(together / job.grade.yield), " of yield"));
    if (together > job.grade.yield) {
        notes.push_back({FETTLE_STOP,
                         "While it is tightened, tension and torsion together pass the "
                         "yield of the bolt. Take a smaller share or less friction."});
    } else if (answer.preload_max > job.grade.yield * answer.stress_area) {
        notes.push_back({FETTLE_CAUTION, "At the upper end of the scatter the bolt yields. Narrow "
                                         "the scatter or take a smaller share."});
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
                           " x cos ", figure(angle * 180 / std::numbers::pi, 3), "°) = ",
                           nm(answer.wrench_setting), " = ", lbfft(answer.wrench_setting)));
    return std::nullopt;
}

} // namespace

Outcome<TightenAnswer> work_tighten(const TightenTyped& typed) {
    const auto settled = settle(typed);
    if (const auto* no = std::get_if<Refusal>(&settled)) return *no;
    const Job& job = std::get<Job>(settled);
    TightenAnswer answer{};
    const double mu = job.rubbing.friction.thread;
    answer.stress_area = stress_area(job.thread);
    answer.proof_load = job.grade.proof * answer.stress_area;
    answer.preload = job.by_yield ? preload_at_yield(job.thread, job.grade.yield, job.use, mu)
                                  : job.use * answer.proof_load;
    answer.torque = torque_for(job.thread, answer.preload, job.rubbing.friction, job.seat.seat);
    tell_area(job, answer, answer.account);
    tell_preload(job, answer, answer.account);
    tell_torque(job, answer, answer.account);
    spread(job, answer);
    if (auto refusal = set_wrench(typed, answer)) return *refusal;
    judge(job, answer);
    return answer;
}

} // namespace fettle::torque
