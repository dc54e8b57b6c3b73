// Two photos that show the same thing, laid on each other by points that match: before and after.
// What map follows from the points is photos/plane_map.h's business.
#pragma once

#include "notebook/notebook.h"
#include "notebook/words.h"

#include <vector>

namespace fettle {

inline constexpr std::size_t kMostMatchingPoints = 4;

// Pixels of the upright pictures, fractions allowed.
struct MatchingPoint {
    double x = 0, y = 0;           // in the photo
    double onto_x = 0, onto_y = 0; // the same spot in the one it is laid onto
    bool operator==(const MatchingPoint&) const = default;
};

struct PhotoPair {
    PhotoId photo, onto;
    std::vector<MatchingPoint> points;
};

// Replaces what was kept of the two, whichever lay on the other; no points: nothing is kept any
// more. Refused: a photo onto itself, more than kMostMatchingPoints, a point outside its picture.
Done keep_photo_pair(Notebook& notebook, const PhotoPair& pair);
// In the order asked for, whichever way round it was kept; without points when none are kept.
Result<PhotoPair> photo_pair(const Notebook& notebook, PhotoId photo, PhotoId onto);

} // namespace fettle
