#include "fit/free_sheet.h"

#include "fit/heat.h"

#include <algorithm>

namespace fettle::fit {
namespace {

constexpr double kLag = 0.3; // of the rise reaches a pin under a quick flame: a guess, typed over
constexpr double kSafeBelow = 30;   // K kept below a known tempering temperature
constexpr double kRustShare = 5e-4; // of the diameter, to break the bond of rust

struct Limit {
    double kelvin;
    std::string part;
    std::string why;
    bool none = false; // no heat at all
};

struct Job {
    double d, needed, room, share;
    Material outer, inner;
    Limit limit; // that comes first as the outer part is warmed
    const Coating* coating;
    const Nearby* nearby;
    bool seats;
    bool assumed; // the interference
};

Outcome<Limit> limit_of(const char* part, const Material& material, const std::string& temper,
                        const char* field, const FreeTyped& typed) {
    const Temper* of = row_named(kTempers, temper);
    if (of == nullptr) return unknown_word(field, temper);
    if (of->limit == 0) return Limit{*typed.room, part, of->why, true};
    if (of->limit > 0) {
        if (material.heat_limit < of->limit) return Limit{material.heat_limit, part, material.why};
        return Limit{of->limit, part, of->why};
    }
    if (of->name != kTempers[1].name) return Limit{material.heat_limit, part, material.why};
    if (!typed.tempered_at)
        return Refusal{"tempered_at", "tempered_at: with a known temper its temperature is "
                                      "needed; choose \"hardened, temper unknown\" otherwise."};
    return Limit{std::min(*typed.tempered_at - kSafeBelow, 600 + kFreezing), part,
                 "it is drawn beyond its temper and softens"};
}

// The part that sets the limit first, as the temperature of the outer part.
Outcome<Limit> settle_limit(const FreeTyped& typed, const Material& outer, const Material& inner,
                            double share) {
    const auto first = limit_of("outer part", outer, typed.outer_temper, "outer_temper", typed);
    if (const auto* no = std::get_if<Refusal>(&first)) return *no;
    const auto second = limit_of("inner part", inner, typed.inner_temper, "inner_temper", typed);
    if (const auto* no = std::get_if<Refusal>(&second)) return *no;
    const Limit& of_outer = std::get<Limit>(first);
    Limit of_inner = std::get<Limit>(second);
    if (of_outer.none) return of_outer;
    if (of_inner.none) return of_inner;
    if (share > 0)
        of_inner.kelvin = *typed.room + std::max(0.0, of_inner.kelvin - *typed.room) / share;
    if (share <= 0 || of_outer.kelvin <= of_inner.kelvin) return of_outer;
    return of_inner;
}

Outcome<Job> settle(const FreeTyped& typed) {
    if (!typed.diameter || !typed.room)
        return Refusal{"diameter",
                       "diameter: diameter and the temperature of the workshop are needed."};
    if (!one_of(kJobs, typed.job)) return unknown_word("job", typed.job);
    if (!one_of(kHeatings, typed.heating)) return unknown_word("heating", typed.heating);
    const auto outer = settled(typed.outer, "outer_material");
    if (const auto* no = std::get_if<Refusal>(&outer)) return *no;
    const auto inner = settled(typed.inner, "inner_material");
    if (const auto* no = std::get_if<Refusal>(&inner)) return *no;
    const Coating* coating = row_named(kCoatings, typed.coating);
    if (coating == nullptr) return unknown_word("coating", typed.coating);
    const Nearby* nearby = row_named(kNearby, typed.nearby);
    if (nearby == nullptr) return unknown_word("nearby", typed.nearby);
    const double share = typed.heating == kHeatings[1] ? 1 : typed.lag.value_or(kLag);
    const auto limit =
        settle_limit(typed, std::get<Material>(outer), std::get<Material>(inner), share);
    if (const auto* no = std::get_if<Refusal>(&limit)) return *no;
    const double d = *typed.diameter;
    const double needed = typed.interference.value_or(kRustShare * d);
    if (needed > 0.02 * d) {
        return Refusal{"interference", line("interference: ", length_words(needed),
                                            " is more than 2 % of the diameter; accepted is up "
                                            "to ",
                                            length_words(0.02 * d), ".")};
    }
    return Job{d,
               needed,
               *typed.room,
               share,
               std::get<Material>(outer),
               std::get<Material>(inner),
               std::get<Limit>(limit),
               coating,
               nearby,
               typed.job == kSeat,
               !typed.interference.has_value()};
}

void tell_sum(const Job& job, const FreeAnswer& answer, Account& account) {
    auto& working = account.working;
    working.push_back(line("to open: ", small_words(job.needed), " on the diameter",
                           job.assumed ? ", half a thousandth of it, taken for a rusted fit" : ""));
    working.push_back(line(
        "each degree opens d (a outer - share x a inner) = ", mm(job.d), " x (",
        expansion_words(job.outer.expansion), " - ", figure(job.share, 2), " x ",
        expansion_words(job.inner.expansion), ") = ",
        signed_plain(
            opening(1, job.share, job.d, job.outer.expansion, job.inner.expansion) / kMicron, 3),
        " µm"));
    if (answer.rise) {
        working.push_back(line("temperature = ", heat_words(job.room), " + ",
                               rise_words(*answer.rise), " = ", heat_words(*answer.temperature),
                               ": on bright steel ", answer.colour));
    } else {
        working.push_back("no temperature opens it: the inner part grows as fast or faster");
    }
    working.push_back(line("limit: ", job.limit.part, ", ",
                           job.limit.none ? "no heat at all" : heat_words(job.limit.kelvin),
                           "; there the fit has opened by ", small_words(answer.opening_at_limit)));
}

void judge_heat(const Job& job, FreeAnswer& answer) {
    Account& account = answer.account;
    if (job.limit.none) {
        tell(account, FETTLE_STOP,
             line("No heat on the ", job.limit.part, ": ", job.limit.why,
                  ". Press, pull, soak or cut it out."));
        answer.verdict = "no heat";
        return;
    }
    if (!answer.temperature) {
        tell(account, FETTLE_STOP,
             "Heat makes this fit tighter: the inner part grows as fast as the outer or faster. "
             "Cool the inner part, or heat the outer alone and quickly.");
        answer.verdict = "heat does not help";
        return;
    }
    if (*answer.temperature > job.limit.kelvin) {
        tell(account, FETTLE_STOP,
             line("It would take ", heat_words(*answer.temperature), ", and the ", job.limit.part,
                  " permits no more than ", heat_words(job.limit.kelvin), " here: ", job.limit.why,
                  ". Warm it to that at most and pull or press with it, cool the inner part, or "
                  "cut it out."));
        answer.verdict = "not by heat alone";
        return;
    }
    answer.verdict = *answer.temperature > job.limit.kelvin - 50
                         ? "heat will do it, with little in "
                           "hand: measure it"
                         : "heat will do it";
}

void judge_surroundings(const Job& job, FreeAnswer& answer) {
    for (const auto& [forbids, caution] : {std::pair{job.coating->forbids, job.coating->caution},
                                           std::pair{job.nearby->forbids, job.nearby->caution}}) {
        if (*caution == '\0') continue;
        tell(answer.account, forbids ? FETTLE_STOP : FETTLE_CAUTION, caution);
        if (forbids) answer.verdict = "not before it is made safe";
    }
}

void tell_order(const Job& job, FreeAnswer& answer) {
    std::string order;
    const bool hot = answer.verdict.starts_with("heat will do it");
    if (job.seats) {
        order = hot ? "Clean and measure both; chill the inner part; heat the outer all "
                      "round, by thermometer; seat it in one move against a stop; hold till "
                      "it grips; let it cool in still air, never quench."
                    : "Clean and measure both; chill the inner part; press it square with a "
                      "guide against a stop.";
    } else {
        order =
            line("Take out lock, key, cotter or grub screw first; clean off rust and soak it a "
                 "day; ",
                 hot ? "heat the outer part all round to the temperature and no more; let it cool, "
                       "which breaks the rust, soak again, and once more if need be; then drive or "
                       "press it the way it came, with a soft drift and the part well supported; "
                       "cut or drill it out before something breaks."
                     : "no flame: press or pull it with a steady load and light blows, soak again; "
                       "cut or drill it out before something breaks.");
    }
    tell(answer.account, FETTLE_INFO, line("In this order (common practice, no source): ", order));
    tell(answer.account, FETTLE_INFO,
         "Soaking oil burns: wipe it off before the flame. Warm parts give no sign: chalk HOT on "
         "them.");
}

Picture opening_chart(const Job& job, const FreeAnswer& answer) {
    double top = std::max(job.room + 60, job.limit.kelvin);
    if (answer.temperature) top = std::max(top, std::min(*answer.temperature, 1500.0));
    top += 20;
    const auto opened = [&](double at) {
        return opening(at - job.room, job.share, job.d, job.outer.expansion, job.inner.expansion);
    };
    Picture picture{"opening", {}, {}};
    picture.traces.push_back({"the fit opens", FETTLE_LINE, {{job.room, 0}, {top, opened(top)}}});
    picture.traces.push_back(
        {"needed", FETTLE_DASHED, {{job.room, job.needed}, {top, job.needed}}});
    const double high = std::max(job.needed, opened(top));
    picture.traces.push_back(
        {job.limit.none ? "no heat" : line("limit of the ", job.limit.part),
         FETTLE_DASHED,
         {{job.limit.kelvin, std::min(0.0, opened(top))}, {job.limit.kelvin, high}}});
    return picture;
}

} // namespace

Outcome<FreeAnswer> work_free(const FreeTyped& typed) {
    const auto ready = settle(typed);
    if (const auto* no = std::get_if<Refusal>(&ready)) return *no;
    const Job& job = std::get<Job>(ready);
    FreeAnswer answer{};
    const double each = opening(1, job.share, job.d, job.outer.expansion, job.inner.expansion);
    // Below a hundredth of what the outer part alone would do, expansions are equal for all
    // anyone knows of them.
    if (each > 0.01 * job.d * job.outer.expansion) {
        answer.rise = job.needed / each;
        answer.temperature = job.room + *answer.rise;
        answer.colour = temper_colour(*answer.temperature);
    }
    if (answer.colour.empty()) answer.colour = "no heat to judge";
    answer.heat_limit = job.limit.kelvin;
    answer.opening_at_limit = each * (job.limit.kelvin - job.room);
    tell_sum(job, answer, answer.account);
    judge_heat(job, answer);
    judge_surroundings(job, answer);
    tell_order(job, answer);
    answer.picture = opening_chart(job, answer);
    return answer;
}

} // namespace fettle::fit
