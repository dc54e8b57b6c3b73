// The sheet fit.wear in words: readings of a part at several places against its limits and its
// mating part, with a verdict that says why. SI units; knows notes and refusals, but no host.
#pragma once

#include "fit/wear.h"
#include "fit/words.h"

namespace fettle::fit {

inline constexpr const char* kBore = "bore or bush";
inline constexpr std::array<const char*, 2> kFeatures = {"pin or shaft", kBore};

inline constexpr const char* kNoRepair = "none";
inline constexpr const char* kRework = "machine to a repair size";
inline constexpr const char* kRebuild = "build up, sleeve or bush";
inline constexpr std::array<const char*, 3> kRepairs = {kNoRepair, kRework, kRebuild};

inline constexpr const char* kReuse = "reuse";
inline constexpr const char* kRepair = "repair";
inline constexpr const char* kReplace = "replace";
inline constexpr const char* kAgain = "measure again";
inline constexpr const char* kNoLimits = "no limits typed";

struct WearTyped {
    std::vector<Reading> readings;
    std::string feature; // blank: pin or shaft
    std::optional<double> new_lower;
    std::optional<double> new_upper;
    std::optional<double> wear_limit; // blank: the new limit on the worn side
    std::optional<double> ovality_limit;
    std::optional<double> taper_limit;
    std::vector<double> mating;
    std::optional<double> clearance_least;
    std::optional<double> clearance_most;
    std::string instrument; // blank: the first
    std::optional<double> typed_uncertainty;
    std::optional<double> apart; // K between part and instrument; blank: 2
    std::string repair;          // blank: none
    std::optional<double> repair_size;
};

struct WearAnswer {
    Measured found;
    std::optional<double> wear; // from the middle of the new limits; negative when above
    std::optional<double> remaining;
    std::optional<double> clearance_min;
    std::optional<double> clearance_max;
    double uncertainty; // k = 2
    std::string verdict;
    std::string because;
    Account account;
    Picture picture;
};

Outcome<WearAnswer> work_wear(const WearTyped& typed);

} // namespace fettle::fit
