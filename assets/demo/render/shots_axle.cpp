// February: the back axle opened, backlash and shims; the king pins.
#include "shots.h"

namespace fettle::demo {

namespace {

Stamp wheel_mark() {
    Stamp mark = pellworth(3.8f);
    mark.depth = 0.5f;
    mark.wear = 0.22f;
    mark.seed = 4;
    return mark;
}

const Placement kWheelSpot = {11.1f, -56.9f, 26, 0.19f};

Scene axle_open(uint32_t seed, bool gauge, float reading) {
    Scene s = studio(seed, Ground::floor, gauge ? Hour::torch : Hour::bulb);
    axle_housing(s, {0, 0, 0, 0.12f}, cast_iron(s, 0.85f), ground_steel(s, 0.8f, 0.4f));
    crown_wheel(s, {-6, 0, 24, 0.3f}, greased(s, 0.25f), greased(s, 0.6f), {});
    if (gauge) dial_gauge(s, {112, 92, 62, -0.86f + kPi}, reading);
    s.camera = {{gauge ? 46.0f : 14.0f, gauge ? 34.0f : -6.0f},
                50,
                gauge ? 250.0f : 430.0f,
                1.05f,
                0.36f,
                0.06f,
                1};
    return s;
}

Scene wheel_teeth() {
    Scene s = studio(303, Ground::floor, Hour::torch);
    crown_wheel(s, {-60, -34, 4, 0.5f}, ground_steel(s, 0.7f), greased(s, 0.7f), {});
    s.camera = {{-2, 14}, 32, 118, 1.1f, 0.42f, -0.1f, 1.7f};
    return s;
}

Scene wheel_back() {
    Scene s = studio(304, Ground::bench, Hour::torch);
    const Placement at = {0, 0, 0, 0.15f};
    crown_wheel(s, at, ground_steel(s, 0.5f), ground_steel(s, 0.55f), {{wheel_mark(), kWheelSpot}});
    note_mark(s, at.of(kWheelSpot), wheel_mark(), "PW");
    s.camera = {{17, -50}, 26, 84, 1.2f, 0.26f, -0.08f, 1.5f};
    return s;
}

Scene pinion_shaft() {
    Scene s = studio(305, Ground::bench, Hour::bulb);
    pinion(s, {6, 20, 0, 0.25f}, greased(s, 0.2f));
    rag(s, {40, -84, 0, -0.2f}, {0.24f, 0.07f, 0.055f}, {84, 44});
    nut(s, {-96, -44, 0, 0.5f}, greased(s, 0.5f), 36);
    s.camera = {{2, -8}, 20, 310, 1.05f, 0.14f, 0.03f, 1.1f};
    return s;
}

Scene tin_of_shims() {
    Scene s = studio(306, Ground::drawing, Hour::bulb);
    shim_tin(s, {-44, 12, 0, 0});
    micrometer(s, {74, 40, 0, -0.5f}, 1.2f);
    feeler_gauge(s, {30, -66, 0, 0.5f}, 0.12f);
    s.camera = {{12, -4}, 8, 260, 1.05f, 0.34f, -0.05f, 1.1f};
    return s;
}

Scene shims_in_a_row() {
    Scene s = studio(307, Ground::drawing, Hour::tube);
    for (int i = 0; i < 6; ++i) {
        const auto k = static_cast<float>(i);
        const Placement at = {-92 + 37 * k, 18 + 13 * std::sin(k * 1.9f), 0, 0.3f * k};
        washer(s, at, i == 3 ? bronze(s, at) : ground_steel(s, 0.5f, k), 17, 11.5f,
               0.5f + 0.5f * k);
    }
    steel_rule(s, {4, -48, 0, 0.03f}, 200);
    s.camera = {{2, -8}, 3, 240, 1.05f, 0.28f, 0.07f, 1};
    return s;
}

Scene king_pins() {
    Scene s = studio(309, Ground::bench, Hour::tube);
    Stamp mark = pellworth(3);
    mark.wear = 0.5f;
    mark.depth = 0.35f;
    const Placement at = {0, 34, 0, 0.2f}, spot = {-34, 0, 28, 0};
    pin(s, at,
        {turned_steel(s, 0.65f, {0, 500, 0, 0}),
         greased(s, 0.5f),
         14,
         168,
         0,
         0,
         4.5f,
         {{mark, spot}}});
    note_mark(s, at.of(spot), mark, "PW");
    pin(s, {8, -14, 0, 0.12f}, {rust(s, 0.3f), greased(s, 0.5f), 14, 168, 0, 0, 4.5f, {}});
    tag_card(s, {-78, -84, 0, 0.15f}, "P3", "king pins, pair, worn", 0.8f);
    s.camera = {{0, -16}, 14, 300, 1.05f, 0.42f, -0.04f, 1};
    return s;
}

Scene king_pin_mark() {
    Scene s = studio(310, Ground::bench, Hour::bulb);
    Stamp mark = pellworth(3);
    mark.wear = 0.48f;
    mark.depth = 0.35f;
    const Placement at = {26, 0, 0, 0.12f}, spot = {-34, 0, 28, 0};
    pin(s, at,
        {turned_steel(s, 0.75f, {0, 500, 0, 0}),
         greased(s, 0.5f),
         14,
         168,
         0,
         0,
         4.5f,
         {{mark, spot}}});
    note_mark(s, at.of(spot), mark, "PW");
    s.camera = {{-2, 0}, 26, 92, 1.2f, 0.30f, 0.12f, 1.6f};
    return s;
}

Scene king_pin_measured() {
    Scene s = studio(311, Ground::bench, Hour::bulb);
    pin(s, {-70, 40, 0, 0.9f},
        {turned_steel(s, 0.4f, {0, 900, 0, 0}), greased(s, 0.5f), 14, 168, 0, 0, 4.5f, {}});
    micrometer(s, {30, -20, 0, -0.3f}, 20);
    s.camera = {{6, 2}, 12, 250, 1.05f, 0.40f, 0.05f, 1.2f};
    return s;
}

Scene drum_turned() {
    Scene s = studio(313, Ground::floor, Hour::window);
    brake_drum(s, {0, 0, 0, 0.8f}, blasted(s), turned_steel(s, 0.1f, {0, 0, 0, 0}), {});
    steel_rule(s, {150, -170, 0, 0.9f}, 300);
    s.camera = {{26, -20}, 40, 500, 1.05f, 0.40f, -0.03f, 1};
    return s;
}

Scene oil_seal_tools() {
    Scene s = studio(314, Ground::bench, Hour::bulb);
    spanner(s, {-20, 46, 0, -0.2f}, ground_steel(s, 0.8f), 19, 150);
    spanner(s, {10, -4, 0, -0.12f}, ground_steel(s, 0.6f), 13, 120);
    wire_brush(s, {20, -62, 0, 0.1f});
    rag(s, {150, 64, 0, 0.5f}, {0.17f, 0.18f, 0.20f}, {60, 44});
    s.camera = {{20, 0}, 8, 380, 1.05f, 0.44f, 0.05f, 1};
    return s;
}

} // namespace

void add_axle_shots(Shots& shots) {
    using enum Phone;
    shots.push_back({"P2026_0214_104419.jpg", "2026:02:14 10:44:19.11+00:00", t2, 1,
                     [] { return axle_open(301, false, 0); }});
    shots.push_back({"P2026_0214_111903.jpg", "2026:02:14 11:19:03.58+00:00", t2, 1,
                     [] { return axle_open(302, true, 0.31f); }});
    shots.push_back({"P2026_0214_112150.jpg", "2026:02:14 11:21:50.04+00:00", t2, 1, wheel_teeth});
    shots.push_back({"P2026_0214_145236.jpg", "2026:02:14 14:52:36.82+00:00", t2, 1, wheel_back});
    shots.push_back({"P2026_0214_150107.jpg", "2026:02:14 15:01:07.29+00:00", t2, 1, pinion_shaft});
    shots.push_back({"P2026_0219_193322.jpg", "2026:02:19 19:33:22.95+00:00", t2, 1, tin_of_shims});
    shots.push_back(
        {"P2026_0219_194810.jpg", "2026:02:19 19:48:10.41+00:00", t2, 1, shims_in_a_row});
    shots.push_back({"P2026_0219_203145.jpg", "2026:02:19 20:31:45.60+00:00", t2, 1,
                     [] { return axle_open(308, true, 0.16f); }});
    shots.push_back({"P2026_0221_110228.jpg", "2026:02:21 11:02:28.17+00:00", t2, 1, king_pins});
    shots.push_back(
        {"P2026_0221_110501.jpg", "2026:02:21 11:05:01.73+00:00", t2, 6, king_pin_mark});
    shots.push_back(
        {"P2026_0221_113340.jpg", "2026:02:21 11:33:40.36+00:00", t2, 1, king_pin_measured});
    shots.push_back({"TL000431.JPG", "2026:02:21 15:20:44.50+00:00", older, 1, drum_turned});
    shots.push_back({"TL000432.JPG", "2026:02:21 16:02:09.20+00:00", older, 1, oil_seal_tools});
}

} // namespace fettle::demo
