#include "shim/trial_sheet.h"

#include "shim/trial_doubts.h"

#include <algorithm>
#include <cmath>

namespace fettle::shim {
namespace {

using plugin::figure;
using plugin::line;
using plugin::Outcome;
using plugin::Refusal;

constexpr double kThickest = 0.05;        // m
constexpr double kGreatestTorque = 1000;  // N.m
constexpr double kUsualStep = 4 * kThou;  // of the pinion shim: common practice, no source
constexpr double kClearStep = 10 * kThou; // of the ring gear: common practice, no source
constexpr std::size_t kFewestTeeth = 4;
constexpr const char* kReached =
    "Everything typed is within its limits and the pattern is centred.";
// An observed factor is believed within these shares of the one by geometry or the maker's.
constexpr double kLeastShare = 0.6;
constexpr double kGreatestShare = 1.6;

std::optional<Refusal> unfit_stacks(const TrialTyped& typed) {
    if (auto no = unfit_length("pinion", typed.pinion, 0, kThickest)) return no;
    if (auto no = unfit_length("left", typed.left, 0, kThickest)) return no;
    if (auto no = unfit_length("right", typed.right, 0, kThickest)) return no;
    if (auto no = unfit_readings("backlash", typed.backlash, kFewestTeeth, 0, 0.005)) return no;
    if (auto no = unfit_length("runout", typed.runout.value_or(0), 0, 0.01)) return no;
    if (typed.torque && !(*typed.torque >= 0 && *typed.torque <= kGreatestTorque)) {
        return Refusal{"torque", line("torque: ", both_torque(*typed.torque), "; accepted is 0 to ",
                                      both_torque(kGreatestTorque), ".")};
    }
    return std::nullopt;
}

std::optional<Refusal> unfit_aims(const TrialTyped& typed) {
    if (auto no = unfit_readings("wanted", typed.wanted, 1, 1e-6, 0.005)) return no;
    const double variation = typed.variation.value_or(kUsualVariation);
    if (auto no = unfit_length("variation", variation, 0, 0.002)) return no;
    const double runout = typed.runout_most.value_or(kUsualVariation);
    if (auto no = unfit_length("runout_most", runout, 0, 0.002)) return no;
    const double step = typed.first_step.value_or(kUsualStep);
    if (auto no = unfit_length("first_step", step, 0.5 * kThou, 0.001)) return no;
    if (typed.torque_wanted.empty()) return std::nullopt;
    const auto& torque = typed.torque_wanted;
    if (torque.size() == 2 && torque[0] > 0 && torque[1] >= torque[0] &&
        torque[1] <= kGreatestTorque)
        return std::nullopt;
    return Refusal{"torque_wanted",
                   line("torque_wanted: ", std::to_string(torque.size()), " figures from ",
                        both_torque(torque.front()), "; accepted are lowest, then highest, up to ",
                        both_torque(kGreatestTorque), ", or none.")};
}

template <class Word>
Word word(const std::array<const char*, 4>& words, const std::string& typed) {
    const auto found = std::find(words.begin(), words.end(), typed);
    return found == words.end() ? Word::unseen : static_cast<Word>(found - words.begin());
}

Trial this_trial(const TrialTyped& typed) {
    return {*typed.pinion,
            *typed.left,
            *typed.right,
            mean(typed.backlash),
            spread(typed.backlash),
            typed.runout,
            typed.torque,
            word<Along>(kAlong, typed.drive_along),
            word<Height>(kHeights, typed.drive_height),
            word<Along>(kAlong, typed.coast_along),
            word<Height>(kHeights, typed.coast_height)};
}

Outcome<Aims> aims_of(const TrialTyped& typed, plugin::Account& account) {
    const auto range = range_of("wanted", typed.wanted);
    if (const auto* no = std::get_if<Refusal>(&range)) return *no;
    const auto factor = work_factor(typed.factor, account);
    if (const auto* no = std::get_if<Refusal>(&factor)) return *no;
    Aims aims{std::get<Range>(range),
              typed.variation.value_or(kUsualVariation),
              typed.runout_most.value_or(kUsualVariation),
              std::nullopt,
              typed.first_step.value_or(kUsualStep),
              typed.pinion_acts == kPinionActs[1] ? -1.0 : 1.0,
              typed.ring_side == kSides[1],
              std::get<Factor>(factor)};
    if (!typed.torque_wanted.empty())
        aims.torque = Range{typed.torque_wanted[0], typed.torque_wanted[1]};
    // A single figure cannot be met to the last hair: half a thousandth either way will do.
    if (typed.wanted.size() == 1) {
        const double middle = aims.backlash.middle();
        aims.backlash = {middle - kThou / 2, middle + kThou / 2};
    }
    return aims;
}

void tell_trial(TrialAnswer& answer) {
    const Trial& now = answer.trials.back();
    auto& working = answer.account.working;
    working.push_back(line("backlash changes by ", figure(answer.aims.factor.ring, 3),
                           " of what the ring gear moves and by ",
                           figure(answer.aims.factor.pinion, 3), " of what the pinion moves"));
    working.push_back(line("trial ", std::to_string(answer.trials.size()), ": pinion ",
                           both(now.pinion), ", left ", both(now.left), ", right ", both(now.right),
                           ", carrier together ", both(now.total())));
    working.push_back(line("backlash mean ", both(now.backlash), ", varying by ",
                           both(now.variation), "; wanted ", both(answer.aims.backlash)));
    if (answer.trials.size() < 2) return;
    const Trial& then = answer.trials[answer.trials.size() - 2];
    const double nearer = depth(now, answer.aims) - depth(then, answer.aims);
    const double farther = away(now, answer.aims) - away(then, answer.aims);
    const double expected = answer.aims.factor.ring * farther - answer.aims.factor.pinion * nearer;
    working.push_back(line("since the trial before: ring gear ", both(std::fabs(farther)),
                           farther >= 0 ? " away" : " nearer", ", pinion ", both(std::fabs(nearer)),
                           nearer >= 0 ? " nearer" : " away", ": backlash expected to change by ",
                           both(expected), ", read ", both(now.backlash - then.backlash)));
    if (std::fabs(now.total() - then.total()) < 0.5 * kThou) return;
    answer.account.notes.push_back(
        {FETTLE_CAUTION, line("Both carrier stacks together are ", both(now.total()),
                              ", in the "
                              "trial before ",
                              both(then.total()),
                              ": the bearings' preload has "
                              "changed with it.")});
}

// What the trials themselves show of the factor goes before geometry, when it is near it.
void learn_factor(TrialAnswer& answer) {
    const auto observed = observed_factor(answer.trials, answer.aims);
    if (!observed) return;
    Factor& factor = answer.aims.factor;
    const double share = observed->factor / factor.ring;
    const std::string found = line(
        "over ", both(observed->moved), " that the ring gear moved alone, backlash changed by ",
        figure(observed->factor, 3), " of it; reckoned with so far ", figure(factor.ring, 3));
    if (share >= kLeastShare && share <= kGreatestShare) {
        answer.account.working.push_back(line(found, ": the trials' own figure is used"));
        factor = {observed->factor, factor.pinion * share};
        return;
    }
    answer.account.working.push_back(found);
    answer.account.notes.push_back(
        {FETTLE_CAUTION, line("The trials show ", figure(observed->factor, 3),
                              " of backlash for "
                              "what the ring gear moves, where ",
                              figure(factor.ring, 3),
                              " is reckoned with. Check where backlash is read and the figures of "
                              "the gears.")});
}

void refuse_advice(const std::vector<std::string>& doubted, TrialAnswer& answer) {
    answer.doubted = true;
    for (const std::string& sentence : doubted)
        answer.account.notes.push_back(
            {FETTLE_STOP, "Readings contradict each other. " + sentence});
    answer.next =
        "No advice while readings contradict each other: read those named again. Where an "
        "earlier trial was misread, mend or strike its row.";
    answer.verdict = doubted.size() == 1 ? std::string("Two readings contradict each other.")
                                         : line(std::to_string(doubted.size()),
                                                " contradictions among the readings.");
}

// A tooth without backlash is pressed in: how far, no reading tells, so no shim can be reckoned.
void refuse_jammed(TrialAnswer& answer) {
    answer.account.notes.push_back(
        {FETTLE_STOP, "No backlash at one tooth: the teeth jam there. Do not turn it under load."});
    answer.next =
        line("Take the ring gear away from the pinion, shim from its own side to the "
             "other, a clear step of about ",
             both(kClearStep), " at a time until every tooth has backlash; then read again.");
    answer.verdict = "Not yet: a tooth without backlash.";
}

std::string verdict_of(const Step& step) {
    switch (step.work) {
    case Work::reached:
        return kReached;
    case Work::true_up:
        return "Not yet: run-out first.";
    case Work::preload:
        return "Not yet: the bearings' preload.";
    case Work::pinion:
        return "Not yet: the pinion's depth.";
    case Work::carrier:
        return "Not yet: backlash.";
    case Work::look:
        return "Not yet: a reading is missing.";
    case Work::judge:
        break;
    }
    return "Not by shims: someone who knows such gears has to look.";
}

void advise(TrialAnswer& answer) {
    answer.step = next_step(answer.trials, answer.aims);
    answer.next = answer.step->words;
    answer.verdict = verdict_of(*answer.step);
    auto& notes = answer.account.notes;
    if (answer.step->work == Work::reached) notes.push_back({FETTLE_REACHED, answer.verdict});
    if (answer.step->work == Work::judge) notes.push_back({FETTLE_CAUTION, answer.next});
    if (answer.step->moves_shims())
        answer.account.working.push_back(line("next trial: pinion ", both(answer.step->pinion),
                                              ", left ", both(answer.step->left), ", right ",
                                              both(answer.step->right), ", backlash then about ",
                                              both(answer.step->backlash)));
}

} // namespace

Outcome<TrialAnswer> work_trial(const TrialTyped& typed) {
    if (auto no = unfit_stacks(typed)) return *no;
    if (auto no = unfit_aims(typed)) return *no;
    TrialAnswer answer{};
    const auto aims = aims_of(typed, answer.account);
    if (const auto* no = std::get_if<Refusal>(&aims)) return *no;
    answer.aims = std::get<Aims>(aims);
    const auto earlier = trials_from(typed.earlier);
    if (const auto* no = std::get_if<Refusal>(&earlier)) return *no;
    answer.trials = std::get<std::vector<Trial>>(earlier);
    answer.trials.push_back(this_trial(typed));
    tell_trial(answer);
    if (*std::min_element(typed.backlash.begin(), typed.backlash.end()) <= 0) {
        refuse_jammed(answer);
        return answer;
    }
    const auto doubted = doubts(answer.trials, answer.aims);
    if (!doubted.empty()) {
        refuse_advice(doubted, answer);
        return answer;
    }
    learn_factor(answer);
    advise(answer);
    if (!typed.torque || typed.torque_wanted.empty()) {
        answer.account.notes.push_back({FETTLE_INFO,
                                        "The turning torque was not judged: it was not "
                                        "typed, or no range for it."});
    }
    if (!typed.runout) {
        answer.account.notes.push_back(
            {FETTLE_INFO, "The ring gear's run-out was not judged: it was not typed."});
    }
    return answer;
}

} // namespace fettle::shim
