#include "fit/shrink_sheet.h"

#include "fit/heat.h"

#include <algorithm>

namespace fettle::fit {
namespace {

struct Job {
    double d, interference, clearance, room, shaft_at;
    Material hub, shaft;
    double limit;
    const Cooling* cooling;
};

Outcome<Job> settle(const ShrinkTyped& typed) {
    if (!typed.diameter || !typed.interference || !typed.room)
        return Refusal{"diameter", "diameter: diameter, interference and the temperature of the "
                                   "workshop are needed."};
    if (*typed.interference > 0.02 * *typed.diameter) {
        return Refusal{"interference", line("interference: ", length_words(*typed.interference),
                                            " is more than 2 % of the diameter; accepted is up to ",
                                            length_words(0.02 * *typed.diameter), ".")};
    }
    const auto hub = settled(typed.hub, "hub_material");
    if (const auto* no = std::get_if<Refusal>(&hub)) return *no;
    const auto shaft = settled(typed.shaft, "shaft_material");
    if (const auto* no = std::get_if<Refusal>(&shaft)) return *no;
    const Cooling* cooling = row_named(kCoolings, typed.cooling);
    if (cooling == nullptr) return unknown_word("cooling", typed.cooling);
    double at = *typed.room;
    if (cooling->temperature > 0) at = std::min(at, cooling->temperature);
    if (cooling->temperature < 0) {
        if (!typed.shaft_temperature)
            return Refusal{"shaft_temperature",
                           "shaft_temperature: how cold the inner part is, is needed."};
        at = *typed.shaft_temperature;
    }
    if (at > *typed.room) {
        return Refusal{"shaft_temperature", line("shaft_temperature: ", heat_words(at),
                                                 " is warmer than the workshop; "
                                                 "accepted is up to ",
                                                 heat_words(*typed.room), ".")};
    }
    const Material& of_hub = std::get<Material>(hub);
    return Job{*typed.diameter,
               *typed.interference,
               typed.clearance.value_or(*typed.diameter / 1000),
               *typed.room,
               at,
               of_hub,
               std::get<Material>(shaft),
               typed.heat_limit.value_or(of_hub.heat_limit),
               cooling};
}

void tell_sum(const Job& job, const ShrinkAnswer& answer, Account& account) {
    auto& working = account.working;
    working.push_back(
        line("opening = interference + clearance to slip in = ", small_words(job.interference),
             " + ", small_words(job.clearance), " = ", small_words(answer.opening)));
    working.push_back(
        line("the inner part at ", heat_words(job.shaft_at), " is smaller by d a dT = ", mm(job.d),
             " x ", expansion_words(job.shaft.expansion), " x ", figure(job.room - job.shaft_at, 3),
             " K = ", small_words(answer.shaft_shrinks)));
    working.push_back(line("hub_rise = (opening - that) / (d a) = ",
                           small_words(answer.opening - answer.shaft_shrinks), " / (", mm(job.d),
                           " x ", expansion_words(job.hub.expansion),
                           ") = ", rise_words(answer.hub_rise)));
    working.push_back(line("hub_temperature = ", heat_words(job.room),
                           " + that = ", heat_words(answer.hub_temperature), "; ", job.hub.name,
                           " bears ", heat_words(job.limit)));
}

void judge(const Job& job, ShrinkAnswer& answer) {
    Account& account = answer.account;
    const double hot = answer.hub_temperature;
    if (hot > job.limit) {
        tell(account, FETTLE_STOP,
             line("The hub would need ", heat_words(hot), ", more than the ", heat_words(job.limit),
                  " it bears: ", job.hub.why,
                  ". Cool the inner part further, or take less interference."));
    } else if (hot > job.limit - 30) {
        tell(account, FETTLE_CAUTION,
             "Within 30 K of what the hub bears, and parts lose heat on the way: cool the inner "
             "part too.");
    }
    if (job.shaft_at < kFreezing - 40) {
        tell(account, FETTLE_CAUTION,
             "Dry ice and liquid nitrogen burn the skin and drive the air out of a room or pit: "
             "gloves, goggles, open doors, never a closed vessel. Cold steel and cast iron are "
             "brittle; frost must be wiped off.");
    }
    tell(account, FETTLE_INFO,
         "Add 20 to 30 K for the way from oven to shaft, have stop and guide ready: it seizes "
         "within seconds when it touches (common practice, no source).");
    answer.method = answer.hub_rise <= 0     ? "no heat: the cold inner part slips in"
                    : hot <= kFreezing + 95  ? "hot water or oven"
                    : hot <= kFreezing + 130 ? "oven or hot plate, as for bearings"
                    : hot <= kFreezing + 300 ? "oven, by thermometer"
                                             : "heated all round by flame, by heat crayon";
    if (hot > job.limit) answer.method = "not by this heat";
}

// Sizes against the temperature of the hub: its bore, and the inner part that must go in.
Picture sizes_chart(const Job& job, const ShrinkAnswer& answer) {
    const double top = std::max({answer.hub_temperature, job.limit, job.room + 50}) + 20;
    const auto bore = [&](double t) {
        return -job.interference + job.d * job.hub.expansion * (t - job.room);
    };
    const double inner = -answer.shaft_shrinks;
    Picture picture{"sizes", {}, {}};
    picture.traces.push_back(
        {"bore of the hub", FETTLE_LINE, {{job.room, bore(job.room)}, {top, bore(top)}}});
    picture.traces.push_back(
        {"inner part as it goes in", FETTLE_LINE, {{job.room, inner}, {top, inner}}});
    picture.traces.push_back(
        {"slips in here", FETTLE_DOTS, {{answer.hub_temperature, bore(answer.hub_temperature)}}});
    picture.traces.push_back({"what the hub bears",
                              FETTLE_DASHED,
                              {{job.limit, bore(job.room)}, {job.limit, bore(top)}}});
    return picture;
}

} // namespace

Outcome<ShrinkAnswer> work_shrink(const ShrinkTyped& typed) {
    const auto ready = settle(typed);
    if (const auto* no = std::get_if<Refusal>(&ready)) return *no;
    const Job& job = std::get<Job>(ready);
    ShrinkAnswer answer{};
    answer.opening = job.interference + job.clearance;
    answer.shaft_temperature = job.shaft_at;
    answer.shaft_shrinks = job.d * job.shaft.expansion * (job.room - job.shaft_at);
    answer.hub_temperature =
        std::max(job.room, outer_temperature(answer.opening, job.d, job.hub.expansion,
                                             job.shaft.expansion, job.room, job.shaft_at));
    answer.hub_rise = answer.hub_temperature - job.room;
    answer.gap =
        job.d * job.hub.expansion * answer.hub_rise + answer.shaft_shrinks - job.interference;
    answer.heat_limit = job.limit;
    tell_sum(job, answer, answer.account);
    judge(job, answer);
    answer.picture = sizes_chart(job, answer);
    return answer;
}

} // namespace fettle::fit
