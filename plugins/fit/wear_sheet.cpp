#include "fit/wear_sheet.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace fettle::fit {
namespace {

constexpr double kSteelExpansion = 12e-6; // 1/K
constexpr double kUsuallyApart = 2;       // K: parts that lay together (common practice)

std::optional<Refusal> unfit_limits(const WearTyped& typed, bool bore) {
    if (typed.new_lower && typed.new_upper && *typed.new_lower > *typed.new_upper) {
        return Refusal{"new_lower", line("new_lower: ", length_words(*typed.new_lower),
                                         " is above the greatest new size, ",
                                         length_words(*typed.new_upper), ".")};
    }
    if (!typed.wear_limit) return std::nullopt;
    const auto& near = bore ? typed.new_upper : typed.new_lower;
    if (near && (bore ? *typed.wear_limit < *near : *typed.wear_limit > *near)) {
        return Refusal{"wear_limit", line("wear_limit: ", length_words(*typed.wear_limit),
                                          bore ? " is below the greatest new size of a bore, "
                                               : " is above the least new size of a shaft, ",
                                          length_words(*near), "; wear goes the other way.")};
    }
    return std::nullopt;
}

std::optional<Refusal> unfit_readings(const WearTyped& typed) {
    if (typed.readings.empty())
        return Refusal{"readings", "readings: at least one row with a station and a reading is "
                                   "needed."};
    const double about = typed.new_lower.value_or(
        typed.new_upper.value_or(typed.wear_limit.value_or(typed.readings[0].size)));
    const auto check = [about](const char* field, double size) -> std::optional<Refusal> {
        if (size > 0.5 * about && size < 2 * about) return std::nullopt;
        return Refusal{field,
                       line(field, ": ", length_words(size), " is far from ", length_words(about),
                            "; accepted is within half and twice that: "
                            "a slip of the pen or of the unit?")};
    };
    for (const Reading& reading : typed.readings) {
        if (auto no = check("readings", reading.size)) return no;
    }
    for (const double size : typed.mating) {
        if (auto no = check("mating", size)) return no;
    }
    return std::nullopt;
}

struct Ready {
    bool bore;
    const Instrument* instrument;
};

Outcome<Ready> settle(const WearTyped& typed) {
    if (!one_of(kFeatures, typed.feature)) return unknown_word("feature", typed.feature);
    if (!one_of(kRepairs, typed.repair)) return unknown_word("repair", typed.repair);
    const Instrument* instrument = row_named(kInstruments, typed.instrument);
    if (instrument == nullptr) return unknown_word("instrument", typed.instrument);
    if (instrument->error <= 0 && !typed.typed_uncertainty)
        return Refusal{"uncertainty", "uncertainty: with the instrument \"as typed\" its "
                                      "uncertainty is needed."};
    const bool bore = typed.feature == kBore;
    if (auto no = unfit_readings(typed)) return *no;
    if (auto no = unfit_limits(typed, bore)) return *no;
    return Ready{bore, instrument};
}

void work_uncertainty(const WearTyped& typed, const Ready& ready, WearAnswer& answer) {
    const double apart = answer.found.mean * kSteelExpansion * typed.apart.value_or(kUsuallyApart);
    const double repeat = answer.found.repeat.value_or(0);
    const bool typed_over = ready.instrument->error <= 0;
    const UncertaintyParts parts{ready.instrument->error, ready.instrument->step, apart, repeat};
    answer.uncertainty =
        typed_over ? std::hypot(*typed.typed_uncertainty, 2 * repeat) : expanded(parts);
    answer.account.working.push_back(
        typed_over
            ? line("uncertainty (k = 2) as typed",
                   repeat > 0
                       ? line(", with the scatter of repeated readings ", small_words(repeat))
                       : std::string(),
                   ": ", small_words(answer.uncertainty))
            : line("uncertainty = 2 sqrt(error²/3 + step²/12 + growth²/3 + s²) = 2 sqrt(",
                   figure(parts.error / kMicron, 3), "²/3 + ", figure(parts.step / kMicron, 3),
                   "²/12 + ", figure(apart / kMicron, 2), "²/3 + ", figure(repeat / kMicron, 2),
                   "²) µm = ", small_words(answer.uncertainty), ", ", ready.instrument->name));
    answer.account.working.push_back(
        line("differences of two readings, the mating part's included: sqrt 2 times that, ",
             small_words(answer.uncertainty * std::sqrt(2.0))));
}

void work_sizes(const WearTyped& typed, const Ready& ready, WearAnswer& answer) {
    const Measured& found = answer.found;
    auto& working = answer.account.working;
    working.push_back(line(std::to_string(typed.readings.size()), " readings at ",
                           std::to_string(found.places.size()), " places: mean ",
                           size_words(found.mean), ", least ", size_words(found.least),
                           ", greatest ", size_words(found.greatest)));
    if (found.ovality) {
        working.push_back(line("ovality = greatest - least direction at one station = ",
                               small_words(*found.ovality)));
    }
    if (found.taper) {
        working.push_back(
            line("taper = greatest - least mean of a station = ", small_words(*found.taper)));
    }
    if (!found.ovality || !found.taper) {
        tell(answer.account, FETTLE_INFO,
             "Ovality wants two directions at one station, taper two stations: what was not "
             "measured is not judged.");
    }
    if (typed.new_lower && typed.new_upper) {
        const double fresh = (*typed.new_lower + *typed.new_upper) / 2;
        answer.wear = ready.bore ? found.greatest - fresh : fresh - found.least;
        working.push_back(line("wear = ",
                               ready.bore ? "greatest - middle of the new limits = "
                                          : "middle of the new limits - least = ",
                               size_words(ready.bore ? found.greatest : fresh), " - ",
                               size_words(ready.bore ? fresh : found.least), " = ",
                               small_words(*answer.wear)));
    }
    if (typed.mating.empty()) return;
    const auto [low, high] = std::minmax_element(typed.mating.begin(), typed.mating.end());
    answer.clearance_min = ready.bore ? found.least - *high : *low - found.greatest;
    answer.clearance_max = ready.bore ? found.greatest - *low : *high - found.least;
    working.push_back(line("clearance = bore - shaft: from ", small_words(*answer.clearance_min),
                           " (tightest places) to ", small_words(*answer.clearance_max),
                           " (slackest), mating part ", size_words(*low), " to ",
                           size_words(*high)));
}

// One limit the part is held against.
struct Criterion {
    const char* what;
    double margin;
    double uncertainty;
    bool of_pair;   // clearance: the mating part may be to blame
    bool too_tight; // interference where none may be
};

std::vector<Criterion> criteria(const WearTyped& typed, const Ready& ready, WearAnswer& answer) {
    std::vector<Criterion> all;
    const double u = answer.uncertainty;
    const double of_difference = u * std::sqrt(2.0);
    const auto limit =
        typed.wear_limit ? typed.wear_limit : (ready.bore ? typed.new_upper : typed.new_lower);
    if (limit) {
        answer.remaining =
            ready.bore ? *limit - answer.found.greatest : answer.found.least - *limit;
        all.push_back({typed.wear_limit ? "size against the wear limit"
                                        : "size against the new limit, no wear limit being typed",
                       *answer.remaining, u, false, false});
    }
    if (typed.ovality_limit && answer.found.ovality)
        all.push_back(
            {"ovality", *typed.ovality_limit - *answer.found.ovality, of_difference, false, false});
    if (typed.taper_limit && answer.found.taper)
        all.push_back(
            {"taper", *typed.taper_limit - *answer.found.taper, of_difference, false, false});
    if (typed.clearance_most && answer.clearance_max)
        all.push_back({"greatest clearance", *typed.clearance_most - *answer.clearance_max,
                       of_difference, true, false});
    if (typed.clearance_least && answer.clearance_min)
        all.push_back({"least clearance", *answer.clearance_min - *typed.clearance_least,
                       of_difference, true, true});
    return all;
}

std::string account_of(const Criterion& of) {
    const Standing stands = standing(of.margin, of.uncertainty);
    return line(of.what, " ",
                stands == Standing::inside    ? "within by "
                : stands == Standing::outside ? "beyond by "
                                              : "too near to call, margin ",
                small_words(stands == Standing::outside ? -of.margin : of.margin), ", measured to ",
                small_words(of.uncertainty));
}

// Why a part may be used again: the limit with the least in hand.
std::string kept(const std::vector<Criterion>& all) {
    const auto nearest = std::ranges::min_element(all, {}, &Criterion::margin);
    if (nearest == all.end()) return "";
    return line("all limits are kept beyond the uncertainty; least in hand: ",
                account_of(*nearest));
}

// What becomes of a part that is proven worn.
void settle_worn(const WearTyped& typed, const Ready& ready, WearAnswer& answer) {
    const double worst = ready.bore ? answer.found.greatest : answer.found.least;
    if (typed.repair == kRebuild) {
        answer.verdict = kRepair;
        answer.because += ". It can be built up, sleeved or bushed";
        return;
    }
    if (typed.repair == kRework && typed.repair_size) {
        const double stock = ready.bore ? *typed.repair_size - worst : worst - *typed.repair_size;
        const bool cleans = stock >= answer.uncertainty;
        answer.verdict = cleans ? kRepair : kReplace;
        answer.because +=
            line(". At the repair size of ", size_words(*typed.repair_size), " ",
                 cleans ? "it cleans up with " : "it does not clean up: ", small_words(stock),
                 " on the diameter at the worst place");
        return;
    }
    answer.verdict = kReplace;
    answer.because +=
        typed.repair == kRework ? ". No repair size is typed" : ". No repair is foreseen";
}

void judge(const WearTyped& typed, const Ready& ready, WearAnswer& answer) {
    const auto all = criteria(typed, ready, answer);
    bool worn = false;
    bool slack = false;
    bool doubtful = false;
    std::string beyond;
    std::string near;
    for (const Criterion& of : all) {
        const std::string told = account_of(of);
        answer.account.working.push_back(line(told, " (ISO 14253-1)"));
        const Standing stands = standing(of.margin, of.uncertainty);
        if (stands != Standing::inside) {
            std::string& list = stands == Standing::outside ? beyond : near;
            list += line(list.empty() ? "" : "; ", told);
        }
        doubtful = doubtful || stands == Standing::doubtful;
        if (stands != Standing::outside) continue;
        (of.of_pair ? slack : worn) = true;
        if (of.too_tight) {
            tell(answer.account, FETTLE_STOP,
                 line("Too tight: ", told,
                      ". Do not force these parts together; the fit must keep "
                      "its least clearance."));
        }
    }
    answer.because = !beyond.empty() ? beyond : !near.empty() ? near : kept(all);
    if (all.empty()) {
        answer.verdict = kNoLimits;
        answer.because = "Nothing to hold the readings against: type new limits, a wear limit or "
                         "the clearance permitted";
    } else if (worn) {
        settle_worn(typed, ready, answer);
    } else if (slack) {
        answer.verdict = kRepair;
        answer.because += ". This part is within its own limits: renew or rework the mating part "
                          "to it";
    } else {
        answer.verdict = doubtful ? kAgain : kReuse;
        if (doubtful)
            answer.because += ". Measure again with a finer instrument, or take it as worn";
    }
    answer.because += ".";
    if (worn) {
        tell(answer.account, FETTLE_STOP, line("Do not refit it as it is: ", beyond, "."));
    } else if (slack || doubtful) {
        tell(answer.account, FETTLE_CAUTION, answer.because);
    }
    if (typed.mating.empty() && (typed.clearance_least || typed.clearance_most)) {
        tell(answer.account, FETTLE_CAUTION,
             "The clearance is not judged: measure the mating part too.");
    }
}

Picture readings_chart(const WearTyped& typed, const WearAnswer& answer) {
    Picture picture{"readings", {}, {}};
    std::map<long, Trace> by_direction;
    double first = answer.found.places[0].station;
    double last = first;
    for (const Reading& place : answer.found.places) {
        first = std::min(first, place.station);
        last = std::max(last, place.station);
        const long key =
            place.direction ? std::lround(*place.direction * 180 / kPi * 10) : -1000000;
        Trace& trace = by_direction[key];
        trace.look = FETTLE_DOTS;
        trace.name = place.direction
                         ? line("at ", plugin::plain_number(*place.direction * 180 / kPi), "°")
                         : std::string("direction not noted");
        trace.points.push_back({place.station, place.size});
    }
    for (auto& [key, trace] : by_direction)
        picture.traces.push_back(trace);
    const auto across = [&](const char* name, const std::optional<double>& size) {
        if (size)
            picture.traces.push_back(
                {name, FETTLE_DASHED, {{first - 0.5, *size}, {last + 0.5, *size}}});
    };
    across("new, least", typed.new_lower);
    across("new, greatest", typed.new_upper);
    across("wear limit", typed.wear_limit);
    return picture;
}

} // namespace

Outcome<WearAnswer> work_wear(const WearTyped& typed) {
    const auto settled_inputs = settle(typed);
    if (const auto* no = std::get_if<Refusal>(&settled_inputs)) return *no;
    const Ready& ready = std::get<Ready>(settled_inputs);
    WearAnswer answer{};
    answer.found = measured(typed.readings);
    work_sizes(typed, ready, answer);
    work_uncertainty(typed, ready, answer);
    judge(typed, ready, answer);
    answer.picture = readings_chart(typed, answer);
    return answer;
}

} // namespace fettle::fit
