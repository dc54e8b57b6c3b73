// Pictures of threads to scale: the profile of an external thread, and a cut through a tapped part.
// SI units, plain points.
#pragma once

#include "screw_threads/picture.h"

#include <vector>

namespace fettle::thread {

// Height of the profile above the thread's axis at distance `along` from the middle of a crest.
// Flat crests and roots for UN and metric, round ones for the others, of the basic profile.
double profile_height(const screw::Thread& thread, double along);

// So many turns of the profile, closed below at `floor` (height above the axis), from x = `from`.
std::vector<fettle_point> profile_outline(const screw::Thread& thread, double from, int turns,
                                          double floor);

// Half of a part cut along the axis of its thread: closed between the thread and height `outside`
// above the axis (negative: the half below), from 0 to `length`.
std::vector<fettle_point> tapped_half(const screw::Thread& thread, double length, double outside);

// A ring with a thread on its outside and one in its inside, cut: the half above the axis, or the
// one below.
std::vector<fettle_point> ring_half(const screw::Thread& outer, const screw::Thread& inner,
                                    double length, bool above);

} // namespace fettle::thread
