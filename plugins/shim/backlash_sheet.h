// The sheet shim.backlash in words: readings over the ring gear, what is wanted, and what shim has
// to go from which side to which, the total staying as it is. SI units; no sink, no host.
#pragma once

#include "shim/mesh.h"

namespace fettle::shim {

inline constexpr std::array<const char*, 2> kSides = {"left", "right"};
inline constexpr std::array<const char*, 2> kVehicles = {"car or light lorry", "heavy lorry"};

struct BacklashTyped {
    std::vector<double> readings;        // m, as read, around the ring gear
    std::vector<double> wanted;          // one figure, or lowest and highest
    std::optional<double> variation;     // permitted over the teeth
    std::string ring_side;               // one of kSides: where the ring gear's back faces
    std::optional<double> left, right;   // stacks that are in
    std::optional<double> ring_diameter; // pitch diameter, for the usual range
    std::string vehicle;                 // one of kVehicles, "" for no usual range
    FactorTyped factor;
};

struct BacklashAnswer {
    double backlash;                // mean of the readings
    double move;                    // m of shim from one side to the other, never negative
    std::string from_side, to_side; // one of kSides, "" where nothing is to be moved
    double runout;                  // greatest less least reading
    double after;                   // backlash to be expected then
    double factor;
    std::optional<double> left, right; // stacks then
    std::string verdict;
    plugin::Account account;
};

plugin::Outcome<BacklashAnswer> work_backlash(const BacklashTyped& typed);

} // namespace fettle::shim
