#include "fit/press_sheet.h"

#include "fit/press.h"

#include <algorithm>
#include <cmath>

namespace fettle::fit {
namespace {

constexpr double kFriction = 0.12; // steel pressed dry or lightly oiled: Shigley, table of friction

struct Job {
    double d, length, friction, lost, warmed;
    double least, greatest; // interference that remains
    Material hub_material, shaft_material;
    Ring hub, shaft;
};

std::optional<Refusal> unfit_sizes(const PressTyped& typed) {
    if (!typed.diameter || !typed.hub_od || !typed.length || !typed.interference_max)
        return Refusal{"diameter", "diameter: diameter, outside of the hub, length and greatest "
                                   "interference are needed."};
    const double d = *typed.diameter;
    if (*typed.hub_od < 1.02 * d) {
        return Refusal{"hub_od", line("hub_od: ", length_words(*typed.hub_od),
                                      " leaves no wall "
                                      "around ",
                                      length_words(d), "; accepted are ", length_words(1.02 * d),
                                      " and more.")};
    }
    if (typed.shaft_bore.value_or(0) > 0.98 * d) {
        return Refusal{"shaft_bore",
                       line("shaft_bore: ", length_words(*typed.shaft_bore),
                            " leaves no wall inside ", length_words(d), "; accepted are ",
                            length_words(0.98 * d), " and less, blank where it is solid.")};
    }
    if (*typed.interference_max > 0.02 * d) {
        return Refusal{"interference_max",
                       line("interference_max: ", length_words(*typed.interference_max),
                            " is more than 2 % of the diameter; accepted is up to ",
                            length_words(0.02 * d), ".")};
    }
    if (typed.interference_min && *typed.interference_min > *typed.interference_max) {
        return Refusal{"interference_min",
                       line("interference_min: ", length_words(*typed.interference_min),
                            " is more than the greatest, ", length_words(*typed.interference_max),
                            ".")};
    }
    return std::nullopt;
}

Outcome<Job> settle(const PressTyped& typed) {
    if (auto no = unfit_sizes(typed)) return *no;
    const auto hub = settled(typed.hub, "hub_material");
    if (const auto* no = std::get_if<Refusal>(&hub)) return *no;
    const auto shaft = settled(typed.shaft, "shaft_material");
    if (const auto* no = std::get_if<Refusal>(&shaft)) return *no;
    Job job{};
    job.d = *typed.diameter;
    job.length = *typed.length;
    job.friction = typed.friction.value_or(kFriction);
    job.hub_material = std::get<Material>(hub);
    job.shaft_material = std::get<Material>(shaft);
    job.hub = {*typed.hub_od, job.hub_material.modulus, job.hub_material.poisson};
    job.shaft = {typed.shaft_bore.value_or(0), job.shaft_material.modulus,
                 job.shaft_material.poisson};
    job.lost = smoothing(typed.hub_rz.value_or(0), typed.shaft_rz.value_or(0));
    job.warmed = job.d * typed.warmer.value_or(0) *
                 (job.shaft_material.expansion - job.hub_material.expansion);
    job.greatest = *typed.interference_max - job.lost + job.warmed;
    job.least = typed.interference_min.value_or(*typed.interference_max) - job.lost + job.warmed;
    return job;
}

double pressure_at(const Job& job, double interference) {
    return std::max(0.0, press_pressure(interference, job.d, job.hub, job.shaft));
}

void tell_interference(const PressTyped& typed, const Job& job, Account& account) {
    if (job.lost > 0) {
        account.working.push_back(line("lost as the surfaces smooth: 0.8 (Rz hub + Rz shaft) = ",
                                       small_words(job.lost), " (DIN 7190)"));
    }
    if (job.warmed != 0) {
        account.working.push_back(
            line("warmer by ", rise_words(typed.warmer.value_or(0)),
                 ": interference changes by d dT (a shaft - a hub) = ", mm(job.d), " x ",
                 figure(typed.warmer.value_or(0), 3), " x (",
                 expansion_words(job.shaft_material.expansion), " - ",
                 expansion_words(job.hub_material.expansion), ") = ", small_words(job.warmed)));
    }
    account.working.push_back(line("interference that counts, on the diameter: ",
                                   small_words(job.least), " to ", small_words(job.greatest)));
}

void tell_pressure(const Job& job, const PressAnswer& answer, Account& account) {
    const double c_hub = hub_compliance(job.hub, job.d);
    const double c_shaft = shaft_compliance(job.shaft, job.d);
    const std::string outer = figure(job.hub.other / kMilli, 5);
    const std::string at = figure(job.d / kMilli, 5);
    const std::string inner = figure(job.shaft.other / kMilli, 5);
    account.working.push_back(line("hub: ((D² + d²)/(D² - d²) + nu)/E = ((", outer, "² + ", at,
                                   "²)/(", outer, "² - ", at, "²) + ", figure(job.hub.poisson, 2),
                                   ") / ", figure(job.hub.modulus / 1e9, 3),
                                   " GPa = ", figure(c_hub * 1e9, 4), " /GPa, D and d in mm"));
    account.working.push_back(line("shaft: ((d² + di²)/(d² - di²) - nu)/E = ((", at, "² + ", inner,
                                   "²)/(", at, "² - ", inner, "²) - ", figure(job.shaft.poisson, 2),
                                   ") / ", figure(job.shaft.modulus / 1e9, 3),
                                   " GPa = ", figure(c_shaft * 1e9, 4), " /GPa"));
    account.working.push_back(line(
        "pressure = interference / (d (hub + shaft)) = ", mm(job.greatest), " / (", mm(job.d),
        " x ", figure((c_hub + c_shaft) * 1e9, 4), " /GPa) = ", stress_words(answer.pressure_max),
        "; at the least interference ", stress_words(answer.pressure_min)));
    account.working.push_back(line("push_force = mu p pi d l = ", figure(job.friction, 3), " x ",
                                   stress_words(answer.pressure_max), " x pi x ", mm(job.d), " x ",
                                   mm(job.length), " = ", force_words(answer.push_force)));
    account.working.push_back(line("slip_torque = mu p pi d l x d/2 at the least interference = ",
                                   force_words(answer.slip_force), " x ", mm(job.d / 2), " = ",
                                   torque_words(answer.slip_torque)));
}

// Stress that is set against the strength: of a brittle part the tension, else von Mises.
double hub_measure(const Job& job, double pressure) {
    return job.hub_material.brittle ? hub_hoop(pressure, job.d, job.hub)
                                    : hub_equivalent(pressure, job.d, job.hub);
}

void work_stress(const Job& job, PressAnswer& answer) {
    const double p = answer.pressure_max;
    answer.hub_stress = hub_hoop(p, job.d, job.hub);
    answer.hub_share = hub_measure(job, p) / job.hub_material.strength;
    answer.shaft_stress = shaft_hoop(p, job.d, job.shaft);
    answer.shaft_share = shaft_equivalent(p, job.d, job.shaft) / job.shaft_material.strength;
    const double unit = press_pressure(1, job.d, job.hub, job.shaft); // Pa for each m
    const double worst =
        std::max(hub_measure(job, unit) / job.hub_material.strength,
                 shaft_equivalent(unit, job.d, job.shaft) / job.shaft_material.strength);
    answer.interference_allowed = 1 / worst + job.lost - job.warmed;
    answer.hub_growth = outside_growth(p, job.d, job.hub);
    auto& working = answer.account.working;
    working.push_back(
        line("hub_stress = p (D² + d²)/(D² - d²) = ", stress_words(answer.hub_stress), " tension; ",
             job.hub_material.brittle ? "against the tensile strength" : "von Mises with -p ",
             job.hub_material.brittle ? " " : "against the yield of ",
             stress_words(job.hub_material.strength), ": ", percent(answer.hub_share)));
    working.push_back(
        line("shaft_stress = ", job.shaft.other > 0 ? "-2 p d²/(d² - di²) = " : "-p = ",
             stress_words(answer.shaft_stress), " against ",
             stress_words(job.shaft_material.strength), ": ", percent(answer.shaft_share)));
    if (job.shaft.other > 0) {
        answer.close_in = close_in(p, job.d, job.shaft);
        answer.bore_after = job.shaft.other - *answer.close_in;
        working.push_back(
            line("close_in = di x 2 p d²/((d² - di²) E) = ", small_words(*answer.close_in),
                 ": the bore of ", size_words(job.shaft.other), " then measures ",
                 size_words(*answer.bore_after)));
    }
}

void judge(const Job& job, PressAnswer& answer) {
    Account& account = answer.account;
    const auto weigh = [&](const char* part, double share, const Material& material) {
        if (share > 1) {
            tell(account, FETTLE_STOP,
                 line("The ", part, " of ", material.name, " is stressed to ", percent(share),
                      material.brittle ? " of its tensile strength: it may burst."
                                       : " of its yield: it stretches for good and loses its grip.",
                      " Up to ", small_words(answer.interference_allowed),
                      " of interference is within it."));
        } else if (share > 0.8) {
            tell(account, FETTLE_CAUTION,
                 line("The ", part, " is stressed to ", percent(share),
                      " of its strength; keyways, oil holes and thin places raise it further."));
        }
    };
    weigh("hub", answer.hub_share, job.hub_material);
    weigh(job.shaft.other > 0 ? "bush or hollow shaft" : "shaft", answer.shaft_share,
          job.shaft_material);
    if (job.greatest <= 0) {
        tell(account, FETTLE_STOP, "Nothing is left of the interference: the parts do not grip.");
    } else if (job.least <= 0) {
        tell(account, FETTLE_CAUTION,
             "At the least interference nothing is left: such a pair does not grip. Measure both "
             "parts, or lock the joint by other means.");
    }
    if (job.hub_material.brittle) {
        tell(account, FETTLE_CAUTION,
             "Cast iron breaks without warning: keep to FN 2 or H7/p6, press slowly, stand aside.");
    }
    if (answer.close_in) {
        tell(account, FETTLE_INFO,
             "A bush closes in when it is pressed home: press it, then ream or hone it to the pin "
             "(common practice, no source).");
    }
    tell(account, FETTLE_INFO,
         "Friction while pressing is anything from 0.05 oiled to 0.2 dry; a press should be good "
         "for twice the force. Pressing out may take half as much again (common practice).");
}

Picture pressure_chart(const PressTyped& typed, const Job& job, const PressAnswer& answer) {
    Picture picture{"pressure", {}, {}};
    const double off = job.lost - job.warmed;
    const double most =
        1.2 * std::max({*typed.interference_max, answer.interference_allowed, off, 1e-6});
    const double start = std::clamp(off, 0.0, most);
    picture.traces.push_back({"pressure",
                              FETTLE_LINE,
                              {{0, pressure_at(job, 0 - off)},
                               {start, pressure_at(job, start - off)},
                               {most, pressure_at(job, most - off)}}});
    const double limit = pressure_at(job, answer.interference_allowed - off);
    picture.traces.push_back(
        {"a part reaches its strength", FETTLE_DASHED, {{0, limit}, {most, limit}}});
    picture.traces.push_back(
        {"this fit",
         FETTLE_DOTS,
         {{typed.interference_min.value_or(*typed.interference_max), answer.pressure_min},
          {*typed.interference_max, answer.pressure_max}}});
    return picture;
}

} // namespace

Outcome<PressAnswer> work_press(const PressTyped& typed) {
    const auto ready = settle(typed);
    if (const auto* no = std::get_if<Refusal>(&ready)) return *no;
    const Job& job = std::get<Job>(ready);
    PressAnswer answer{};
    answer.pressure_min = pressure_at(job, job.least);
    answer.pressure_max = pressure_at(job, job.greatest);
    answer.push_force = push_force(answer.pressure_max, job.d, job.length, job.friction);
    answer.slip_force = push_force(answer.pressure_min, job.d, job.length, job.friction);
    answer.slip_torque = slip_torque(answer.pressure_min, job.d, job.length, job.friction);
    tell_interference(typed, job, answer.account);
    tell_pressure(job, answer, answer.account);
    work_stress(job, answer);
    judge(job, answer);
    answer.picture = pressure_chart(typed, job, answer);
    return answer;
}

} // namespace fettle::fit
