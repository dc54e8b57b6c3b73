// Where the torch stood, told by its highlight on a shiny ball that lies beside the part.
//
// A mirror ball shows the light where its normal halves the angle between the light and the camera:
// L = 2 (n . v) n - v, v = (0, 0, 1) for a camera far away against the ball's size; n follows from
// where on the disc the highlight stands. (The law of reflection; as a way of calibrating
// photometric stereo it is common practice.) An error of e in the place of the highlight turns L by
// about 2 e / radius: on a ball of 50 pixels' radius 1 pixel counts 2.3 degrees.
#pragma once

#include "base/result.h"
#include "relief/grid.h"
#include "relief/work.h"

#include <optional>
#include <span>
#include <vector>

namespace fettle::relief {

struct Ball {
    double x = 0, y = 0, radius = 0; // pixels
    bool operator==(const Ball&) const = default;
};

inline constexpr double kLeastBall = 8; // radius in pixels; smaller ones tell too little

// One photo's light (0 to 1) with the ball as it lies in it; may be a part of the photo.
struct BallView {
    Grid light;
    Ball ball;
};

// The highlight's middle. Refused (invalid), naming the photo by its number from 0 on: a ball that
// is too small or does not lie within, no highlight on it, one that covers more than an eighth.
Result<Point> highlight_of(const BallView& view, std::size_t photo);

// From where the light came, of unit length. Refused as above, and when it came from less than 5
// degrees above the picture's plane.
Result<Direction> light_from_ball(const BallView& view, std::size_t photo);

// Looks for a ball in photos of one size: a circle whose edge stands out, with one highlight in
// each photo. The photos are looked at as they are given: shrunk to about 600 samples a side is
// enough, as its place is refined to a fraction of a sample. Refused (not_found) when there is none
// or none stands out, with the advice to circle it by hand. Fails with cancelled.
Result<Ball> find_ball(std::span<const Grid> photos, const Work& work = {});

} // namespace fettle::relief
