// Laying one grid on another: a first guess by Fourier transforms, then steps of Gauss and Newton.
#pragma once

#include "relief/grid.h"

#include <array>

namespace fettle::relief {

// How a grid lies on another one, its reference: what stands at a point of the reference stands in
// it at middle + scale * turned(point - middle) + (x, y), turned by `turn` clockwise, about the
// middle of the reference.
struct Pose {
    double x = 0, y = 0; // pixels
    double turn = 0;     // radians
    double scale = 1;
    bool operator==(const Pose&) const = default;
};

// The same as a map: (a u - b v + x, b u + a v + y) of the reference's (u, v).
struct PoseMap {
    double a = 1, b = 0, x = 0, y = 0;

    PoseMap(const Pose& pose, double middle_x, double middle_y);
    Point operator()(double u, double v) const { return {a * u - b * v + x, b * u + a * v + y}; }
};

// Of two grids that both lie on a third: how the one lies on the other.
Pose relative(const Pose& of, const Pose& to);

enum class Freedom { shift, similarity };

struct Laid {
    Pose pose;
    double alike = 0;   // correlation coefficient of what overlaps, -1 to 1
    double overlap = 0; // share of the reference that the other one covers
};

// The shift at which phase correlation is greatest, whole samples, up to half the size each way.
// Precondition: both of one size.
Pose coarse_shift(const Grid& still, const Grid& moved);

// From a pose a sample or two off to where the squares of differences are least, gain and offset
// set free (Lucas and Kanade 1981; the inverse compositional form of Baker and Matthews, IJCV 56,
// 2004).
Laid refined(const Grid& still, const Grid& moved, Pose start, Freedom freedom);

// Correlation and overlap at a pose as it stands.
Laid judged(const Grid& still, const Grid& moved, const Pose& pose);

// The grid as its reference sees it; `beyond` where it does not reach.
Grid posed(const Grid& moved, const Pose& pose, int width, int height, float beyond = 0);

// Of grids shrunk by `by`, for those they were made of.
Pose enlarged(const Pose& pose, const Grid& still, int by);
Pose reduced(const Pose& pose, const Grid& still, int by);

} // namespace fettle::relief
