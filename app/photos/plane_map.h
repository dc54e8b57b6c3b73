// Maps of one plane onto another, found from points that match: two photos laid on each other, or a
// photo and the flat thing it shows.
//
// Similarity (2 pairs or more): turned, moved, sized. Affine (3 or more): sheared as well.
// Homography (4 or more): seen from elsewhere (Hartley and Zisserman, Multiple View Geometry, 2nd
// ed., sections 2.4 and 4.1). More pairs than needed are met in the least squares: of the distances
// for the first two, of the algebraic error of normalised coordinates for the last (alg. 4.2).
// Pure; units are the caller's, pixels as a rule.
#pragma once

#include "base/result.h"

#include <array>
#include <span>
#include <string>

namespace fettle::photos {

struct PlanePoint {
    double x = 0, y = 0;
    bool operator==(const PlanePoint&) const = default;
};

struct PointPair {
    PlanePoint from, to;
};

// Homogeneous, row by row: x' = (m0 x + m1 y + m2) / (m6 x + m7 y + m8), y' alike. As made here,
// the last number is 1 or -1 wherever the origin is not on the horizon.
struct PlaneMap {
    std::array<double, 9> m{1, 0, 0, 0, 1, 0, 0, 0, 1};

    // Not finite on the horizon of a homography.
    PlanePoint operator()(PlanePoint point) const;
    // Positive on the side of the horizon that the matched points are on.
    double depth(PlanePoint point) const { return m[6] * point.x + m[7] * point.y + m[8]; }
    bool is_affine() const { return m[6] == 0 && m[7] == 0; }
};

// First `first`, then `second`.
PlaneMap after_each_other(const PlaneMap& first, const PlaneMap& second);
// Precondition: the map can be undone, as all that are found below can.
PlaneMap undone(const PlaneMap& map);

// What a plane is called in a refusal, and how near points of it count as one spot.
struct PlaneSide {
    std::string name;
    double least_apart = 0;
};
struct PlaneSides {
    PlaneSide from{"the first picture", 2}, to{"the second picture", 2};
};

enum class PlaneKind { similarity, affine, homography };
std::size_t pairs_needed(PlaneKind kind);

// Refused (invalid): too few pairs, points on one spot, three in a line (nearer to it than a
// hundredth of their distance), four in another order on one side than on the other.
Result<PlaneMap> map_by_points(PlaneKind kind, std::span<const PointPair> pairs,
                               const PlaneSides& sides = {});

// The kind that so many pairs settle: similarity from two, affine from three, homography from four.
PlaneKind kind_settled_by(std::size_t pairs);

// How far the mapped points of `from` lie from `to`.
struct Misses {
    double typical = 0; // root of the mean square
    double worst = 0;
    std::size_t worst_at = 0; // pair, from 0
};
Misses misses_of(const PlaneMap& map, std::span<const PointPair> pairs);

} // namespace fettle::photos
