// The sheet shim.drag in words: bearing preload by the pull on a cord. SI units.
#pragma once

#include "shim/words.h"

namespace fettle::shim {

inline constexpr std::array<const char*, 2> kTurned = {"pinion alone",
                                                       "pinion and carrier together"};
inline constexpr std::array<const char*, 2> kBearings = {"new", "used"};

struct DragTyped {
    std::vector<double> pulls;      // N, while it turns steadily
    std::optional<double> diameter; // m, what the cord is wound round
    std::optional<double> cord;     // m, its thickness
    std::string turned;             // one of kTurned, "" for the first
    std::string bearings;           // one of kBearings, "" for the first
    std::vector<double> wanted;     // N.m, the maker's lowest and highest; empty: the usual
};

struct DragAnswer {
    double torque;
    double pull_low, pull_high; // N, at the ends of the range
    std::string verdict;
    plugin::Account account;
};

// Makers' service manuals (seen); together: one of 1982 (seen). To warn by, not to set by.
Range usual_drag(const std::string& turned, const std::string& bearings); // N.m

plugin::Outcome<DragAnswer> work_drag(const DragTyped& typed);

} // namespace fettle::shim
