// March, the last evening: two parts with their printed cards, and what was photographed after
// each; one shot is out of focus, and one was taken twice.
#include "hanger_pair.h"
#include "shots.h"

namespace fettle::demo {

namespace {

Scene hanger_card() {
    Scene s = studio(501, Ground::bench, Hour::tube);
    spring_hanger(s, {-62, 6, 0, -0.35f}, {blasted(s), ground_steel(s, 0.8f), {}});
    code_card(s, {84, -28, 0, 0.12f}, "H8", "spring hanger, rear near side");
    s.camera = {{14, -6}, 12, 330, 1.05f, 0.30f, -0.02f, 1};
    return s;
}

// The lens is focused this far above the hanger's foot.
Scene hanger_bare(Vec2 aside, float focused, float blur) {
    Scene s = studio(502, Ground::bench, Hour::tube);
    spring_hanger(s, {0, 0, 0, -0.35f}, {blasted(s), ground_steel(s, 0.8f), {}});
    washer(s, {86, -40, 0, 0}, rust(s, 0.5f), 12, 6.5f, 2.4f);
    s.camera = {{4 + aside.x, 2 + aside.y}, focused, 250, 1.05f, 0.38f, 0.03f, blur};
    return s;
}

Scene pins_card() {
    Scene s = studio(504, Ground::box, Hour::tube);
    pin(s, {-70, 34, 0, 0.2f}, {ground_steel(s, 0.5f), rust(s, 0.4f), 11, 120, 0, 0, 5, {}});
    pin(s, {-66, -20, 0, 0.1f}, {ground_steel(s, 0.4f), rust(s, 0.4f), 11, 120, 0, 0, 5, {}});
    code_card(s, {74, 8, 0, -0.2f}, "P3", "king pins, pair");
    s.camera = {{2, 4}, 10, 310, 1.05f, 0.32f, 0.03f, 1};
    return s;
}

Scene pins_bare() {
    Scene s = studio(505, Ground::box, Hour::tube);
    pin(s, {-4, 26, 0, 0.34f}, {ground_steel(s, 0.5f), rust(s, 0.4f), 11, 120, 0, 0, 5, {}});
    pin(s, {2, -30, 0, 0.22f}, {ground_steel(s, 0.4f), rust(s, 0.4f), 11, 120, 0, 0, 5, {}});
    s.camera = {{0, 0}, 10, 210, 1.05f, 0.42f, -0.04f, 1};
    return s;
}

} // namespace

void add_tagged_shots(Shots& shots) {
    using enum Phone;
    shots.push_back({"P2026_0320_190211.jpg", "2026:03:20 19:02:11.20+00:00", t2, 1, hanger_card});
    shots.push_back({"P2026_0320_190226.jpg", "2026:03:20 19:02:26.41+00:00", t2, 1,
                     [] { return hanger_bare({}, 12, 1); }});
    shots.push_back({"P2026_0320_190228.jpg", "2026:03:20 19:02:28.93+00:00", t2, 1, [] {
                         return hanger_bare({2, 1}, 12, 1);
                     }});
    shots.push_back({"P2026_0320_190231.jpg", "2026:03:20 19:02:31.03+00:00", t2, 1, [] {
                         return hanger_bare({3, -22}, 70, 8);
                     }});
    shots.push_back({"P2026_0320_190304.jpg", "2026:03:20 19:03:04.77+00:00", t2, 1,
                     [] { return hanger_mark(HangerState::blasted); }});
    shots.push_back({"P2026_0320_190810.jpg", "2026:03:20 19:08:10.35+00:00", t2, 1, pins_card});
    shots.push_back({"P2026_0320_190822.jpg", "2026:03:20 19:08:22.90+00:00", t2, 1, pins_bare});
}

} // namespace fettle::demo
