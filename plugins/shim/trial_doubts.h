// Where the readings of a differential's trials contradict each other. SI units; pure.
//
// What is looked for: backlash that varies over the teeth by more than the run-out explains, or by
// far less; drive and coast side asking the pinion to opposite sides; a pattern asking for more
// backlash where there is too much already; backlash, pattern or turning torque that answered a
// shim the wrong way, or by far too much or too little, between an earlier trial and this one.
#pragma once

#include "shim/trial_history.h"

namespace fettle::shim {

// A sentence for each contradiction, naming both readings. The last of `trials` is this one.
// Precondition: not empty.
std::vector<std::string> doubts(const std::vector<Trial>& trials, const Aims& aims);

} // namespace fettle::shim
