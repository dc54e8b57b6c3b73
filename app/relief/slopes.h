// The heart of the room: how steep a part is at each pixel, and how bright of itself, from photos
// whose light came from known sides.
//
// A matt surface sends back light in proportion to its albedo and to the cosine between its normal
// and the direction of the light (Lambert), so three readings give both (R. J. Woodham, Optical
// Engineering 19(1), 1980, pp. 139-144, equations 12 to 16), more give them in the least squares.
// Readings that do not fit are left out: too dark for the rest they lie in a shadow, too bright in
// a glint, and where a colour is at its limit nothing is known. The fit that tells begins from the
// least sum of sizes (weights 1 / |what is left over|, Holland and Welsch, Comm. Statistics A6,
// 1977) and leaves out what is then off by more than 3 of the robust standard deviations (1.4826 of
// the median size) or 2 % of the brightest reading that counts.
// Counted on is light from far away and the same all over; a torch nearer than ten times the width
// of the region makes the relief hollow or humped as a whole and leaves what is small true.
#pragma once

#include "relief/register.h"
#include "relief/shot.h"
#include "relief/work.h"

#include <span>
#include <vector>

namespace fettle::relief {

inline constexpr int kLeastShots = 4, kMostShots = 24;
// Slopes are held to this: beyond, a surface is seen from its side and its readings say little.
inline constexpr float kMostSlope = 10;

// From where the light of a shot came, and how strong it was beside the others (1 on the mean).
struct Light {
    Direction towards;
    double strength = 1;
};

struct Readings {
    std::size_t all = 0;     // of all pixels and photos
    std::size_t dark = 0;    // left out: shadows
    std::size_t bright = 0;  // glints
    std::size_t clipped = 0; // at the limit
    std::size_t outside = 0; // a photo that moved does not show it
    std::size_t dropped() const { return dark + bright + clipped + outside; }
};

struct Slopes {
    Grid right, down; // rise a pixel to the right and downwards; the normal is (-right, -down, 1)
    Grid albedo;      // 1: a white surface under light of strength 1 was as bright as can be
    Readings readings;
    std::size_t unknown = 0; // pixels with too few readings: taken as flat
};

// Whether a set can be worked out at all, as slopes_of() asks before it begins.
Done check_set(std::span<const Shot> shots, std::size_t lights, std::size_t poses,
               const Rectangle& part);

// `poses` as aligned() gives them; `part` of the first shot is worked out, and has the size of what
// is given. Refused (invalid): fewer or more shots than a set has, of several sizes, another number
// of lights or poses, a part not within the first shot, lights that all lie in one plane with the
// camera or come from one side. Fails with cancelled.
Result<Slopes> slopes_of(std::span<const Shot> shots, std::span<const Light> lights,
                         std::span<const Pose> poses, const Rectangle& part, const Work& work = {});

} // namespace fettle::relief
