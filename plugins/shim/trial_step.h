// The next step in setting up a differential, from its trials so far. SI units; pure.
//
// Common practice, no source: run-out first, then the bearings' preload, then the pinion's depth by
// the height of the pattern, then backlash by the carrier shims, last the pattern's place along the
// tooth within the backlash permitted; one thing at a time. Where a step of the pinion would carry
// backlash out of its range the ring gear follows it, for a pattern read at a wrong backlash
// misleads. The pinion goes by the first step typed, twice that while the pattern stays on the same
// side, and half way between once it has been on both.
#pragma once

#include "shim/trial_history.h"

namespace fettle::shim {

enum class Work { reached, true_up, preload, pinion, carrier, look, judge };

struct Step {
    Work work;
    double pinion, left, right; // m, stacks of the next trial; as they are where work needs none
    double backlash;            // m, to be expected then
    std::string words;          // what to do and what it will do to pattern and backlash

    bool moves_shims() const {
        return work == Work::preload || work == Work::pinion || work == Work::carrier;
    }
};

// The last of `trials` is this one. Precondition: not empty, and no doubts about it.
Step next_step(const std::vector<Trial>& trials, const Aims& aims);

} // namespace fettle::shim
