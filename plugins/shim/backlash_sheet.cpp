#include "shim/backlash_sheet.h"

#include <algorithm>
#include <cmath>

namespace fettle::shim {
namespace {

using plugin::figure;
using plugin::line;
using plugin::Outcome;
using plugin::Refusal;

constexpr double kGreatestBacklash = 0.005; // m
constexpr double kThickest = 0.05;          // m
constexpr double kGreatestMove = 0.02;      // m

std::optional<Refusal> unfit(const BacklashTyped& typed) {
    if (auto no = unfit_readings("reading", typed.readings, 1, 0, kGreatestBacklash)) return no;
    if (auto no = unfit_readings("wanted", typed.wanted, 1, 1e-6, kGreatestBacklash)) return no;
    if (typed.left) {
        if (auto no = unfit_length("left", typed.left, 0, kThickest)) return no;
    }
    if (typed.right) {
        if (auto no = unfit_length("right", typed.right, 0, kThickest)) return no;
    }
    return std::nullopt;
}

// Side by side with what is usual, to warn by; the maker's figure comes first.
void compare_with_usual(const BacklashTyped& typed, Range wanted, BacklashAnswer& answer) {
    auto& notes = answer.account.notes;
    if (typed.ring_diameter && typed.factor.ring_teeth && *typed.ring_diameter > 0) {
        const double pitch = *typed.factor.ring_teeth / (*typed.ring_diameter / kInch);
        const auto usual = usual_backlash(pitch);
        answer.account.working.push_back(
            line("diametral pitch = ", figure(*typed.factor.ring_teeth), " teeth / ",
                 both(*typed.ring_diameter), " = ", figure(pitch, 3), ": usual ",
                 usual ? both(*usual) : "not listed", " (AGMA, quality 7 to 13)"));
        if (usual && (wanted.high < usual->low || wanted.low > usual->high)) {
            notes.push_back(
                {FETTLE_CAUTION, line("Wanted: ", both(wanted),
                                      "; teeth of this pitch "
                                      "usually have ",
                                      both(*usual), ". Look it up again in the maker's figures.")});
        }
    }
    if (typed.vehicle.empty()) return;
    const bool heavy = typed.vehicle == kVehicles[1];
    const Range usual = heavy ? kLorryBacklash : kCarBacklash;
    if (wanted.high < usual.low || wanted.low > usual.high) {
        notes.push_back(
            {FETTLE_CAUTION, line("Wanted: ", both(wanted), "; makers usually ask ", both(usual),
                                  " of a ", typed.vehicle, ". Look it up again.")});
    }
}

void judge_variation(double permitted, BacklashAnswer& answer) {
    if (answer.runout <= permitted + 1e-9) return;
    answer.account.notes.push_back(
        {FETTLE_STOP,
         line("Backlash varies by ", both(answer.runout), " over the teeth, more than the ",
              both(permitted),
              " permitted. No shim cures that: find the run-out first (dirt or a "
              "burr under the ring gear, its bolts, a bent flange, a bearing not home, a bruised "
              "tooth), then read again.")});
}

void judge_extremes(const BacklashTyped& typed, Range wanted, BacklashAnswer& answer) {
    const auto [least, greatest] =
        std::minmax_element(typed.readings.begin(), typed.readings.end());
    const double change = answer.after - answer.backlash;
    const double tightest = *least + change;
    const double slackest = *greatest + change;
    answer.account.working.push_back(
        line("then the tightest place reads ", both(tightest), ", the slackest ", both(slackest)));
    if (tightest <= 0) {
        answer.account.notes.push_back(
            {FETTLE_STOP, "The tightest place would have no backlash left: the teeth would jam."});
    } else if (wanted.high > wanted.low && !(wanted.holds(tightest) && wanted.holds(slackest))) {
        answer.account.notes.push_back(
            {FETTLE_CAUTION,
             "The mean comes into the range, but not every place does: the readings "
             "vary too much for the range wanted."});
    }
}

void tell_stacks(const BacklashTyped& typed, double toward_ring_side, BacklashAnswer& answer) {
    if (!typed.left || !typed.right) return;
    const double to_left = typed.ring_side == kSides[1] ? -toward_ring_side : toward_ring_side;
    answer.left = *typed.left + to_left;
    answer.right = *typed.right - to_left;
    const double total = *typed.left + *typed.right;
    answer.account.working.push_back(line("left ", both(*answer.left), ", right ",
                                          both(*answer.right), ", together ", both(total),
                                          " as before, so the bearings' preload stays"));
    if (*answer.left >= 0 && *answer.right >= 0) return;
    answer.account.notes.push_back(
        {FETTLE_STOP, line("One side would need ", both(std::min(*answer.left, *answer.right)),
                           " of shim. A stack or a reading is wrong, or the bearings or the ring "
                           "gear are not home.")});
    answer.left.reset();
    answer.right.reset();
}

// What is to be done: the mean into the range already, or a shim from one side to the other.
void advise(const BacklashTyped& typed, Range wanted, BacklashAnswer& answer) {
    auto& working = answer.account.working;
    const bool ring_on_right = typed.ring_side == kSides[1];
    const std::string ring_side = ring_on_right ? kSides[1] : kSides[0];
    const std::string other_side = ring_on_right ? kSides[0] : kSides[1];
    if (wanted.high > wanted.low && wanted.holds(answer.backlash)) {
        answer.verdict = "Leave the shims as they are: the backlash is within the range wanted.";
        working.push_back(line("wanted ", both(wanted), ": the mean is within it"));
        tell_stacks(typed, 0, answer);
        return;
    }
    const double change = wanted.middle() - answer.backlash;
    answer.move = std::fabs(change) / answer.factor;
    answer.after = wanted.middle();
    working.push_back(line("change wanted = ", both(wanted.middle()), " - ", both(answer.backlash),
                           " = ", both(change)));
    working.push_back(line("shim to move = ", both(std::fabs(change)), " / ",
                           figure(answer.factor, 3), " = ", both(answer.move)));
    if (answer.move < 1e-7) {
        answer.verdict = "Leave the shims as they are: the backlash is what is wanted.";
        tell_stacks(typed, 0, answer);
        return;
    }
    const bool away = change > 0;
    answer.from_side = away ? ring_side : other_side;
    answer.to_side = away ? other_side : ring_side;
    answer.verdict = line("Move ", both(answer.move), " of shim from the ", answer.from_side,
                          " side to the ", answer.to_side, " side: the ring gear goes ",
                          away ? "away from" : "toward", " the pinion and backlash ",
                          away ? "grows" : "shrinks", " by ", both(std::fabs(change)), ".");
    tell_stacks(typed, away ? -answer.move : answer.move, answer);
    if (answer.move > kGreatestMove) {
        answer.account.notes.push_back({FETTLE_STOP, line("A move of ", both(answer.move),
                                                          " is beyond what shims are for: a "
                                                          "reading, a figure or a part is "
                                                          "wrong.")});
    }
}

} // namespace

Outcome<BacklashAnswer> work_backlash(const BacklashTyped& typed) {
    if (auto no = unfit(typed)) return *no;
    const auto range = range_of("wanted", typed.wanted);
    if (const auto* no = std::get_if<Refusal>(&range)) return *no;
    const Range wanted = std::get<Range>(range);
    BacklashAnswer answer{};
    const auto factor = work_factor(typed.factor, answer.account);
    if (const auto* no = std::get_if<Refusal>(&factor)) return *no;
    answer.factor = std::get<Factor>(factor).ring;
    answer.backlash = mean(typed.readings);
    answer.after = answer.backlash;
    answer.runout = spread(typed.readings);
    answer.account.working.push_back(
        line("backlash = mean of ", std::to_string(typed.readings.size()),
             " readings = ", both(answer.backlash), ", varying by ", both(answer.runout)));
    advise(typed, wanted, answer);
    judge_variation(typed.variation.value_or(kUsualVariation), answer);
    judge_extremes(typed, wanted, answer);
    compare_with_usual(typed, wanted, answer);
    if (typed.readings.size() < 4) {
        answer.account.notes.push_back(
            {FETTLE_INFO, "Read at four places or more around the ring gear: fewer may miss a high "
                          "one."});
    }
    return answer;
}

} // namespace fettle::shim
