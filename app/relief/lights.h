// The lights of a set: how strong each was where its direction is known, and both where nothing is.
#pragma once

#include "relief/slopes.h"

namespace fettle::relief {

// The photos in small, each as the first one sees it: what lights are worked out on.
struct SmallSet {
    std::vector<Grid> light; // 0 to 1; -1 where a photo does not reach
    int by = 1;              // pixels of the photos a sample
};
SmallSet small_set(std::span<const Shot> shots, std::span<const Pose> poses, const Rectangle& part,
                   int most_side);

// Strengths of lights from known directions, their mean 1: a hand holds a torch now nearer, now
// further. Those by which the photos' factors (see below) come to these directions, in the least
// squares; all 1 where the part is too flat to tell.
std::vector<Light> with_strengths(const SmallSet& set, std::span<const Direction> towards);

// Lights of which nothing is known but that they were about equally strong.
//
// The readings of all pixels are of rank 3 but for shadows and glints: lights times albedo times
// normals, up to a matrix of 3 by 3 (Hayakawa, J. Opt. Soc. Am. A 11, 1994). That the slopes are
// those of one surface settles it up to a generalised bas-relief (Belhumeur, Kriegman and Yuille,
// IJCV 35(1), 1999, section 2; the linear form with crossed derivatives is that of Yuille and Snow,
// CVPR 1997), and that the lights are equally strong settles most of the rest. What stays open:
//   - whether the part is struck in or raised, with all lights on the opposite side: always;
//   - how steep it is as a whole, unless the torch was held at several heights;
//   - how it leans, as good as always on a part that is nearly flat: it is held to face the camera.
// A slider each (look.h): turned over, slope, lean.
struct UnknownLights {
    std::vector<Light> lights;
    bool slope_settled = false; // the heights of the torch differ enough to tell how steep it is
};
// Refused (invalid): fewer than 4 photos, and photos whose light says too little: flat and without
// change, or the torch always at one place.
Result<UnknownLights> unknown_lights(const SmallSet& set);

} // namespace fettle::relief
