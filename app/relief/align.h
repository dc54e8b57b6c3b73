// Bringing photos of one set that moved a little between them onto each other.
//
// Light from another side turns edges from bright to dark, so brightness itself does not match.
// What is matched is where brightness changes, whichever way: the size of its slope, relative to
// the brightness around. First each photo on the first one, then each on the mean of the others,
// in which no light prevails. Deep grooves in hard shadow remain a little off: by 0.1 pixels in the
// middling case and 0.2 at worst over the tests' scenes (tests/relief/align_test.cpp).
#pragma once

#include "base/result.h"
#include "relief/register.h"
#include "relief/shot.h"
#include "relief/work.h"

#include <span>
#include <vector>

namespace fettle::relief {

// Steps are refined on pictures of this many samples a side or less: what remains of an error is a
// small part of a sample there, and of a pixel.
inline constexpr int kAlignSide = 600;
// A photo that agrees less with the others is not of the set (common practice, no source).
inline constexpr double kLeastAlike = 0.15;

// Poses of all shots on the first, whose own is that of no change. Turned by 3 degrees, sized by 3
// % and moved by a third of a side at most. Refused (invalid): shots of several sizes, and one that
// cannot be laid on the others, naming it by its number. Fails with cancelled.
Result<std::vector<Pose>> aligned(std::span<const Shot> shots, Freedom freedom,
                                  const Work& work = {});

// What is matched, for the tests: `sigma` samples of smoothing.
Grid edges_of(const Grid& light, double sigma);

} // namespace fettle::relief
