#include "shim/carrier_sheet.h"

#include <algorithm>

namespace fettle::shim {
namespace {

using plugin::figure;
using plugin::line;
using plugin::Outcome;
using plugin::Refusal;

constexpr double kThickest = 0.05;           // m
constexpr double kGreatestFloat = 0.02;      // m
constexpr double kGreatestBacklash = 0.02;   // m
constexpr double kGreatestPreload = 0.002;   // m
constexpr double kUsualPreload = 20 * kThou; // greatest in a maker's table of 1985 (seen)

std::optional<Refusal> unfit(const CarrierTyped& typed) {
    if (auto no = unfit_length("left", typed.left.value_or(0), 0, kThickest)) return no;
    if (auto no = unfit_length("right", typed.right.value_or(0), 0, kThickest)) return no;
    if (auto no = unfit_length("end_float", typed.end_float, 0, kGreatestFloat)) return no;
    const bool by_backlash = typed.meet_by == kMeetBy[1];
    if (by_backlash) {
        if (auto no = unfit_length("far_backlash", typed.far_backlash, 0, kGreatestBacklash))
            return no;
    } else if (auto no = unfit_length("travel", typed.travel, 0, kGreatestFloat)) {
        return no;
    }
    if (auto no = unfit_length("preload", typed.preload.value_or(0), 0, kGreatestPreload))
        return no;
    return unfit_readings("wanted", typed.wanted, 1, 1e-6, 0.005);
}

double travel_of(const CarrierTyped& typed, double factor, CarrierAnswer& answer) {
    if (typed.meet_by != kMeetBy[1]) return *typed.travel;
    const double travel = *typed.far_backlash / factor;
    answer.account.working.push_back(
        line("travel until the teeth meet = ", both(*typed.far_backlash), " / ", figure(factor, 3),
             " = ", both(travel)));
    return travel;
}

void contradict(const std::string& sentence, CarrierAnswer& answer) {
    answer.account.notes.push_back({FETTLE_STOP, sentence});
    answer.verdict = "No stacks: the readings contradict each other.";
}

void share_out(const CarrierTyped& typed, double travel, double stand_off, CarrierAnswer& answer) {
    const bool ring_on_right = typed.ring_side == kSides[1];
    const double in_left = typed.left.value_or(0);
    const double in_right = typed.right.value_or(0);
    const double preload = typed.preload.value_or(0);
    const double behind_ring = travel - stand_off;
    const double other = *typed.end_float - behind_ring;
    const double ring_stack = (ring_on_right ? in_right : in_left) + behind_ring + preload / 2;
    const double other_stack = (ring_on_right ? in_left : in_right) + other + preload / 2;
    auto& working = answer.account.working;
    working.push_back(line("ring gear's side: ", both(ring_on_right ? in_right : in_left), " + ",
                           both(travel), " - ", both(stand_off), " + half of preload ",
                           both(preload), " = ", both(ring_stack)));
    working.push_back(line("other side: ", both(ring_on_right ? in_left : in_right), " + ",
                           both(*typed.end_float), " - ", both(behind_ring),
                           " + half of preload = ", both(other_stack)));
    if (std::min(ring_stack, other_stack) < -1e-9) {
        contradict(line("One side would need ", both(std::min(ring_stack, other_stack)),
                        " of shim. The float, the travel or a stack is misread, or the bearings "
                        "are not home."),
                   answer);
        return;
    }
    answer.left = ring_on_right ? other_stack : ring_stack;
    answer.right = ring_on_right ? ring_stack : other_stack;
    answer.total = ring_stack + other_stack;
    working.push_back(line("together ", both(*answer.total), " = in while measuring ",
                           both(in_left + in_right), " + float ", both(*typed.end_float),
                           " + preload ", both(preload)));
    answer.verdict =
        line("Left ", both(*answer.left), ", right ", both(*answer.right),
             "; then read backlash all round, ", both(answer.backlash), " to be expected.");
}

} // namespace

Outcome<CarrierAnswer> work_carrier(const CarrierTyped& typed) {
    if (auto no = unfit(typed)) return *no;
    const auto range = range_of("wanted", typed.wanted);
    if (const auto* no = std::get_if<Refusal>(&range)) return *no;
    CarrierAnswer answer{};
    const auto outcome = work_factor(typed.factor, answer.account);
    if (const auto* no = std::get_if<Refusal>(&outcome)) return *no;
    const double factor = std::get<Factor>(outcome).ring;
    answer.backlash = std::get<Range>(range).middle();
    const double travel = travel_of(typed, factor, answer);
    const double stand_off = answer.backlash / factor;
    answer.account.working.push_back(
        line("stand off for the backlash wanted = ", both(answer.backlash), " / ",
             figure(factor, 3), " = ", both(stand_off)));
    if (travel > *typed.end_float + 1e-9) {
        contradict(line("The carrier cannot travel ", both(travel),
                        " until the teeth meet where its whole float is ", both(*typed.end_float),
                        ": travel (or backlash at the far stop) and float contradict each other. "
                        "Read the float with the pinion out."),
                   answer);
        return answer;
    }
    share_out(typed, travel, stand_off, answer);
    if (typed.preload.value_or(0) > kUsualPreload) {
        answer.account.notes.push_back({FETTLE_CAUTION, line("A preload of ", both(*typed.preload),
                                                             " is more than makers use "
                                                             "to ask (up to ",
                                                             both(kUsualPreload),
                                                             "): too much ruins the "
                                                             "bearings and spreads the housing.")});
    }
    return answer;
}

} // namespace fettle::shim
