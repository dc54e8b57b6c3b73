#include "noise.h"
#include "surfaces.h"

namespace fettle::demo {

namespace {

// Scale lifts in sheets: a cloud cut into two levels with crumbling edges.
float flakes(Vec3 at, float wave, float finest, uint32_t seed) {
    const float v = cloud(at, wave, finest, seed) + 0.35f * cloud(at, wave / 6, finest, seed + 5);
    return smooth(-0.08f, 0.02f, v) + smooth(0.45f, 0.52f, v);
}

float rust_relief(const Surface& s, Vec3 at, float finest) {
    const float depth = 0.35f + 0.65f * s.amount;
    float h = 0.10f * cloud(at, 5, finest, s.seed) + 0.045f * cloud(at, 1.1f, finest, s.seed + 3);
    h += 0.12f * s.amount * flakes(at, 14, finest, s.seed + 9);
    h -= 0.22f * pits(at, 2.6f, 0.45f * s.amount, s.seed + 17);
    if (finest < 0.5f) h -= 0.12f * pits(at, 1.1f, 0.5f * s.amount, s.seed + 23);
    return h * depth;
}

float paint_relief(const Surface& s, Vec3 at, float finest) {
    const float v = cloud(at, 22, finest, s.seed) + 0.5f * cloud(at, 4, finest, s.seed + 7);
    const float kept = smooth(1.1f - 2.2f * s.amount - 0.03f, 1.1f - 2.2f * s.amount + 0.03f, v);
    return mix(rust_relief(s, at, finest) - 0.14f, 0.02f * cloud(at, 8, 1.5f, s.seed + 31), kept);
}

float turned_relief(const Surface& s, Vec3 at) {
    const float r = length(s.frame.to_local({at.x, at.y}));
    const Vec3 line = {r * 2.2f, 0.5f, 0.5f}, fine = {r * 7, 1.5f, 0.5f};
    return 0.010f * value_noise(line, s.seed) + 0.005f * value_noise(fine, s.seed + 1);
}

float machined_relief(const Surface& s, Vec3 at) {
    const Vec2 p = s.frame.to_local({at.x, at.y});
    return 0.005f * value_noise({p.x * 0.05f, p.y * 3.1f, at.z}, s.seed) +
           0.003f * value_noise({p.x * 0.12f, p.y * 8, at.z}, s.seed + 1);
}

float wood_relief(const Surface& s, Vec3 at, float finest) {
    const Vec2 p = s.frame.to_local({at.x, at.y});
    const float board = std::floor(p.y / 118);
    const Vec3 grain = {p.x * 0.03f, p.y * 0.9f, board * 7};
    float h =
        0.10f * cloud(grain, 1.6f, 0.1f, s.seed) + 0.3f * cloud({p.x, p.y, 0}, 60, 8, s.seed + 2);
    const float gap = std::fabs(p.y - (board + 0.5f) * 118);
    h -= 2.5f * smooth(58.0f, 59.0f, gap);
    for (uint32_t i = 0; i < 3; ++i) { // knife and saw scars
        const float turn = 0.6f + 0.9f * static_cast<float>(i);
        const float u = p.x * std::cos(turn) + p.y * std::sin(turn);
        const float v = p.y * std::cos(turn) - p.x * std::sin(turn);
        const float line = std::fabs(value_noise({u * 0.005f, v * 0.045f, 3.7f}, s.seed + 40 + i));
        const float there =
            smooth(0.35f, 0.6f, value_noise({u * 0.02f, v * 0.02f, 9}, s.seed + 60 + i));
        h -= 0.35f * there * smooth(0.02f, 0.0f, line);
    }
    return h + 0.03f * cloud({p.x * 0.2f, p.y, 0}, 1.2f, finest, s.seed + 3);
}

float concrete_relief(const Surface& s, Vec3 at, float finest) {
    return 0.5f * cloud(at, 30, 3, s.seed) + 0.12f * cloud(at, 2.5f, finest, s.seed + 1) -
           0.5f * pits(at, 5, 0.10f, s.seed + 2);
}

} // namespace

float relief(const Surface& s, Vec3 at, float finest) {
    switch (s.finish) {
    case Finish::rusty:
        return rust_relief(s, at, finest);
    case Finish::forged:
        return 0.6f * rust_relief(s, at, finest) + 0.12f * cloud(at, 18, 3, s.seed + 71);
    case Finish::old_paint:
        return paint_relief(s, at, finest);
    case Finish::blasted: // the pits stay when the rust has gone
        return 0.55f * rust_relief(s, at, std::max(finest, 1.0f)) +
               0.022f * cloud(at, 0.7f, finest * 0.7f, s.seed + 50);
    case Finish::red_oxide:
        return 0.35f * rust_relief(s, at, 1.5f) + 0.012f * cloud(at, 1.2f, finest, s.seed + 50);
    case Finish::enamel:
        return 0.25f * rust_relief(s, at, 4) + 0.006f * cloud(at, 3, 1, s.seed + 50);
    case Finish::cast:
        return 0.07f * cloud(at, 1.8f, finest, s.seed) + 0.1f * cloud(at, 9, 2, s.seed + 1);
    case Finish::greased:
        return 0.25f * rust_relief(s, at, 1) + 0.05f * cloud(at, 12, 2, s.seed + 1);
    case Finish::turned:
        return turned_relief(s, at);
    case Finish::machined:
        return machined_relief(s, at);
    case Finish::wood:
        return wood_relief(s, at, finest);
    case Finish::concrete:
        return concrete_relief(s, at, finest);
    case Finish::cardboard:
        return 0.06f * std::sin(s.frame.to_local({at.x, at.y}).x * 0.95f) +
               0.25f * cloud(at, 50, 5, s.seed) + 0.01f * cloud(at, 1.5f, finest, s.seed + 1);
    case Finish::paper:
        return 0.012f * cloud(at, 1.5f, finest, s.seed) + 0.25f * cloud(at, 60, 15, s.seed + 1);
    case Finish::rubber:
    case Finish::lacquer:
        return 0.004f * cloud(at, 1.5f, finest, s.seed);
    }
    return 0;
}

} // namespace fettle::demo
