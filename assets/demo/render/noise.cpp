#include "noise.h"

namespace fettle::demo {

namespace {

// Cosine and sine of 0.7, 1.4, 2.1 ... radians.
constexpr float kTurnCos[7] = {0.7648f, 0.1700f, -0.5048f, -0.9422f, -0.9365f, -0.4903f, 0.1865f};
constexpr float kTurnSin[7] = {0.6442f, 0.9854f, 0.8632f, 0.3350f, -0.3508f, -0.8716f, -0.9825f};
constexpr uint32_t kX = 0x9e3779b1u, kY = 0x85ebca77u, kZ = 0xc2b2ae3du;

inline float scramble(uint32_t h) {
    h ^= h >> 16;
    h *= 0x7feb352du;
    h ^= h >> 15;
    h *= 0x846ca68bu;
    return static_cast<float>((h ^ (h >> 16)) >> 8) * (1.0f / 16777216.0f);
}

inline float ease(float t) {
    return t * t * (3 - 2 * t);
}

} // namespace

float chance(int32_t x, int32_t y, int32_t z, uint32_t seed) {
    return scramble(static_cast<uint32_t>(x) * kX + static_cast<uint32_t>(y) * kY +
                    static_cast<uint32_t>(z) * kZ + seed * 0x27d4eb2fu);
}

float value_noise(Vec3 p, uint32_t seed) {
    const float fx = std::floor(p.x), fy = std::floor(p.y), fz = std::floor(p.z);
    const uint32_t corner = static_cast<uint32_t>(static_cast<int32_t>(fx)) * kX +
                            static_cast<uint32_t>(static_cast<int32_t>(fy)) * kY +
                            static_cast<uint32_t>(static_cast<int32_t>(fz)) * kZ +
                            seed * 0x27d4eb2fu;
    const float u = ease(p.x - fx), v = ease(p.y - fy), w = ease(p.z - fz);
    const auto plane = [&](uint32_t h) {
        const float low = mix(scramble(h), scramble(h + kX), u);
        const float high = mix(scramble(h + kY), scramble(h + kX + kY), u);
        return mix(low, high, v);
    };
    return 2 * mix(plane(corner), plane(corner + kZ), w) - 1;
}

float cloud(Vec3 p, float coarse, float fine, uint32_t seed) {
    float sum = 0, weight = 1, square = 0;
    uint32_t octave = 0;
    for (float wave = coarse; wave > fine && octave < 7; wave *= 0.47f, ++octave) {
        // Turning each octave a little hides the lattice that value noise lies on.
        const float c = kTurnCos[octave], s = kTurnSin[octave];
        const Vec3 q = {(p.x * c - p.y * s) / wave, (p.x * s + p.y * c) / wave, p.z / wave};
        sum += weight * value_noise(q, seed + octave * 101u);
        square += weight * weight;
        weight *= 0.58f;
    }
    return square > 0 ? std::clamp(sum / std::sqrt(square) * 1.1f, -1.2f, 1.2f) : 0;
}

float pits(Vec3 p, float size, float share, uint32_t seed) {
    const float px = p.x / size, py = p.y / size, pz = p.z / size;
    const auto ix = static_cast<int32_t>(std::floor(px)), iy = static_cast<int32_t>(std::floor(py)),
               iz = static_cast<int32_t>(std::floor(pz));
    float deepest = 0;
    for (int32_t dy = -1; dy <= 1; ++dy)
        for (int32_t dx = -1; dx <= 1; ++dx) {
            const int32_t cx = ix + dx, cy = iy + dy;
            if (chance(cx, cy, iz, seed) > share) continue;
            const float ox = static_cast<float>(cx) + chance(cx, cy, iz, seed + 1) - px;
            const float oy = static_cast<float>(cy) + chance(cx, cy, iz, seed + 2) - py;
            const float radius = 0.25f + 0.7f * chance(cx, cy, iz, seed + 3);
            deepest = std::max(deepest, 1 - std::sqrt(ox * ox + oy * oy) / radius);
        }
    return deepest;
}

} // namespace fettle::demo
