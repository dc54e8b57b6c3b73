#include "shim/pinion_sheet.h"

#include <cmath>
#include <numeric>

namespace fettle::shim {
namespace {

using plugin::line;
using plugin::Outcome;
using plugin::Refusal;

constexpr double kLongest = 1;             // m
constexpr double kThickest = 0.05;         // m
constexpr double kGreatestMark = 0.001;    // m
constexpr double kGreatestError = 0.005;   // m
constexpr double kWideChange = 20 * kThou; // common practice, no source

std::optional<Refusal> unfit(const PinionTyped& typed, bool by_housing) {
    if (by_housing) {
        if (auto no = unfit_length("housing", typed.housing, 0.005, kLongest)) return no;
        if (auto no = unfit_readings("parts", typed.parts, 1, 0, kLongest)) return no;
    }
    if (!by_housing || typed.existing) {
        if (auto no = unfit_length("existing", typed.existing, 0, kThickest)) return no;
    }
    const double error = typed.depth_error.value_or(0);
    if (auto no = unfit_length("depth_error", error, -kGreatestError, kGreatestError)) return no;
    const double old_mark = typed.old_mark.value_or(0);
    if (auto no = unfit_length("old_mark", old_mark, -kGreatestMark, kGreatestMark)) return no;
    return unfit_length("new_mark", typed.new_mark.value_or(0), -kGreatestMark, kGreatestMark);
}

// The shim that fills the housing, before the pinion's mark.
double from_housing(const PinionTyped& typed, double sense, PinionAnswer& answer) {
    const double parts = std::accumulate(typed.parts.begin(), typed.parts.end(), 0.0);
    const double gap = sense * (*typed.housing - parts);
    const std::string sum = typed.parts.size() > 1 ? line(" (", summed(typed.parts), ")") : "";
    answer.account.working.push_back(sense > 0
                                         ? line("shim = housing ", both(*typed.housing),
                                                " - parts ", both(parts), sum, " = ", both(gap))
                                         : line("shim = parts ", both(parts), sum, " - housing ",
                                                both(*typed.housing), " = ", both(gap)));
    return gap;
}

double from_shim(const PinionTyped& typed, double sense, PinionAnswer& answer) {
    const double error = typed.depth_error.value_or(0);
    const double shim = *typed.existing + sense * error;
    answer.account.working.push_back(
        line("shim = that was in ", both(*typed.existing), sense > 0 ? " + " : " - ", both(error),
             " by which the pinion stands too far from the ring gear = ", both(shim)));
    return shim;
}

// What the figures etched on the pinions add, by the maker's own sense of plus.
double for_marks(const PinionTyped& typed, bool by_housing, PinionAnswer& answer) {
    if (!typed.new_mark && !typed.old_mark) return 0;
    const bool off = typed.mark_means != kMarkMeans[1];
    const double old_mark = by_housing ? 0 : typed.old_mark.value_or(0);
    const double marks = typed.new_mark.value_or(0) - old_mark;
    const double added = off ? -marks : marks;
    answer.account.working.push_back(
        line("marks: new ", both(typed.new_mark.value_or(0)),
             by_housing ? std::string() : line(", old ", both(old_mark)), "; ",
             off ? kMarkMeans[0] : kMarkMeans[1], ": ", both(added)));
    return added;
}

void judge(const PinionTyped& typed, double sense, PinionAnswer& answer) {
    auto& notes = answer.account.notes;
    if (*answer.shim < -1e-9) {
        notes.push_back({FETTLE_STOP, line("A shim of ", both(*answer.shim),
                                           " cannot be: the parts "
                                           "measure more than the room for them. A reading, a mark "
                                           "or the side the shim sits on is wrong.")});
        answer.shim.reset();
        answer.verdict = "No shim: the readings contradict each other.";
        return;
    }
    answer.verdict = line("Build a stack of ", both(*answer.shim), ".");
    if (!typed.existing) return;
    answer.change = *answer.shim - *typed.existing;
    const double nearer = sense * *answer.change;
    answer.verdict += line(" Against the ", both(*typed.existing), " that is in, the pinion goes ",
                           both(std::fabs(nearer)),
                           nearer >= 0 ? " nearer the ring gear." : " away from the ring gear.");
    if (std::fabs(*answer.change) > kWideChange) {
        notes.push_back({FETTLE_CAUTION, line("A change of ", both(*answer.change),
                                              " is much. "
                                              "Measure again before the bearing is pulled.")});
    }
}

} // namespace

Outcome<PinionAnswer> work_pinion(const PinionTyped& typed) {
    const bool by_housing = typed.how != kPinionHow[1];
    if (auto no = unfit(typed, by_housing)) return *no;
    const double sense = typed.acts == kPinionActs[1] ? -1 : 1;
    PinionAnswer answer;
    answer.account.working.push_back(
        line("a thicker shim brings the pinion ", sense > 0 ? kPinionActs[0] : kPinionActs[1]));
    answer.shim = by_housing ? from_housing(typed, sense, answer) : from_shim(typed, sense, answer);
    *answer.shim += for_marks(typed, by_housing, answer);
    answer.account.working.push_back(line("shim to build = ", both(*answer.shim)));
    judge(typed, sense, answer);
    answer.account.notes.push_back(
        {FETTLE_INFO, "The contact pattern has the last word: try it, and read backlash again, for "
                      "moving the pinion changes it. Where the shim lies under a bearing, set the "
                      "bearings' preload afresh."});
    return answer;
}

} // namespace fettle::shim
