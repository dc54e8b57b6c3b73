// The sheet shim.carrier in words: left and right stacks from the carrier's float between its
// bearings, where the ring gear meets the pinion, the preload and the backlash wanted. SI units.
//
// From the stop on the ring gear's back the carrier travels `travel` until the teeth meet. It has
// to stand wanted/factor short of that, so the ring gear's side takes travel - wanted/factor more
// and the other side what is left of the float; the preload goes onto both by halves.
#pragma once

#include "shim/backlash_sheet.h"

namespace fettle::shim {

inline constexpr std::array<const char*, 2> kMeetBy = {"travel until the teeth meet",
                                                       "backlash at the far stop"};

struct CarrierTyped {
    std::optional<double> left, right; // stacks in while measuring; blank: none
    std::optional<double> end_float;   // stop to stop, pinion out
    std::string meet_by;               // one of kMeetBy, "" for the first
    std::optional<double> travel, far_backlash;
    std::optional<double> preload; // shim beyond no float, both sides together
    std::vector<double> wanted;    // backlash: one figure, or lowest and highest
    std::string ring_side;         // one of kSides
    FactorTyped factor;
};

struct CarrierAnswer {
    std::optional<double> left, right, total;
    double backlash; // to be expected
    std::string verdict;
    plugin::Account account;
};

plugin::Outcome<CarrierAnswer> work_carrier(const CarrierTyped& typed);

} // namespace fettle::shim
