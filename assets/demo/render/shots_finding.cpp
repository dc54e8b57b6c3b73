// January: the lorry as it came from the quarry shed, and the first parts off it.
#include "hanger_pair.h"
#include "shots.h"

namespace fettle::demo {

namespace {

Scene chassis_plate() {
    Scene s = studio(101, Ground::bench, Hour::window);
    name_plate(s, {6, 4, 0, 0.16f}, brass(s, 0.95f), {60, 38});
    bolt(s, {-72, -46, 0, 0.7f}, rust(s, 0.5f), 4, 16);
    bolt(s, {84, -34, 0, 2.2f}, rust(s, 0.7f), 4, 16);
    s.camera = {{4, -2}, 2, 205, 1.05f, 0.30f, 0.03f, 1};
    return s;
}

Scene pack_as_found(uint32_t seed, float turn, const char* code, const char* side) {
    Scene s = studio(seed, Ground::floor, Hour::bulb);
    spring_pack_on_edge(s, {-40, 40, 0, turn}, {rust(s, 0.9f), rust(s, 0.7f)});
    tag_card(s, {95, -95, 0, -0.24f}, code, side, -0.9f);
    s.camera = {{70, 0}, 20, 560, 1.05f, 0.62f, s.camera.roll, 1};
    return s;
}

Scene pack_close() {
    Scene s = studio(106, Ground::floor, Hour::torch);
    spring_pack_on_edge(s, {120, 30, 0, 0.35f}, {rust(s, 0.85f), greased(s, 0.3f)});
    wire_brush(s, {-30, -120, 0, -0.5f});
    s.camera = {{60, -20}, 25, 330, 1.0f, 0.7f, -0.04f, 1.3f};
    return s;
}

Scene drum_as_found() {
    Scene s = studio(108, Ground::floor, Hour::bulb);
    Stamp mark = quernmore(8);
    mark.wear = 0.55f;
    mark.depth = 0.8f;
    const Placement spot = {0, -122, 60, 0}, at = {0, 0, 0, 0.35f};
    brake_drum(s, at, rust(s, 0.9f), rust(s, 0.35f), {{mark, spot}});
    note_mark(s, at.of(spot), mark, "QM");
    tag_card(s, {205, -120, 0, 0.5f}, "B1", "brake drum, front near side", 0.7f);
    s.camera = {{46, -18}, 40, 520, 1.05f, 0.42f, 0.05f, 1};
    return s;
}

Scene seized_pin() {
    Scene s = studio(112, Ground::floor, Hour::torch);
    const int red = rust(s, 0.85f);
    shackle_plate(s, {0, -4, 0, 1.1f}, red, 78, {});
    shackle_plate(s, {96, 24, 0, 0.3f}, rust(s, 0.7f), 78, {});
    pin(s, {-92, 10, 0, 1.45f}, {rust(s, 0.9f), rust(s, 0.8f), 9.4f, 118, 14, 24, 0, {}});
    nut(s, {-52, 78, 0, 0.4f}, rust(s, 0.8f), 24);
    s.camera = {{4, 12}, 8, 300, 1.05f, 0.5f, -0.06f, 1.2f};
    return s;
}

Scene shackle_marks() {
    Scene s = studio(114, Ground::bench, Hour::torch);
    Stamp mark = orrinvale(3.4f);
    mark.wear = 0.3f;
    mark.depth = 0.45f;
    const Placement spot = {-1, 0, 9.5f, 0.03f}, at = {4, 2, 0, 0.42f};
    shackle_plate(s, at, rust(s, 0.45f), 78, {{mark, spot}});
    note_mark(s, at.of(spot), mark, "OV");
    nut(s, {-56, -22, 0, 0.1f}, rust(s, 0.6f), 24);
    s.camera = {{0, 2}, 9, 150, 1.05f, 0.38f, 0.08f, 1.6f};
    return s;
}

Scene pins_drawn() {
    Scene s = studio(116, Ground::bench, Hour::bulb);
    for (int i = 0; i < 4; ++i) {
        const auto k = static_cast<float>(i);
        pin(s, {4 + 5 * k, 66 - 43 * k, 0, 0.08f * k - 0.16f},
            {i == 2 ? greased(s, 0.7f) : rust(s, 0.4f + 0.15f * k),
             rust(s, 0.6f),
             9.4f,
             118,
             14,
             24,
             0,
             {}});
    }
    tag_card(s, {-110, -70, 0, 0.35f}, "K1", "shackle pins, set of 4", 0.8f);
    s.camera = {{-18, 0}, 9, 330, 1.05f, 0.42f, s.camera.roll, 1};
    return s;
}

Scene hanger_with_tag() {
    Scene s = hanger_view(HangerState::rusted);
    tag_card(s, {112, 52, 0, -0.35f}, "H7", "rear hanger, off side", 0.4f);
    s.camera = {{18, 8}, 12, 330, 1.05f, 0.42f, -0.03f, 1};
    return s;
}

Scene odd_bolts() {
    Scene s = studio(120, Ground::box, Hour::bulb);
    for (int i = 0; i < 13; ++i) {
        const auto k = static_cast<float>(i);
        const Placement at = {-112 + 74 * static_cast<float>(i % 4) + 9 * std::sin(k * 2),
                              62 - 52 * static_cast<float>(i / 4) + 7 * std::cos(k * 3), 0,
                              k * 1.9f};
        const int surface = i % 3 == 0 ? greased(s, 0.6f) : rust(s, 0.35f + 0.05f * k);
        if (i % 5 == 3)
            nut(s, at, surface, 19);
        else if (i % 5 == 4)
            washer(s, at, surface, 13, 6, 2.2f);
        else
            bolt(s, at, surface, i % 2 == 0 ? 10.0f : 8.0f, 34 + 3 * k);
    }
    s.camera = {{0, -6}, 8, 340, 1.05f, 0.36f, 0.06f, 1};
    return s;
}

Scene green_leaf_paint() {
    Scene s = studio(122, Ground::floor, Hour::window);
    const int paint = green_paint(s, 0.62f);
    spring_hanger(s, {-46, 0, 0, -0.5f}, {paint, rust(s, 0.4f), {}});
    shackle_plate(s, {92, 22, 0, 0.9f}, green_paint(s, 0.5f), 78, {});
    s.camera = {{4, 0}, 12, 340, 1.05f, 0.48f, 0.02f, 1};
    return s;
}

} // namespace

void add_finding_shots(Shots& shots) {
    using enum Phone;
    shots.push_back(
        {"P2026_0110_140211.jpg", "2026:01:10 14:02:11.37+00:00", t2, 1, chassis_plate, true});
    shots.push_back({"P2026_0110_141840.jpg", "2026:01:10 14:18:40.02+00:00", t2, 1,
                     [] { return pack_as_found(104, 0.14f, "S1", "front spring, off side"); },
                     true});
    shots.push_back({"P2026_0110_142209.jpg", "2026:01:10 14:22:09.81+00:00", t2, 1,
                     [] { return pack_as_found(105, 0.06f, "S2", "front spring, near side"); },
                     true});
    shots.push_back({"P2026_0110_142255.jpg", "2026:01:10 14:22:55.14+00:00", t2, 6, pack_close});
    shots.push_back(
        {"P2026_0110_151530.jpg", "2026:01:10 15:15:30.66+00:00", t2, 1, drum_as_found});
    shots.push_back(
        {"P2026_0115_192744.jpg", "2026:01:15 19:27:44.20+00:00", t2, 1, hanger_with_tag});
    shots.push_back({"P2026_0115_192831.jpg", "2026:01:15 19:28:31.55+00:00", t2, 1,
                     [] { return hanger_view(HangerState::rusted); }});
    shots.push_back({"P2026_0115_193005.jpg", "2026:01:15 19:30:05.91+00:00", t2, 6,
                     [] { return hanger_mark(HangerState::rusted); }});
    shots.push_back({"P2026_0115_194410.jpg", "2026:01:15 19:44:10.03+00:00", t2, 1, seized_pin});
    shots.push_back(
        {"P2026_0115_212602.jpg", "2026:01:15 21:26:02.48+00:00", t2, 8, shackle_marks});
    shots.push_back({"P2026_0115_213319.jpg", "2026:01:15 21:33:19.77+00:00", t2, 1, pins_drawn});
    shots.push_back({"TL000412.JPG", "2026:01:17 11:05:52.10+00:00", older, 1, odd_bolts});
    shots.push_back({"TL000413.JPG", "2026:01:17 11:09:27.60+00:00", older, 1, green_leaf_paint});
}

} // namespace fettle::demo
