#include "shim/drag_sheet.h"

namespace fettle::shim {
namespace {

using plugin::figure;
using plugin::line;
using plugin::Outcome;
using plugin::Refusal;

constexpr double kGreatestPull = 2000;     // N
constexpr double kGreatestTorque = 100;    // N.m
constexpr double kUneven = 0.25;           // of the mean: common practice, no source
constexpr double kPound = 4.4482216152605; // N

std::string both_force(double newton) {
    return line(figure(newton / kPound, 3), " lbf (", figure(newton, 3), " N)");
}

std::optional<Refusal> unfit(const DragTyped& typed) {
    if (typed.pulls.empty() || typed.pulls.size() > 1000) {
        return Refusal{"pull", line("pull: ", std::to_string(typed.pulls.size()),
                                    " readings typed; accepted are 1 to 1000.")};
    }
    for (const double pull : typed.pulls) {
        if (pull >= 0 && pull <= kGreatestPull) continue;
        return Refusal{"pull", line("pull: ", both_force(pull), "; accepted is 0 to ",
                                    both_force(kGreatestPull), ".")};
    }
    if (auto no = unfit_length("diameter", typed.diameter, 0.005, 1)) return no;
    if (auto no = unfit_length("cord", typed.cord.value_or(0), 0, 0.02)) return no;
    if (typed.wanted.size() > 2 || typed.wanted.size() == 1) {
        return Refusal{"wanted", line("wanted: ", std::to_string(typed.wanted.size()),
                                      " figures typed; accepted are lowest and highest, or none.")};
    }
    for (const double torque : typed.wanted) {
        if (torque > 0 && torque <= kGreatestTorque && torque >= typed.wanted.front()) continue;
        return Refusal{"wanted", line("wanted: ", both_torque(torque),
                                      "; accepted are lowest, then highest, up to ",
                                      both_torque(kGreatestTorque), ".")};
    }
    return std::nullopt;
}

void judge(const DragTyped& typed, Range range, DragAnswer& answer) {
    const bool maker = !typed.wanted.empty();
    const std::string whose = maker ? "the maker's " : "the usual ";
    const std::string asked = line(whose, both_torque(range.low), " to ", both_torque(range.high));
    auto& notes = answer.account.notes;
    if (answer.torque > range.high * (1 + 1e-9)) {
        answer.verdict = line("Too tight: ", both_torque(answer.torque), " is above ", asked, ".");
        notes.push_back({maker ? FETTLE_STOP : FETTLE_CAUTION,
                         "Bearings this tight run hot and fail. Take preload off; a crushed spacer "
                         "must be replaced, slackening the nut is no cure."});
    } else if (answer.torque < range.low * (1 - 1e-9)) {
        answer.verdict = line("Too slack: ", both_torque(answer.torque), " is below ", asked, ".");
        notes.push_back({maker ? FETTLE_STOP : FETTLE_CAUTION,
                         "Without its preload the pinion wanders under load and the teeth break "
                         "at their ends."});
    } else {
        answer.verdict = line("Right: ", both_torque(answer.torque), " is within ", asked, ".");
    }
    if (spread(typed.pulls) > kUneven * mean(typed.pulls)) {
        notes.push_back({FETTLE_CAUTION, line("The pull varies from reading to reading by ",
                                              both_force(spread(typed.pulls)),
                                              ": look for dirt, a rough bearing or a rubbing "
                                              "seal.")});
    }
    if (!maker) {
        notes.push_back({FETTLE_INFO, "No range of the maker's was typed: compared with what other "
                                      "makers' manuals usually ask."});
    }
}

} // namespace

Range usual_drag(const std::string& turned, const std::string& bearings) {
    const bool used = bearings == kBearings[1];
    if (turned == kTurned[1])
        return used ? Range{20 * kInchPound, 25 * kInchPound}
                    : Range{35 * kInchPound, 40 * kInchPound};
    return used ? Range{8 * kInchPound, 15 * kInchPound} : Range{15 * kInchPound, 35 * kInchPound};
}

Outcome<DragAnswer> work_drag(const DragTyped& typed) {
    if (auto no = unfit(typed)) return *no;
    const double cord = typed.cord.value_or(0);
    const double radius = (*typed.diameter + cord) / 2;
    const double pull = mean(typed.pulls);
    DragAnswer answer{};
    answer.torque = pull * radius;
    const Range range = typed.wanted.empty() ? usual_drag(typed.turned, typed.bearings)
                                             : Range{typed.wanted[0], typed.wanted[1]};
    answer.pull_low = range.low / radius;
    answer.pull_high = range.high / radius;
    auto& working = answer.account.working;
    working.push_back(line("arm of the pull = (", both(*typed.diameter), " + cord ", both(cord),
                           ") / 2 = ", both(radius)));
    working.push_back(line("turning torque = ", both_force(pull), " × ", both(radius), " = ",
                           both_torque(answer.torque)));
    working.push_back(line("range ", both_torque(range.low), " to ", both_torque(range.high),
                           ": a pull of ", both_force(answer.pull_low), " to ",
                           both_force(answer.pull_high)));
    judge(typed, range, answer);
    return answer;
}

} // namespace fettle::shim
