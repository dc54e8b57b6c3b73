// Outlines seen from above as signed distances in millimetres (negative inside), and the height
// profiles raised on them. Knows nothing of surfaces or light.
#pragma once

#include "geometry.h"

namespace fettle::demo {

inline float disc(Vec2 p, float radius) {
    return length(p) - radius;
}
inline float ring(Vec2 p, float radius, float half_width) {
    return std::fabs(length(p) - radius) - half_width;
}
// A rectangle of half sizes, corners rounded.
float slab(Vec2 p, Vec2 half, float corner);
float segment(Vec2 p, Vec2 a, Vec2 b, float half_width);
float hexagon(Vec2 p, float across_flats);
float oval(Vec2 p, Vec2 half);
float diamond(Vec2 p, Vec2 half);
// A strip bent to a radius: x along, y across; bends towards +y when radius is positive.
Vec2 unbent(Vec2 p, float radius);

inline float join(float a, float b) {
    return std::min(a, b);
}
inline float cut(float a, float b) {
    return std::max(a, -b);
}
// Like join, with a fillet of about `round` where the two meet.
float blend(float a, float b, float round);

inline constexpr float kNothing = -1e6f;

// Height over an outline: flat at `height`, edge rounded; kNothing outside.
float raised(float distance, float height, float round);
// A cylinder or dome lying on its side; kNothing beyond the radius.
float round_top(float distance_from_axis, float radius);

} // namespace fettle::demo
