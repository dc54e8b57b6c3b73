#include "noise.h"
#include "parts.h"

namespace fettle::demo {

namespace {

// V thread along x, and its run-out; radius change in millimetres.
float thread_cut(float x, float y, float pitch) {
    const float turn = std::fabs(std::remainder(x + 0.25f * pitch * std::sin(y), pitch)) / pitch;
    return -1.1f * pitch * turn;
}

// Side of a hexagon lying on a flat, seen from above: one flat up, two falling away.
float hexagon_side(float y, float across_flats) {
    const float flat = across_flats / 2, corner = flat / 0.8660254f, side = corner / 2;
    const float v = std::fabs(y);
    if (v > corner) return kNothing;
    return v < side ? 2 * flat : 2 * flat - (v - side) * 1.7320508f;
}

} // namespace

void pin(Scene& scene, Placement at, const Pin& pin) {
    const float half = pin.length / 2, widest = std::max(pin.radius, pin.head_radius);
    scene.add(at, {half + 14, widest + 1}, [=](Vec2 p) -> Top {
        const float lift = widest - pin.radius;
        if (pin.head_radius > 0 && p.x < -half && p.x > -half - 12)
            return {round_top(p.y, pin.head_radius - 0.08f * std::max(-half - p.x - 9, 0.0f)),
                    pin.surface};
        if (std::fabs(p.x) > half) return {};
        float radius = pin.radius - 0.7f * std::max(std::fabs(p.x) - half + 1.5f, 0.0f);
        int surface = pin.surface;
        if (p.x > half - pin.thread_length) {
            radius += thread_cut(p.x, p.y, 1.8f);
            surface = pin.thread;
        }
        float h = round_top(p.y, radius) + pin.radius - radius;
        if (pin.notch > 0) // a flat for the cotter
            h = std::min(h, 2 * pin.radius -
                                pin.notch * smooth(9.0f, 7.5f, std::fabs(p.x - half * 0.15f)));
        if (pin.thread_length > 0) // grease groove
            h -= 1.1f * smooth(2.2f, 0.6f, std::fabs(p.x + half * 0.3f));
        return {h + lift + struck(pin.stamps, p), surface};
    });
}

void bolt(Scene& scene, Placement at, int surface, float d, float len) {
    const float flats = 1.6f * d, corner = flats / 1.7320508f, radius = d / 2;
    scene.add(at, {len / 2 + d, corner + 1}, [=](Vec2 p) -> Top {
        const float head = -len / 2;
        if (p.x < head && p.x > head - 0.65f * d) {
            const float chamfer = std::max(head - 0.65f * d + 1.2f - p.x, 0.0f);
            return {hexagon_side(p.y, flats) -
                        chamfer * chamfer * 0.6f * (0.3f + std::fabs(p.y) / corner),
                    surface};
        }
        if (p.x < head || p.x > len / 2) return {};
        float r = radius - 0.8f * std::max(p.x - len / 2 + 1.5f, 0.0f);
        if (p.x > head + 0.45f * len) r += thread_cut(p.x, p.y, 0.13f * d + 0.3f);
        return {round_top(p.y, r) + flats / 2 - r, surface};
    });
}

void nut(Scene& scene, Placement at, int surface, float flats, const std::vector<Stamped>& stamps) {
    scene.add(at, {flats * 0.62f, flats * 0.62f}, [=](Vec2 p) -> Top {
        const float r = length(p), bore = flats * 0.30f;
        if (r < bore) return {}; // the depth of the hole
        const float cone = flats * 0.5f - r;
        float h = std::min(raised(hexagon(p, flats), flats * 0.52f, 0.4f),
                           flats * 0.52f + std::min(cone * 0.55f, 0.0f));
        if (r < bore * 1.16f) h -= (bore * 1.16f - r) * 1.3f;
        return {h > 0 ? h + struck(stamps, p) : h, surface};
    });
}

void bolt_head(Scene& scene, Placement at, int surface, float flats,
               const std::vector<Stamped>& stamps) {
    scene.add(at, {flats * 0.62f, flats * 0.62f}, [=](Vec2 p) -> Top {
        const float r = length(p);
        const float h = std::min(raised(hexagon(p, flats), flats * 0.42f, 0.5f),
                                 flats * 0.42f + std::min((flats * 0.49f - r) * 0.55f, 0.0f));
        return {h > 0 ? h + struck(stamps, p) : h, surface};
    });
}

void washer(Scene& scene, Placement at, int surface, float outer, float inner, float thickness) {
    scene.add(at, {outer + 1, outer + 1}, [=](Vec2 p) -> Top {
        const float r = length(p);
        return {raised(std::max(r - outer, inner - r), thickness, std::min(thickness * 0.5f, 0.5f)),
                surface};
    });
}

} // namespace fettle::demo
