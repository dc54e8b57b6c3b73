#include "fit/limits_sheet.h"

#include "fit/inch_fits.h"

#include <algorithm>
#include <cmath>

namespace fettle::fit {
namespace {

// Preferred fits and what they are meant for: ISO 286-1 and ANSI B4.2, in the words of the trade.
struct Preferred {
    const char *hole, *shaft, *use;
};
constexpr Preferred kPreferred[] = {
    {"H11", "c11", "loose running, wide commercial limits"},
    {"H9", "d9", "free running, changes of temperature, high speed"},
    {"H8", "f7", "close running at moderate speed"},
    {"H7", "g6", "sliding and turning by hand, locates closely, does not run freely"},
    {"H7", "h6", "snug, stationary, put together by hand"},
    {"H7", "k6", "transition, light taps, locates closely"},
    {"H7", "n6", "transition, press or mallet, locates more firmly"},
    {"H7", "p6", "locating press fit, carries no load by its grip"},
    {"H7", "r6", "press fit, medium"},
    {"H7", "s6", "medium drive: bushes and gears on shafts, shrink fit of light sections"},
    {"H7", "u6", "force or shrink fit, highly stressed"}};

std::string iso_use(const std::string& hole, const std::string& shaft) {
    for (const Preferred& fit : kPreferred) {
        if (hole == fit.hole && shaft == fit.shaft) return fit.use;
    }
    return "";
}

std::string class_name(const ToleranceClass& of) {
    std::string letter = of.letter;
    if (of.hole) {
        std::ranges::transform(letter, letter.begin(),
                               [](char c) { return static_cast<char>(c - 'a' + 'A'); });
    }
    return line(letter, std::to_string(of.grade));
}

void tell_iso_part(const LimitedPart& part, const ToleranceClass& of, double size,
                   Account& account) {
    const double tolerance = *standard_tolerance(of.grade, size);
    account.working.push_back(
        line(part.named, " at ", length_words(size), ": IT", std::to_string(of.grade), " = ",
             small_words(tolerance), " of ISO 286-1, table 1; deviations ",
             deviation_words(part.upper), " and ", deviation_words(part.lower)));
    const bool with_delta = of.hole && of.letter > "js" && of.letter != "j" &&
                            of.grade <= (of.letter <= "n" ? 8 : 7) && delta(of.grade, size) > 0;
    if (with_delta) {
        account.working.push_back(
            line(part.named, ": the shaft's deviation turned round and delta = IT",
                 std::to_string(of.grade), " - IT", std::to_string(of.grade - 1), " = ",
                 small_words(delta(of.grade, size)), " added"));
    }
}

Outcome<LimitedPart> iso_part(const std::string& typed, const char* field, double size,
                              Account& account) {
    const bool hole = std::string_view(field) == "hole";
    const auto read = read_class(typed, field, hole);
    if (const auto* no = std::get_if<Refusal>(&read)) return *no;
    const auto& of = std::get<ToleranceClass>(read);
    const std::string name = class_name(of);
    const auto found = zone(of, size);
    if (!found) {
        return Refusal{field, line(field, ": ISO 286 gives no ", name, " at ", length_words(size),
                                   "; accepted are sizes up to 500 mm, and at small sizes no t, v "
                                   "or y, j only from 5 to 8, K only to 8.")};
    }
    LimitedPart part{field, name, found->lower, found->upper};
    tell_iso_part(part, of, size, account);
    return part;
}

Outcome<LimitsAnswer> iso_fit(const LimitsTyped& typed, double size) {
    LimitsAnswer answer{};
    const auto hole = iso_part(typed.hole, "hole", size, answer.account);
    if (const auto* no = std::get_if<Refusal>(&hole)) return *no;
    const auto shaft = iso_part(typed.shaft, "shaft", size, answer.account);
    if (const auto* no = std::get_if<Refusal>(&shaft)) return *no;
    answer.hole = std::get<LimitedPart>(hole);
    answer.shaft = std::get<LimitedPart>(shaft);
    answer.use = iso_use(answer.hole.named, answer.shaft.named);
    return answer;
}

Outcome<LimitsAnswer> inch_answer(const LimitsTyped& typed, double size) {
    const InchClass* of = row_named(kInchClasses, typed.inch_class);
    if (of == nullptr) return unknown_word("inch_class", typed.inch_class);
    const auto found = inch_fit(of->name, size);
    if (!found) {
        return Refusal{"inch_class",
                       line("inch_class: ANSI B4.1 gives no ", of->name, " at ", length_words(size),
                            "; accepted are sizes up to 19.69 in, LT 3 and "
                            "LT 4 above 0.24 in, FN 3 above 0.95 in.")};
    }
    LimitsAnswer answer{};
    answer.hole = {"hole", line(of->name, " hole"), found->hole.lower, found->hole.upper};
    answer.shaft = {"shaft", line(of->name, " shaft"), found->shaft.lower, found->shaft.upper};
    answer.use = of->use;
    answer.account.working.push_back(
        line(of->name, " at ", length_words(size), ": limits read in the table of ANSI B4.1"));
    return answer;
}

void tell_fit(LimitsAnswer& answer) {
    auto& working = answer.account.working;
    for (const LimitedPart* part : {&answer.hole, &answer.shaft}) {
        working.push_back(line(part->part, " from ", size_words(answer.size + part->lower), " to ",
                               size_words(answer.size + part->upper)));
    }
    working.push_back(line(
        "clearance_min = least hole - greatest shaft = ", deviation_words(answer.hole.lower),
        " - (", deviation_words(answer.shaft.upper), ") = ", small_words(answer.clearance_min)));
    working.push_back(line(
        "clearance_max = greatest hole - least shaft = ", deviation_words(answer.hole.upper),
        " - (", deviation_words(answer.shaft.lower), ") = ", small_words(answer.clearance_max)));
    constexpr double kNothing = 1e-10;
    answer.kind = answer.clearance_min >= -kNothing  ? "clearance"
                  : answer.clearance_max <= kNothing ? "interference"
                                                     : "transition";
}

void judge_duty(const std::string& duty, LimitsAnswer& answer) {
    if (duty == kMustRun && answer.kind != "clearance") {
        tell(answer.account, FETTLE_STOP,
             line("These limits can bind: up to ", small_words(-answer.clearance_min),
                  " of interference where the parts must move freely. Choose a clearance fit, such "
                  "as H8/f7 or RC 4."));
    }
    if (duty == kMustHold && answer.kind != "interference") {
        tell(answer.account, FETTLE_STOP,
             line("These limits can leave up to ", small_words(answer.clearance_max),
                  " of play where the parts must hold by their grip. Choose an interference fit, "
                  "such as H7/s6 or FN 2."));
    }
    if (answer.kind == "transition") {
        tell(answer.account, FETTLE_INFO,
             "A transition fit: two good parts may come together with play or with a press. "
             "Measure both before you fit them.");
    }
    tell(answer.account, FETTLE_INFO,
         "Limits hold at 20 °C. Half the tolerance is soon lost to a warm hand or a bent part: let "
         "both lie together before you measure.");
}

// Both zones against the zero line, deviations hugely larger than the parts.
Picture zones_picture(const LimitsAnswer& answer) {
    Picture picture{"zones", {}, {}};
    double left = 0.5;
    for (const LimitedPart* part : {&answer.hole, &answer.shaft}) {
        picture.traces.push_back({line(part->part, " ", part->named),
                                  FETTLE_BODY,
                                  {{left, part->lower},
                                   {left + 1, part->lower},
                                   {left + 1, part->upper},
                                   {left, part->upper},
                                   {left, part->lower}}});
        picture.labels.push_back({{left + 0.5, part->upper}, part->named});
        left += 1.5;
    }
    picture.traces.push_back({"nominal size", FETTLE_DASHED, {{0, 0}, {3.5, 0}}});
    return picture;
}

} // namespace

Outcome<LimitsAnswer> work_limits(const LimitsTyped& typed) {
    const bool inch = typed.system == kInchSystem;
    if (!inch && !typed.system.empty() && typed.system != kIsoSystem)
        return unknown_word("system", typed.system);
    if (!typed.size || *typed.size <= 0)
        return Refusal{"size", "size: the nominal size is needed, more than 0 and up to 500 mm."};
    auto outcome = inch ? inch_answer(typed, *typed.size) : iso_fit(typed, *typed.size);
    auto* answer = std::get_if<LimitsAnswer>(&outcome);
    if (answer == nullptr) return outcome;
    answer->size = *typed.size;
    answer->clearance_min = answer->hole.lower - answer->shaft.upper;
    answer->clearance_max = answer->hole.upper - answer->shaft.lower;
    tell_fit(*answer);
    judge_duty(typed.duty, *answer);
    if (answer->use.empty())
        answer->use = line(answer->kind, " fit, none of those preferred by ISO 286");
    answer->picture = zones_picture(*answer);
    return outcome;
}

} // namespace fettle::fit
