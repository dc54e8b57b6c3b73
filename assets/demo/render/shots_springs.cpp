// Late January to March: the front springs apart, measured, blasted and put together again.
#include "shots.h"

namespace fettle::demo {

namespace {

Stamp leaf_mark(float wear) {
    Stamp mark = orrinvale(6);
    mark.wear = wear;
    mark.depth = 0.55f;
    mark.seed = 9;
    return mark;
}

// The leaves of S2 side by side, longest first; `clean` after blasting.
Scene laid_out(uint32_t seed, bool clean) {
    Scene s =
        studio(seed, clean ? Ground::floor : Ground::bench, clean ? Hour::window : Hour::tube);
    for (int i = 0; i < 7; ++i) {
        const auto k = static_cast<float>(i);
        Leaf one{clean ? blasted(s) : rust(s, 0.35f + 0.08f * k), 920 - 118 * k, 45, 7, i == 0, {}};
        if (i == 1) one.stamps = {{leaf_mark(clean ? 0.15f : 0.5f), {-230, 0, 7, 0}}};
        leaf(s, {8 * k - 20 + 14 * std::sin(k * 2.1f), 262 - 84 * k, 0, 0.02f * std::sin(k * 1.7f)},
             one);
    }
    steel_rule(s, {330, -258, 0, 0.07f}, 300);
    s.camera = {{-6, -4}, 8, 1010, 1.05f, 0.44f, s.camera.roll, 1};
    return s;
}

Scene leaf_stamp(uint32_t seed, bool clean) {
    Scene s = studio(seed, Ground::bench, Hour::torch);
    const Stamp mark = leaf_mark(clean ? 0.12f : 0.5f);
    const Placement at = {40, 2, 0, clean ? 0.22f : -0.18f}, spot = {-60, 1, 7, 0.05f};
    leaf(s, at, {clean ? blasted(s) : rust(s, 0.7f), 420, 45, 7, false, {{mark, spot}}});
    note_mark(s, at.of(spot), mark, "OV");
    s.camera = {{-14, clean ? -10.0f : 12.0f}, 7, 98, 1.2f, 0.34f, clean ? 0.05f : -0.12f, 1.6f};
    return s;
}

Scene thickness() {
    Scene s = studio(206, Ground::bench, Hour::bulb);
    leaf(s, {-90, 12, 0, 0.5f}, {ground_steel(s, 0.9f, 0.5f), 300, 45, 7, false, {}});
    micrometer(s, {52, 28, 0, -0.4f}, 7);
    rag(s, {-70, -92, 0, 0.3f}, {0.20f, 0.19f, 0.17f}, {60, 34});
    s.camera = {{2, 2}, 8, 260, 1.05f, 0.40f, 0.05f, 1.2f};
    return s;
}

Scene worn_step() {
    Scene s = studio(207, Ground::bench, Hour::torch);
    leaf(s, {-88, 8, 0, 0.25f}, {rust(s, 0.2f), 320, 45, 7, false, {}});
    feeler_gauge(s, {72, -62, 0, 1.7f}, 0.14f);
    s.camera = {{24, 0}, 8, 230, 1.05f, 0.40f, -0.05f, 1.2f};
    return s;
}

Scene centre_bolts() {
    Scene s = studio(210, Ground::box, Hour::tube);
    bolt(s, {-6, 42, 0, 0.12f}, rust(s, 0.8f), 9.5f, 92);
    bolt(s, {4, -2, 0, 0.05f}, ground_steel(s, 0.2f, 0.05f), 10, 104);
    bolt(s, {0, -44, 0, -0.03f}, scale(s, 0.12f), 9.5f, 96);
    nut(s, {84, 26, 0, 0.4f}, ground_steel(s, 0.2f), 15);
    nut(s, {88, -38, 0, 0.9f}, scale(s, 0.1f), 15);
    steel_rule(s, {10, -84, 0, -0.05f}, 200);
    s.camera = {{8, -8}, 7, 240, 1.05f, 0.32f, 0.04f, 1};
    return s;
}

Scene new_bushes() {
    Scene s = studio(212, Ground::box, Hour::bulb);
    for (int i = 0; i < 4; ++i) {
        const auto k = static_cast<float>(i);
        const Placement at = {-60 + 42 * k, 26 + 12 * std::sin(k * 2), 0, 0};
        bush(s, at, bronze(s, at), 14, 9.6f, 44);
    }
    lying_bush(s, {-30, -42, 0, 1.2f}, bronze(s, {}), 14, 9.6f, 44);
    tag_card(s, {52, -50, 0, 0.2f}, "U4", "bushes, bronze, 6 off", 0.9f);
    s.camera = {{0, -4}, 20, 250, 1.05f, 0.48f, -0.05f, 1.2f};
    return s;
}

Scene main_leaf_eye() {
    Scene s = studio(213, Ground::floor, Hour::torch);
    leaf(s, {-196, -14, 0, 0.22f}, {blasted(s), 480, 45, 7, true, {}});
    const Placement at = {62, -36, 0, 0};
    bush(s, at, bronze(s, at), 14, 9.6f, 44);
    s.camera = {{16, 16}, 14, 190, 1.05f, 0.55f, 0.04f, 1.5f};
    return s;
}

Scene pack_together(uint32_t seed, bool black) {
    Scene s =
        studio(seed, black ? Ground::bench : Ground::floor, black ? Hour::window : Hour::tube);
    const int body = black ? enamel(s) : primer(s);
    spring_pack_on_edge(s, {-70, 40, 0, black ? 0.1f : -0.08f}, {body, ground_steel(s, 0.2f)});
    tag_card(s, {98, -92, 0, 0.2f}, "S2", "front spring, near side", 0.8f);
    s.camera = {{60, 0}, 20, 520, 1.05f, 0.58f, s.camera.roll, 1};
    return s;
}

Scene u_bolt_nuts() {
    Scene s = studio(217, Ground::bench, Hour::bulb);
    spring_pack_on_edge(s, {-10, 76, 0, 0.04f}, {enamel(s), ground_steel(s, 0.2f)});
    torque_wrench(s, {40, -84, 0, -0.14f});
    nut(s, {-136, -62, 0, 0.3f}, ground_steel(s, 0.3f), 22);
    nut(s, {-106, -118, 0, 0.8f}, ground_steel(s, 0.3f), 22);
    s.camera = {{0, -14}, 20, 520, 1.05f, 0.55f, 0.03f, 1};
    return s;
}

Scene torque_setting() {
    Scene s = studio(218, Ground::bench, Hour::tube);
    torque_wrench(s, {-30, 4, 0, 0.36f});
    nut(s, {76, -58, 0, 0.6f}, ground_steel(s, 0.5f), 22);
    washer(s, {30, -74, 0, 0}, ground_steel(s, 0.7f), 17, 8, 2.5f);
    s.camera = {{0, 0}, 15, 250, 1.05f, 0.40f, -0.04f, 1.2f};
    return s;
}

} // namespace

void add_spring_shots(Shots& shots) {
    using enum Phone;
    shots.push_back({"P2026_0124_103355.jpg", "2026:01:24 10:33:55.40+00:00", t2, 1,
                     [] { return laid_out(202, false); }});
    shots.push_back({"P2026_0124_103712.jpg", "2026:01:24 10:37:12.93+00:00", t2, 1,
                     [] { return leaf_stamp(203, false); }});
    shots.push_back({"P2026_0124_112048.jpg", "2026:01:24 11:20:48.22+00:00", t2, 1, thickness});
    shots.push_back({"P2026_0124_114530.jpg", "2026:01:24 11:45:30.71+00:00", t2, 6, worn_step});
    shots.push_back({"P2026_0204_190216.jpg", "2026:02:04 19:02:16.35+00:00", t2, 1,
                     [] { return laid_out(204, true); }});
    shots.push_back({"P2026_0204_190840.jpg", "2026:02:04 19:08:40.89+00:00", t2, 1,
                     [] { return leaf_stamp(203, true); }});
    shots.push_back({"P2026_0307_194205.jpg", "2026:03:07 19:42:05.37+00:00", t2, 1, centre_bolts});
    shots.push_back({"P2026_0307_195033.jpg", "2026:03:07 19:50:33.64+00:00", t2, 1, new_bushes});
    shots.push_back(
        {"P2026_0307_201419.jpg", "2026:03:07 20:14:19.08+00:00", t2, 8, main_leaf_eye});
    shots.push_back({"P2026_0314_101627.jpg", "2026:03:14 10:16:27.50+00:00", t2, 1,
                     [] { return pack_together(215, false); }});
    shots.push_back(
        {"P2026_0314_153241.jpg", "2026:03:14 15:32:41.19+00:00", t2, 1, torque_setting});
    shots.push_back({"P2026_0314_154402.jpg", "2026:03:14 15:44:02.77+00:00", t2, 1, u_bolt_nuts});
    shots.push_back({"P2026_0319_185518.jpg", "2026:03:19 18:55:18.46+00:00", t2, 1,
                     [] { return pack_together(216, true); }});
}

} // namespace fettle::demo
