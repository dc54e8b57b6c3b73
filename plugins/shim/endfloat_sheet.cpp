#include "shim/endfloat_sheet.h"

#include <algorithm>
#include <cmath>

namespace fettle::shim {
namespace {

using plugin::line;
using plugin::Outcome;
using plugin::Refusal;

constexpr double kGreatestFloat = 0.01;              // m
constexpr double kThickest = 0.05;                   // m
constexpr double kLongest = 1;                       // m
constexpr Range kKingPin{2 * kThou, 10 * kThou};     // common practice, no source
constexpr Range kWheelBearing{1 * kThou, 5 * kThou}; // TMC RP 618 (memory)

std::optional<Refusal> unfit(const EndfloatTyped& typed, bool by_parts) {
    if (auto no = unfit_readings("wanted", typed.wanted, 1, 0, kGreatestFloat)) return no;
    if (!by_parts) {
        if (auto no = unfit_readings("end_float", typed.floats, 1, 0, kGreatestFloat)) return no;
        return unfit_length("shim", typed.shim, 0, kThickest);
    }
    if (auto no = unfit_length("fork", typed.fork, 0.001, kLongest)) return no;
    if (auto no = unfit_length("eye", typed.eye, 0.001, kLongest)) return no;
    return unfit_length("thrust", typed.thrust.value_or(0), 0, kLongest);
}

void by_parts(const EndfloatTyped& typed, Range wanted, EndfloatAnswer& answer) {
    const double thrust = typed.thrust.value_or(0);
    answer.end_float = *typed.fork - *typed.eye - thrust;
    answer.shim = answer.end_float - wanted.middle();
    auto& working = answer.account.working;
    working.push_back(line("room for float and shim = fork ", both(*typed.fork), " - eye ",
                           both(*typed.eye), " - thrust bearing ", both(thrust), " = ",
                           both(answer.end_float)));
    working.push_back(line("shim = ", both(answer.end_float), " - float wanted ",
                           both(wanted.middle()), " = ", both(*answer.shim)));
}

void by_gauge(const EndfloatTyped& typed, Range wanted, EndfloatAnswer& answer) {
    const auto [least, greatest] = std::minmax_element(typed.floats.begin(), typed.floats.end());
    answer.end_float = *least;
    auto& working = answer.account.working;
    working.push_back(line("end float = least of ", std::to_string(typed.floats.size()),
                           " readings = ", both(*least), ", greatest ", both(*greatest)));
    if (wanted.high > wanted.low && wanted.holds(*least) && wanted.holds(*greatest)) {
        answer.change = 0;
        answer.shim = typed.shim;
        working.push_back(line("wanted ", both(wanted), ": every reading is within it"));
        return;
    }
    const bool takes = typed.acts != kShimActs[1];
    const double excess = *least - wanted.middle();
    answer.change = takes ? excess : -excess;
    answer.shim = *typed.shim + *answer.change;
    working.push_back(line("to be taken up = ", both(*least), " - wanted ", both(wanted.middle()),
                           " = ", both(excess), "; a thicker shim ",
                           takes ? kShimActs[0] : kShimActs[1]));
    working.push_back(line("shim = that is in ", both(*typed.shim), " + ", both(*answer.change),
                           " = ", both(*answer.shim)));
    const double after = wanted.middle() + *greatest - *least;
    if (wanted.high > wanted.low && !wanted.holds(after)) {
        answer.account.notes.push_back(
            {FETTLE_CAUTION,
             line("The readings vary by ", both(*greatest - *least),
                  " all round: "
                  "where it is slackest there will be ",
                  both(after), ". A face is not square, or a bearing is not home.")});
    }
}

void judge(const EndfloatTyped& typed, Range wanted, EndfloatAnswer& answer) {
    auto& notes = answer.account.notes;
    if (*answer.shim < -1e-9) {
        notes.push_back({FETTLE_STOP, line("A shim of ", both(*answer.shim),
                                           " cannot be: there is "
                                           "no room for the float wanted. A reading is wrong, or a "
                                           "part is too thick.")});
        answer.verdict = "No shim: the readings contradict each other.";
        answer.shim.reset();
        answer.change.reset();
        return;
    }
    answer.verdict = answer.change && std::fabs(*answer.change) < 1e-7
                         ? line("Leave the shim as it is: ", both(answer.end_float), " of float.")
                         : line("Build a stack of ", both(*answer.shim), ": ",
                                both(wanted.middle()), " of float where it is tightest.");
    const bool wheel = typed.where == kFloats[1];
    const Range usual = wheel ? kWheelBearing : kKingPin;
    if (wanted.low > usual.high || wanted.high < usual.low) {
        notes.push_back({FETTLE_CAUTION, line("Wanted: ", both(wanted), "; usual for a ",
                                              wheel ? kFloats[1] : kFloats[0], " is ", both(usual),
                                              wheel ? " (TMC RP 618)." : " (common practice).",
                                              " Look it up again.")});
    }
}

} // namespace

Outcome<EndfloatAnswer> work_endfloat(const EndfloatTyped& typed) {
    const bool parts = typed.how == kFloatHow[1];
    if (auto no = unfit(typed, parts)) return *no;
    const auto range = range_of("wanted", typed.wanted);
    if (const auto* no = std::get_if<Refusal>(&range)) return *no;
    const Range wanted = std::get<Range>(range);
    EndfloatAnswer answer{};
    if (parts) {
        by_parts(typed, wanted, answer);
    } else {
        by_gauge(typed, wanted, answer);
    }
    answer.account.working.push_back(
        line("float wanted ", both(wanted), ", aimed at ", both(wanted.middle())));
    judge(typed, wanted, answer);
    return answer;
}

} // namespace fettle::shim
