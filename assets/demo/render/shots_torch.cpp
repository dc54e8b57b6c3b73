// January: a worn stamping on a shackle plate, lit by a hand torch from eight sides, a bearing ball
// beside it that tells where the torch stood.
#include "shots.h"

namespace fettle::demo {

namespace {

struct Held {
    const char* file;
    const char* taken;
    float side, above; // degrees: clockwise from the top of the picture, and over the bench
};
constexpr Held kHeld[] = {
    {"P2026_0115_214011.jpg", "2026:01:15 21:40:11.40+00:00", 10, 30},
    {"P2026_0115_214020.jpg", "2026:01:15 21:40:20.15+00:00", 55, 45},
    {"P2026_0115_214028.jpg", "2026:01:15 21:40:28.72+00:00", 100, 60},
    {"P2026_0115_214037.jpg", "2026:01:15 21:40:37.08+00:00", 145, 30},
    {"P2026_0115_214045.jpg", "2026:01:15 21:40:45.93+00:00", 190, 45},
    {"P2026_0115_214054.jpg", "2026:01:15 21:40:54.31+00:00", 235, 60},
    {"P2026_0115_214103.jpg", "2026:01:15 21:41:03.66+00:00", 280, 30},
    {"P2026_0115_214112.jpg", "2026:01:15 21:41:12.02+00:00", 325, 45},
};

void ball(Scene& scene, Placement at, float radius) {
    const int black = enamel(scene);
    scene.add(at, {radius, radius}, [black, radius](Vec2 p) -> Top {
        const float left = radius * radius - p.x * p.x - p.y * p.y;
        if (left < 0) return {};
        return {radius + std::sqrt(left), black};
    });
}

Scene faint_mark(float side, float above) {
    Scene s = studio(601, Ground::bench, Hour::torch);
    Stamp mark = orrinvale(5);
    mark.wear = 0.2f;
    mark.depth = 0.22f;
    const Placement spot = {-1, 0, 9.5f, 0.03f}, at = {-8, 2, 0, 0.05f};
    shackle_plate(s, at, rust(s, 0.5f), 78, {{mark, spot}});
    note_mark(s, at.of(spot), mark, "OV");
    ball(s, {27, -20, 0, 0}, 7);
    constexpr float kDegree = kPi / 180, kAway = 900; // millimetres
    const float low = kAway * std::cos(above * kDegree);
    s.rig.lamp = {low * std::sin(side * kDegree), low * std::cos(side * kDegree),
                  kAway * std::sin(above * kDegree)};
    s.rig.lamp_softness = 0.03f;
    // The room is dark but for the torch.
    s.rig.window_colour = {0.004f, 0.004f, 0.005f};
    s.rig.ambient = {0.006f, 0.006f, 0.006f};
    s.camera = {{0, 0}, 9, 90, 3.0f, 0, 0, 0.2f};
    return s;
}

} // namespace

void add_torch_shots(Shots& shots) {
    for (const Held& held : kHeld)
        shots.push_back({.file = held.file,
                         .taken = held.taken,
                         .phone = Phone::t2,
                         .orientation = 1,
                         .scene = [held] { return faint_mark(held.side, held.above); },
                         .wide = 640});
}

} // namespace fettle::demo
