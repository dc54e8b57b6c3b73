// The sheet shim.endfloat in words: end float of a wheel bearing or a king pin, and the shim for
// the float wanted. The least reading counts: where it is tightest nothing may bind. SI units.
#pragma once

#include "shim/words.h"

namespace fettle::shim {

inline constexpr std::array<const char*, 2> kFloats = {"king pin", "wheel bearing"};
inline constexpr std::array<const char*, 2> kFloatHow = {"by gauge, shim in",
                                                         "from the parts measured"};
inline constexpr std::array<const char*, 2> kShimActs = {"takes up float", "gives float"};

struct EndfloatTyped {
    std::string where;                       // one of kFloats, "" for the first
    std::string how;                         // one of kFloatHow, "" for the first
    std::vector<double> floats;              // m, by gauge
    std::optional<double> shim;              // m, that is in
    std::string acts;                        // one of kShimActs: what a thicker shim does
    std::optional<double> fork, eye, thrust; // m, parts
    std::vector<double> wanted;              // one figure, or lowest and highest
};

struct EndfloatAnswer {
    double end_float;           // m, with the shim that is in; from parts: with none
    std::optional<double> shim; // m, to build
    std::optional<double> change;
    std::string verdict;
    plugin::Account account;
};

plugin::Outcome<EndfloatAnswer> work_endfloat(const EndfloatTyped& typed);

} // namespace fettle::shim
