#include "noise.h"
#include "parts.h"

namespace fettle::demo {

namespace {

Vec2 around(Vec2 p, int count, float turn, float radius) {
    const float step = 2 * kPi / static_cast<float>(count), r = length(p);
    const float a = std::remainder(std::atan2(p.y, p.x) - turn, step);
    return {r * std::cos(a) - radius, r * std::sin(a)};
}

constexpr float kTeeth = 43, kOuter = 104, kToe = 72;

// Spiral bevel teeth over the cone of the wheel.
float tooth(Vec2 p, float r) {
    const float curl = 0.0085f * (r - kToe) + 0.00006f * (r - kToe) * (r - kToe);
    const float across = std::cos(kTeeth * (std::atan2(p.y, p.x) + curl));
    const float depth = 0.115f * (r - kToe) * 0.6f + 5.6f;
    return depth * smooth(-0.62f, 0.42f, across) - 0.25f * smooth(0.3f, 1.0f, across);
}

} // namespace

void crown_wheel(Scene& scene, Placement at, int teeth, int body,
                 const std::vector<Stamped>& stamps) {
    scene.add(at, {kOuter + 2, kOuter + 2}, [=](Vec2 p) -> Top {
        const float r = length(p);
        if (r > kOuter || r < 33) return {};
        if (r > kToe) {
            const float cone = 33 - 0.42f * (r - kToe);
            const float rim = r > kOuter - 1 ? 0.8f : 0.0f;
            return {cone + tooth(p, r) - rim, teeth};
        }
        const Vec2 hole = around(p, 10, 0.2f, 53);
        const float bolt = std::min(raised(hexagon(hole, 15), 8, 0.6f),
                                    8 + std::min((7.2f - length(hole)) * 0.5f, 0.0f));
        float h = 26 - 2.5f * smooth(69.0f, 68.2f, r) + 6 * smooth(43.0f, 41.0f, r);
        if (bolt > 0) return {h + bolt, body};
        h -= 0.6f * smooth(11.0f, 10.5f, length(hole)) * (r < 68 ? 1.0f : 0.0f);
        return {h + struck(stamps, p), r > 68 ? teeth : body};
    });
}

// The open back of the axle: a flange with studs round the hole one works through.
void axle_housing(Scene& scene, Placement at, int body, int face) {
    scene.add(at, {420, 210}, [=](Vec2 p) -> Top {
        const float r = length(p);
        const float casing =
            blend(disc(p, 172), slab(p, {420, 62 - 0.05f * std::fabs(p.x)}, 10), 60);
        if (r < 128) return {r > 120 ? 0.0f + (r - 120) * 4 : -10.0f, body};
        const Vec2 hole = around(p, 10, 0.13f, 148);
        if (r < 164 && disc(hole, 4.6f) < 0) return {40, body};
        const float flange = raised(std::max(r - 164, 128 - r), 62, 1.2f);
        if (flange > 0) return {flange, face};
        const float bulge = 58 - 0.0016f * p.y * p.y;
        return {raised(casing + 0.5f * cloud({p.x, p.y, 0}, 25, 4, 7), bulge, 30), body};
    });
}

void pinion(Scene& scene, Placement at, int surface) {
    scene.add(at, {110, 40}, [=](Vec2 p) -> Top {
        if (std::fabs(p.x) > 105) return {};
        if (p.x < -40) { // the toothed head, a cone
            const float r = 24 + (-40 - p.x) * 0.2f;
            if (p.x < -88 || std::fabs(p.y) > r) return {};
            const float phi = std::asin(p.y / r);
            const float teeth = smooth(-0.5f, 0.5f, std::cos(9 * phi + 0.035f * p.x));
            return {38 + std::sqrt(r * r - p.y * p.y) - 6.5f * (1 - teeth), surface};
        }
        const float r = p.x < -8 ? 20.0f : p.x < 60 ? 17.5f : 13.0f;
        float h = round_top(p.y, r) + 38 - r;
        if (p.x > 20 && p.x < 58 && h > 0)
            h -= 1.6f *
                 smooth(-0.2f, 0.2f, std::cos(14 * std::asin(std::clamp(p.y / r, -1.0f, 1.0f))));
        if (p.x > 78 && h > 0) h -= 0.9f * std::fabs(std::remainder(p.x, 1.8f));
        return {h, surface};
    });
}

} // namespace fettle::demo
