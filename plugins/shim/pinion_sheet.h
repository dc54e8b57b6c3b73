// The sheet shim.pinion in words: the shim that sets how deep the pinion stands, from the housing
// and the parts measured, or from the shim that was in and the marks on both pinions. SI units.
#pragma once

#include "shim/words.h"

namespace fettle::shim {

inline constexpr std::array<const char*, 2> kPinionHow = {"from the housing measured",
                                                          "from the shim that was in"};
// Where the shim sits decides what thicker does.
inline constexpr std::array<const char*, 2> kPinionActs = {"nearer the ring gear",
                                                           "away from the ring gear"};
inline constexpr std::array<const char*, 2> kMarkMeans = {"plus comes off the shim",
                                                          "plus goes onto the shim"};

struct PinionTyped {
    std::string how;               // one of kPinionHow, "" for the first
    std::optional<double> housing; // m, ring gear axis to the seat
    std::vector<double> parts;     // m, what stands between without a shim
    std::optional<double> existing;
    std::optional<double> depth_error; // too far from the ring gear; minus: too near
    std::optional<double> old_mark, new_mark;
    std::string mark_means; // one of kMarkMeans
    std::string acts;       // one of kPinionActs: where a thicker shim brings the pinion
};

struct PinionAnswer {
    std::optional<double> shim;   // blank where nothing can be made of the readings
    std::optional<double> change; // against the shim that is in
    std::string verdict;
    plugin::Account account;
};

plugin::Outcome<PinionAnswer> work_pinion(const PinionTyped& typed);

} // namespace fettle::shim
