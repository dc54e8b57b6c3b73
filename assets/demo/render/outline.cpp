#include "outline.h"

namespace fettle::demo {

float slab(Vec2 p, Vec2 half, float corner) {
    const float dx = std::fabs(p.x) - half.x + corner, dy = std::fabs(p.y) - half.y + corner;
    const float outside = length({std::max(dx, 0.0f), std::max(dy, 0.0f)});
    return outside + std::min(std::max(dx, dy), 0.0f) - corner;
}

float segment(Vec2 p, Vec2 a, Vec2 b, float half_width) {
    const Vec2 along = b - a, from = p - a;
    const float t = clamp01((from.x * along.x + from.y * along.y) /
                            std::max(along.x * along.x + along.y * along.y, 1e-6f));
    return length(from - along * t) - half_width;
}

float hexagon(Vec2 p, float across_flats) {
    const float x = std::fabs(p.x), y = std::fabs(p.y);
    return std::max(y, x * 0.8660254f + y * 0.5f) - across_flats / 2;
}

float oval(Vec2 p, Vec2 half) {
    // Near the rim the first-order distance is true enough for a stamp or a rim.
    const float k = length({p.x / half.x, p.y / half.y});
    const float slope = length({p.x / (half.x * half.x), p.y / (half.y * half.y)});
    return slope > 1e-6f ? k * (k - 1) / slope : -std::min(half.x, half.y);
}

float diamond(Vec2 p, Vec2 half) {
    const float lean = half.x * half.y / length(half);
    return (std::fabs(p.x) / half.x + std::fabs(p.y) / half.y - 1) * lean;
}

Vec2 unbent(Vec2 p, float radius) {
    const float dx = p.x, dy = radius - p.y;
    const float angle = std::atan2(dx, dy * (radius > 0 ? 1.0f : -1.0f));
    const float r = length({dx, dy});
    return {angle * std::fabs(radius), radius > 0 ? radius - r : r + radius};
}

float blend(float a, float b, float round) {
    const float t = clamp01(0.5f + 0.5f * (b - a) / round);
    return mix(b, a, t) - round * t * (1 - t);
}

float raised(float distance, float height, float round) {
    if (distance >= 0) return kNothing;
    if (-distance >= round || round <= 0) return height;
    const float t = 1 + distance / round;
    return height - round * (1 - std::sqrt(std::max(1 - t * t, 0.0f)));
}

float round_top(float distance_from_axis, float radius) {
    const float square = radius * radius - distance_from_axis * distance_from_axis;
    return square > 0 ? radius + std::sqrt(square) : kNothing;
}

} // namespace fettle::demo
