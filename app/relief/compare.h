// Whether two stampings came from one punch: their reliefs laid on each other, and a figure.
#pragma once

#include "relief/register.h"
#include "relief/torch_set.h"

namespace fettle::relief {

struct CompareWish {
    double radius = 24;            // about as wide as the letters of the first, pixels
    double most_turn_degrees = 15; // looked for either way
    double most_scale = 1.1;       // larger or smaller by this factor
    bool operator==(const CompareWish&) const = default;
};

struct Alike {
    Pose pose;          // how the second lies on the first
    double figure = 0;  // normalised correlation there, -1 to 1
    double overlap = 0; // share of the first that the second covers
};

// The heights without what is much larger or finer than letters (the difference of two
// Gaussians of 0.12 and 0.6 of the radius), so that neither the part's own shape nor its grain
// counts, laid on each other where their correlation coefficient is greatest, and that coefficient.
// Only where both overlap by 40 % or more of the first is looked. What it means: see kLikely and
// kUnlikely. Refused (invalid): reliefs of less than 32 pixels, radius below 2 or over a third of a
// side, angles beyond 45 degrees, scales outside 1 to 2. Fails with cancelled.
Result<Alike> alike(const Grid& one, const Grid& other, const CompareWish& wish = {},
                    const Work& work = {});

// What a figure means, as far as it was measured: `relief_campaign pairs 8 20261127`, stampings of
// five letters of 60 pixels, worn, stained, on rough ground, each worked out of eight photos:
//   one punch, other ground and wear   0.49 to 0.85, half of them over 0.74
//   another punch                      0.28 to 0.51, half of them over 0.38
//   one of the five letters other      0.62 to 0.77
// Over kLikely it is one punch or one much like it, below kUnlikely another one; between them, and
// for punches that differ in a letter or less, the figure does not decide: look at both. Synthetic
// pairs, eight of each: worn metal may behave otherwise.
inline constexpr double kLikely = 0.6, kUnlikely = 0.45;

} // namespace fettle::relief
