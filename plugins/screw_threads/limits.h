// Limits of size of mating threads, as far as stripping asks for them: the smallest bolt in the
// largest nut. SI units.
//
// UN: ASME B1.1, classes 2A and 2B. Metric: ISO 965-1, 6g and 6H. Whitworth: BS 84, free bolt in
// medium nut. All three by the formulae behind the tables, written down from memory and checked
// against published limits (tests/plugins). For BA, cycle and no other forms the tolerances are not
// held: basic sizes, of which only a share is counted.
#pragma once

#include "screw_threads/threads.h"

namespace fettle::screw {

struct ThreadLimits {
    double bolt_major;  // m, least major diameter of the bolt, Ds min
    double bolt_pitch;  // m, least pitch diameter of the bolt, Es min
    double nut_minor;   // m, greatest minor diameter of the nut, Kn max
    double nut_pitch;   // m, greatest pitch diameter of the nut, En max
    double share;       // of the shear areas that is counted: 1 where tolerances are held
    const char* source; // for the working
};

ThreadLimits limits_of(const Thread& thread);

} // namespace fettle::screw
