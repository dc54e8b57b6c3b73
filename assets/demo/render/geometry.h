// Points, colours and placements of the demo renderer. Lengths are millimetres, angles radians;
// x runs right over the bench, y away from the viewer, z up. Knows nothing of pictures or parts.
#pragma once

#include <algorithm>
#include <cmath>

namespace fettle::demo {

inline constexpr float kPi = 3.14159265f;

struct Vec2 {
    float x = 0, y = 0;
};
inline Vec2 operator+(Vec2 a, Vec2 b) {
    return {a.x + b.x, a.y + b.y};
}
inline Vec2 operator-(Vec2 a, Vec2 b) {
    return {a.x - b.x, a.y - b.y};
}
inline Vec2 operator*(Vec2 a, float k) {
    return {a.x * k, a.y * k};
}
inline float length(Vec2 a) {
    return std::sqrt(a.x * a.x + a.y * a.y);
}

// Also a linear RGB colour: x red, y green, z blue.
struct Vec3 {
    float x = 0, y = 0, z = 0;
};
using Rgb = Vec3;
inline Vec3 operator+(Vec3 a, Vec3 b) {
    return {a.x + b.x, a.y + b.y, a.z + b.z};
}
inline Vec3 operator-(Vec3 a, Vec3 b) {
    return {a.x - b.x, a.y - b.y, a.z - b.z};
}
inline Vec3 operator*(Vec3 a, Vec3 b) {
    return {a.x * b.x, a.y * b.y, a.z * b.z};
}
inline Vec3 operator*(Vec3 a, float k) {
    return {a.x * k, a.y * k, a.z * k};
}
inline float dot(Vec3 a, Vec3 b) {
    return a.x * b.x + a.y * b.y + a.z * b.z;
}
inline Vec3 cross(Vec3 a, Vec3 b) {
    return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
inline Vec3 normalised(Vec3 a) {
    return a * (1.0f / std::sqrt(std::max(dot(a, a), 1e-12f)));
}

inline float mix(float a, float b, float t) {
    return a + (b - a) * t;
}
inline Vec3 mix(Vec3 a, Vec3 b, float t) {
    return a + (b - a) * t;
}
inline float clamp01(float v) {
    return std::clamp(v, 0.0f, 1.0f);
}
// 0 below lo, 1 above hi, smooth between; lo > hi turns it round.
inline float smooth(float lo, float hi, float v) {
    const float t = clamp01((v - lo) / (hi - lo));
    return t * t * (3 - 2 * t);
}

// Where something lies on the bench: foot height z, turned by angle anticlockwise seen from above.
struct Placement {
    float x = 0, y = 0, z = 0, angle = 0;

    Vec2 to_local(Vec2 world) const {
        const float c = std::cos(angle), s = std::sin(angle), dx = world.x - x, dy = world.y - y;
        return {dx * c + dy * s, dy * c - dx * s};
    }
    Vec2 to_world(Vec2 local) const {
        const float c = std::cos(angle), s = std::sin(angle);
        return {x + local.x * c - local.y * s, y + local.x * s + local.y * c};
    }
    // A placement given in this one's own coordinates, seen from the bench.
    Placement of(Placement inner) const {
        const Vec2 p = to_world({inner.x, inner.y});
        return {p.x, p.y, z + inner.z, angle + inner.angle};
    }
};

} // namespace fettle::demo
