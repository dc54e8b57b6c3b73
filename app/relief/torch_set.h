// A torch set as a whole: from photos of one unmoved part, lit from several sides, to its relief.
//
//   1. aligned() lays the photos on the first (align.h);
//   2. the lights: from a ball by light_from_ball() (ball.h), or unknown;
//   3. relief_of(): strengths or whole lights (lights.h), slopes and albedo (slopes.h), heights
//      (height.h);
//   4. picture_of() shows it (look.h), alike() lays two on each other (compare.h).
//
// All of it works on any thread, with several of its own (Work), and holds at its most 2 bytes a
// pixel and photo, and 24 a pixel of the region or (while photos are laid) 6 MB a photo besides.
#pragma once

#include "relief/lights.h"
#include "relief/slopes.h"

#include <optional>

namespace fettle::relief {

struct Relief {
    Grid right, down; // slopes, rise a pixel
    Grid albedo;      // 1: the brightest there is under light of strength 1
    Grid height;      // pixels, mean 0, towards the camera
    std::vector<Light> lights;
    std::vector<Pose> poses;
    bool lights_known = false;  // by a ball
    bool slope_settled = false; // else only its shape is known, not how steep it is: lights.h
    Readings readings;
    std::size_t unknown = 0; // pixels without enough readings
};

// `part` is a region of the first shot. `towards`: the directions of the lights, one a shot, or
// nothing; then of the two reliefs that the photos allow it is the one whose small parts are struck
// in, as in a stamping.
// Refused (invalid): what slopes_of() and unknown_lights() refuse. Fails with cancelled.
Result<Relief> relief_of(std::span<const Shot> shots, const std::vector<Pose>& poses,
                         const Rectangle& part,
                         const std::optional<std::vector<Direction>>& towards,
                         const Work& work = {});

// Turned over: what was raised is struck in, and the lights stood on the opposite side.
void turn_over(Relief& relief);

} // namespace fettle::relief
