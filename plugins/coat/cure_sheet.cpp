#include "coat/cure_sheet.h"

#include <algorithm>
#include <cmath>

namespace fettle::coat {
namespace {

using plugin::line;
using plugin::Outcome;
using plugin::Refusal;

constexpr double kHair = 1e-9;
constexpr double kClosest = 3; // K between two points of a data sheet

bool two_points(const CureTyped& typed) {
    return typed.rule == kRules[1];
}

bool too_cold(const CureTyped& typed, double temperature) {
    return typed.least && temperature < *typed.least - kHair;
}

std::optional<Refusal> unfit_typed(const CureTyped& typed) {
    const bool two = two_points(typed);
    const std::optional<double> none;
    if (auto no = unfit({{"temperature", typed.temperature, kCureBounds, degrees, true},
                         {"known_time", typed.known_time, kTimeBounds, spell, true},
                         {"known_temperature", typed.known_temperature, kCureBounds, degrees, true},
                         {"halving", two ? none : typed.halving, kHalvingBounds, difference, false},
                         {"second_time", two ? typed.second_time : none, kTimeBounds, spell, two},
                         {"second_temperature", two ? typed.second_temperature : none, kCureBounds,
                          degrees, two},
                         {"least", typed.least, kCureBounds, degrees, false},
                         {"greatest", typed.greatest, kCureBounds, degrees, false},
                         {"warmed", typed.warmed, kCureBounds, degrees, false},
                         {"hours", typed.hours, kTimeBounds, spell, false},
                         {"recoat_least", typed.recoat_least, kTimeBounds, spell, false},
                         {"recoat_most", typed.recoat_most, kTimeBounds, spell, false},
                         {"since", typed.since, kSinceBounds, spell, false}}))
        return no;
    if (typed.least && typed.greatest && *typed.least > *typed.greatest)
        return Refusal{"greatest", line("greatest: ", degrees(*typed.greatest),
                                        " lies below the least temperature; accepted is ",
                                        degrees(*typed.least), " or more.")};
    if (typed.recoat_least && typed.recoat_most && *typed.recoat_least > *typed.recoat_most)
        return Refusal{"recoat_most", line("recoat_most: ", spell(*typed.recoat_most),
                                           " ends before it begins; accepted is ",
                                           spell(*typed.recoat_least), " or more.")};
    return std::nullopt;
}

// The rule chosen, or why the two points give none.
Outcome<CureRule> rule_typed(const CureTyped& typed, std::vector<std::string>& working) {
    CureRule rule{{*typed.known_temperature, *typed.known_time},
                  typed.halving.value_or(kUsualHalving)};
    if (!two_points(typed)) {
        working.push_back(line("the data sheet's ", spell(rule.known.time), " at ",
                               degrees(rule.known.temperature), ", half for each ",
                               difference(rule.halving), " warmer"));
        return rule;
    }
    const CurePoint second{*typed.second_temperature, *typed.second_time};
    if (std::fabs(second.temperature - rule.known.temperature) < kClosest)
        return Refusal{"second_temperature",
                       line("second_temperature: ", degrees(second.temperature),
                            " is too near the other of ", degrees(rule.known.temperature),
                            "; accepted are ", difference(kClosest), " and more between them.")};
    rule.energy = activation_energy(rule.known, second);
    if (!(rule.energy >= kEnergyBounds.least && rule.energy <= kEnergyBounds.greatest))
        return Refusal{"second_time",
                       line("second_time: ", spell(second.time), " at ",
                            degrees(second.temperature), " does not go with ",
                            spell(rule.known.time), " at ", degrees(rule.known.temperature), " (",
                            plugin::figure(rule.energy / 1000, 3),
                            " kJ/mol); accepted are times that shorten with warmth, 10 to 250 "
                            "kJ/mol.")};
    working.push_back(line("E = R ln(t2/t1)/(1/T2 - 1/T1) = 8.314 × ln(", spell(second.time), " / ",
                           spell(rule.known.time), ") / (1/", decimals(second.temperature, 2),
                           " K - 1/", decimals(rule.known.temperature, 2),
                           " K) = ", plugin::figure(rule.energy / 1000, 3), " kJ/mol"));
    return rule;
}

std::string carried(const CureRule& rule, double temperature, double time) {
    const double result = time_at(rule, temperature, time);
    if (rule.energy > 0)
        return line(spell(time), " × exp(E/R × (1/", decimals(temperature, 2), " K - 1/",
                    decimals(rule.known.temperature, 2), " K)) = ", spell(result));
    return line(spell(time), " × 2^((", decimals(rule.known.temperature - kIce, 1), " - ",
                decimals(temperature - kIce, 1), ") / ", decimals(rule.halving, 1),
                ") = ", spell(result));
}

void reckon_here(const CureTyped& typed, const CureRule& rule, CureAnswer& answer) {
    const double here = *typed.temperature;
    auto& working = answer.account.working;
    if (too_cold(typed, here)) {
        working.push_back(line(degrees(here), " is below the least of ", degrees(*typed.least),
                               ": no time can be given"));
        return;
    }
    answer.time_here = cure_time(rule, here);
    working.push_back(line("time at ", degrees(here), " = ", carried(rule, here, rule.known.time)));
    if (typed.recoat_least) {
        answer.recoat_from = time_at(rule, here, *typed.recoat_least);
        working.push_back(line("next coat from ", carried(rule, here, *typed.recoat_least)));
    }
    if (typed.recoat_most) {
        answer.recoat_until = time_at(rule, here, *typed.recoat_most);
        working.push_back(line("next coat until ", carried(rule, here, *typed.recoat_most)));
    }
    if (typed.since) answer.cured = std::min(1.0, *typed.since / *answer.time_here);
}

void reckon_warmed(const CureTyped& typed, const CureRule& rule, CureAnswer& answer) {
    auto& working = answer.account.working;
    if (typed.warmed && !too_cold(typed, *typed.warmed)) {
        answer.time_warmed = cure_time(rule, *typed.warmed);
        working.push_back(line("time at ", degrees(*typed.warmed), " = ",
                               carried(rule, *typed.warmed, rule.known.time)));
    }
    if (!typed.hours) return;
    auto needed = temperature_for_time(rule, *typed.hours);
    if (needed && typed.least) needed = std::max(*needed, *typed.least);
    if (!needed || *needed < kCureBounds.least || *needed > kCureBounds.greatest) {
        answer.account.notes.push_back(
            {FETTLE_INFO,
             line("No temperature between ", degrees(kCureBounds.least), " and ",
                  degrees(kCureBounds.greatest), " brings it to just ", spell(*typed.hours), ".")});
        return;
    }
    answer.temperature_needed = needed;
    working.push_back(line("through in ", spell(*typed.hours), " at ", degrees(*needed)));
    if (typed.greatest && *needed > *typed.greatest + kHair)
        answer.account.notes.push_back(
            {FETTLE_CAUTION, line("To be through in ", spell(*typed.hours), " it would need ",
                                  degrees(*needed), ", above the paint's greatest of ",
                                  degrees(*typed.greatest), ": plan for more time.")});
}

void judge_heat(const CureTyped& typed, std::vector<plugin::Note>& notes) {
    const auto too_hot = [&](const std::optional<double>& at) {
        return at && typed.greatest && *at > *typed.greatest + kHair;
    };
    if (too_hot(typed.temperature) || too_hot(typed.warmed))
        notes.push_back({FETTLE_STOP, line("Above ", degrees(*typed.greatest),
                                           " this paint blisters, yellows or embrittles: do not "
                                           "warm it so far.")});
    if (typed.warmed && too_cold(typed, *typed.warmed))
        notes.push_back({FETTLE_STOP, line("Warming to ", degrees(*typed.warmed),
                                           " is not enough: the paint cures from ",
                                           degrees(*typed.least), " only.")});
    if (typed.warmed && *typed.warmed > *typed.temperature)
        notes.push_back(
            {FETTLE_CAUTION,
             "Heat lamps and heaters set solvent vapour and masking paper on fire: let the film "
             "flash off first in moving air, keep lamps a metre away, never leave them alone, no "
             "flame. Measure the steel, not the air, and warm it evenly; keep heat off fuel tanks, "
             "tyres, bearings and springs."});
}

void judge_recoat(const CureTyped& typed, const CureAnswer& answer,
                  std::vector<plugin::Note>& notes) {
    if (!typed.since) return;
    const double since = *typed.since;
    if (answer.recoat_from && since < *answer.recoat_from * (1 - kHair))
        notes.push_back({FETTLE_CAUTION, line("Too early for the next coat: it may lift this one. "
                                              "Wait another ",
                                              spell(*answer.recoat_from - since), ".")});
    if (answer.recoat_until && since > *answer.recoat_until * (1 + kHair))
        notes.push_back({FETTLE_CAUTION, "The time for the next coat has passed: it will not bond "
                                         "by itself. Rub this one matt and clean it first, or as "
                                         "the data sheet says."});
    if (answer.time_here && since >= *answer.time_here)
        notes.push_back({FETTLE_REACHED, line("Through: it has had ", spell(since), " at ",
                                              degrees(*typed.temperature), ", needed are ",
                                              spell(*answer.time_here), ".")});
}

void judge_paint(const CureTyped& typed, const CureRule& rule, std::vector<plugin::Note>& notes) {
    if (typed.paint == kPaints[2])
        notes.push_back(
            {FETTLE_CAUTION,
             "Isocyanates go on leaving the film while it cures, more so when warmed: "
             "stay out without an air-fed mask, and leave spraying to licensed practice "
             "where the law asks for it."});
    if (typed.paint == kPaints[1])
        notes.push_back({FETTLE_INFO, "In cold damp air epoxy sweats a greasy bloom: wash it off "
                                      "with warm water before the next coat."});
    if (typed.paint.empty() || typed.paint == kPaints[0])
        notes.push_back({FETTLE_INFO, "Enamel dries with oxygen: it needs moving air as well as "
                                      "warmth, and thick coats stay soft beneath."});
    if (!typed.least)
        notes.push_back({FETTLE_CAUTION, "The least curing temperature was not typed, so it was "
                                         "not judged. Below it no waiting helps, and no rule "
                                         "holds."});
    if (rule.energy > 0) {
        const double low = std::min(rule.known.temperature, *typed.second_temperature);
        const double high = std::max(rule.known.temperature, *typed.second_temperature);
        if (*typed.temperature < low || *typed.temperature > high)
            notes.push_back({FETTLE_INFO, "This temperature lies outside the two points: the time "
                                          "is carried on beyond the data sheet."});
    } else {
        notes.push_back({FETTLE_INFO, "Half the time for each step is a rule of thumb; two points "
                                      "of the data sheet tell more."});
    }
}

std::string verdict_of(const CureTyped& typed, const CureAnswer& answer) {
    if (!answer.time_here)
        return line("Will not cure at ", degrees(*typed.temperature),
                    " without help: this paint needs ", degrees(*typed.least), " or more.");
    std::string words = line(spell(*answer.time_here), " at ", degrees(*typed.temperature));
    if (answer.time_warmed)
        words += line("; ", spell(*answer.time_warmed), " at ", degrees(*typed.warmed));
    if (typed.hours && answer.temperature_needed)
        words +=
            line("; through in ", spell(*typed.hours), " at ", degrees(*answer.temperature_needed));
    return words + ".";
}

plugin::Picture picture_of(const CureTyped& typed, const CureRule& rule, const CureAnswer& answer) {
    constexpr int kSteps = 40;
    constexpr double kAround = 3; // K
    double from = std::min(*typed.temperature, rule.known.temperature);
    double to = std::max(*typed.temperature, rule.known.temperature);
    if (typed.warmed) to = std::max(to, *typed.warmed);
    if (typed.warmed) from = std::min(from, *typed.warmed);
    from -= kAround;
    if (typed.least) from = std::max(from, *typed.least); // below it no time holds
    to = std::max(to, from) + kAround;
    std::vector<fettle_point> times;
    for (int i = 0; i <= kSteps; ++i) {
        const double at = from + (to - from) * i / kSteps;
        times.push_back({at, cure_time(rule, at)});
    }
    const double longest = times.front().y;
    plugin::Picture picture{"time", {}, {}};
    picture.traces.push_back({"time to cure", FETTLE_LINE, times});
    if (typed.hours)
        picture.traces.push_back(
            {"time there is", FETTLE_DASHED, {{from, *typed.hours}, {to, *typed.hours}}});
    if (typed.least)
        picture.traces.push_back(
            {"least temperature", FETTLE_DASHED, {{*typed.least, 0}, {*typed.least, longest}}});
    std::vector<fettle_point> dots;
    const auto mark = [&](double at, const std::optional<double>& time) {
        if (!time) return;
        dots.push_back({at, *time});
        picture.labels.push_back({{at, *time}, spell(*time)});
    };
    mark(*typed.temperature, answer.time_here);
    if (typed.warmed) mark(*typed.warmed, answer.time_warmed);
    if (!dots.empty()) picture.traces.push_back({"", FETTLE_DOTS, dots});
    return picture;
}

} // namespace

Outcome<CureAnswer> work_cure(const CureTyped& typed) {
    if (auto no = unfit_typed(typed)) return *no;
    CureAnswer answer{};
    const auto rule = rule_typed(typed, answer.account.working);
    if (const auto* no = std::get_if<Refusal>(&rule)) return *no;
    const CureRule& known = std::get<CureRule>(rule);
    reckon_here(typed, known, answer);
    reckon_warmed(typed, known, answer);
    answer.verdict = verdict_of(typed, answer);
    auto& notes = answer.account.notes;
    if (!answer.time_here)
        notes.push_back({FETTLE_STOP, line("Too cold: below ", degrees(*typed.least),
                                           " the film stays soft however long it stands, and what "
                                           "was not cured in time never gets hard. Warm the part "
                                           "through, or wait for warmer days.")});
    judge_heat(typed, notes);
    judge_recoat(typed, answer, notes);
    judge_paint(typed, known, notes);
    answer.picture = picture_of(typed, known, answer);
    return answer;
}

} // namespace fettle::coat
