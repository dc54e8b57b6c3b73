// Measuring in a picture: distances against something whose true size is known, with how sure they
// are.
//
// Known is either a length between two points, which holds for what lies as far from the camera and
// square to it; or a rectangle by its four corners, which settles the whole plane it lies in,
// however slanted it is seen (homography, photos/plane_map.h). The figure's uncertainty is that of
// all points clicked and of the known sizes, propagated to the first order (JCGM 100:2008, 5.1.2)
// with the slopes found by moving each by its own uncertainty (5.1.3, note 2). What lies nearer to
// the camera than the plane, and what the lens bends, is not in it.
// Lengths in metres, points in pixels of the upright picture. Pure; any thread.
#pragma once

#include "base/result.h"

#include <array>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace fettle::photos {

struct ClickedPoint {
    double x = 0, y = 0;
    double sure = 1; // standard uncertainty of either coordinate, pixels of the picture
    bool operator==(const ClickedPoint&) const = default;
};
// Of a click at so many screen pixels a pixel of the picture: one pixel of the screen, and the
// picture's own pixel, within which nothing can be told (rectangular, JCGM 100:2008, F.2.2.1).
double sure_of_click(double zoom);

struct KnownSize {
    std::string typed; // "5/16 in", "25 ± 0.1 mm"
    double metres = 0;
    double within = 0; // half the width it lies in, all of it equally likely
    bool operator==(const KnownSize&) const = default;
    double standard() const; // JCGM 100:2008, 4.3.7
};
// A length with what follows ± or +- as its limits, else with half its last decimal place; a bare
// number is in inches. Refused (invalid): what is no length, zero and less, limits as large as the
// length. `what` names the field: "known length".
Result<KnownSize> parse_known_size(std::string_view text, std::string_view what);

struct KnownLength {
    std::array<ClickedPoint, 2> ends;
    KnownSize length;
    bool operator==(const KnownLength&) const = default;
};
// The corners round the rectangle, either way; `width` from the first to the second.
struct KnownRectangle {
    std::array<ClickedPoint, 4> corners;
    KnownSize width, height;
    bool operator==(const KnownRectangle&) const = default;
};
using KnownInPicture = std::variant<KnownLength, KnownRectangle>;

// Refused (invalid): points on one spot, corners in a line or not going round a rectangle.
Done check_known(const KnownInPicture& known);

using Distance = std::array<ClickedPoint, 2>;
struct MeasuredDistance {
    double metres = 0;
    double standard = 0;                             // combined standard uncertainty, metres
    double expanded() const { return 2 * standard; } // k = 2: about 95 of 100 lie within
};
// Refused like check_known, and when the ends lie on one spot or beyond the plane's horizon.
Result<MeasuredDistance> measure(const KnownInPicture& known, const Distance& distance);

// "31.4 ± 0.6 mm" in a unit of length: the uncertainty expanded and rounded up to one digit, two
// when it begins with 1 or 2, the figure to the same place (JCGM 100:2008, 7.2.6).
std::string in_words(const MeasuredDistance& measured, std::string_view unit);

// What stands beside every figure.
inline constexpr const char* kPlaneCaution =
    "Right only for what lies in the plane of what is known: what stands h nearer to a camera D "
    "away comes out too long by h in D - h, 10 mm at 500 mm by 2 %. Bending by the lens is not "
    "counted.";

// As kept with the photo: {"length": {size}, "points": [[x, y, sure], ...]} or {"width": {size},
// "height": {size}, "points": ...}, size {"typed", "metres", "within"}; and a list of [from, to].
// Reading refuses (damaged) what does not hold together.
std::string to_json(const KnownInPicture& known);
Result<KnownInPicture> known_from_json(std::string_view text);
std::string to_json(const std::vector<Distance>& distances);
Result<std::vector<Distance>> distances_from_json(std::string_view text);

} // namespace fettle::photos
