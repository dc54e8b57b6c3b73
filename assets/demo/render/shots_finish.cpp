// February and March: back from blasting, primer, enamel, and what the courier brought.
#include "hanger_pair.h"
#include "shots.h"

namespace fettle::demo {

namespace {

Scene shackles_black() {
    Scene s = studio(402, Ground::box, Hour::window);
    shackle_plate(s, {-62, 40, 0, 0.3f}, enamel(s), 78, {});
    shackle_plate(s, {48, 46, 0, -0.35f}, enamel(s), 78, {});
    shackle_plate(s, {-40, -38, 0, -0.1f}, enamel(s), 78, {});
    shackle_plate(s, {72, -44, 0, 0.6f}, enamel(s), 78, {});
    s.camera = {{12, -4}, 9, 280, 1.05f, 0.5f, 0.04f, 1.1f};
    return s;
}

Scene thumb_mark() {
    Scene s = studio(403, Ground::bench, Hour::torch);
    spring_hanger(s, {-30, -28, 0, 0.9f}, {enamel(s), ground_steel(s, 0.2f), {}});
    s.camera = {{-40, -6}, 24, 130, 1.1f, 0.5f, -0.05f, 1.6f};
    return s;
}

Scene parcel() {
    Scene s = studio(405, Ground::box, Hour::bulb);
    const Placement at = {-74, 36, 0, 0};
    bush(s, at, bronze(s, at), 14, 9.6f, 44);
    lying_bush(s, {10, 20, 0, 1.1f}, bronze(s, {}), 14, 9.6f, 44);
    tag_card(s, {70, -56, 0, -0.3f}, "U4", "bushes: 2 of 6 came", 1.2f);
    s.camera = {{0, 0}, 12, 300, 1.05f, 0.46f, 0.06f, 1};
    return s;
}

Scene wrong_maker() {
    Scene s = studio(406, Ground::bench, Hour::tube);
    Stamp mark = pellworth(4);
    mark.wear = 0.18f;
    mark.depth = 0.5f;
    const Placement at = {-2, 6, 0, -0.25f}, spot = {0, -4, 9.5f, 0.02f};
    shackle_plate(s, at, scale(s, 0.35f), 96, {{mark, spot}});
    note_mark(s, at.of(spot), mark, "PW");
    tag_card(s, {60, -62, 0, 0.18f}, "X1", "not Drover: hold", 0.9f);
    s.camera = {{12, -16}, 9, 220, 1.05f, 0.36f, -0.06f, 1.1f};
    return s;
}

Scene u_bolt_head() {
    Scene s = studio(407, Ground::bench, Hour::torch);
    Stamp mark = orrinvale(1.9f);
    mark.wear = 0.38f;
    mark.depth = 0.35f;
    const Placement at = {-6, 4, 0, 0.5f}, spot = {0, 0, 9.2f, 0.3f};
    bolt_head(s, at, rust(s, 0.35f), 22, {{mark, spot}});
    note_mark(s, at.of(spot), mark, "OV");
    bolt(s, {30, -16, 0, 1.9f}, rust(s, 0.6f), 12, 40);
    washer(s, {-34, -14, 0, 0}, rust(s, 0.5f), 12, 6.5f, 2.4f);
    s.camera = {{0, 0}, 8, 96, 1.15f, 0.32f, 0.05f, 1.7f};
    return s;
}

Scene axle_bare() {
    Scene s = studio(409, Ground::floor, Hour::window);
    axle_housing(s, {30, 0, 0, 0.2f}, primer(s), ground_steel(s, 0.25f, 0.9f));
    s.camera = {{40, 0}, 50, 620, 1.05f, 0.45f, 0.03f, 1};
    return s;
}

} // namespace

void add_finish_shots(Shots& shots) {
    using enum Phone;
    shots.push_back({"P2026_0131_170512.jpg", "2026:01:31 17:05:12.26+00:00", t2, 1, parcel});
    shots.push_back({"P2026_0131_173008.jpg", "2026:01:31 17:30:08.90+00:00", t2, 1, wrong_maker});
    shots.push_back({"P2026_0204_191133.jpg", "2026:02:04 19:11:33.44+00:00", t2, 1,
                     [] { return hanger_view(HangerState::blasted); }});
    shots.push_back({"P2026_0204_191250.jpg", "2026:02:04 19:12:50.15+00:00", t2, 6,
                     [] { return hanger_mark(HangerState::blasted); }});
    shots.push_back({"P2026_0225_201822.jpg", "2026:02:25 20:18:22.07+00:00", t2, 1,
                     [] { return hanger_view(HangerState::primed); }});
    shots.push_back({"P2026_0225_203946.jpg", "2026:02:25 20:39:46.63+00:00", t2, 1, axle_bare});
    shots.push_back({"P2026_0228_114107.jpg", "2026:02:28 11:41:07.52+00:00", t2, 8, thumb_mark});
    shots.push_back(
        {"P2026_0303_193914.jpg", "2026:03:03 19:39:14.38+00:00", t2, 1, shackles_black});
    shots.push_back({"Federbock vorn ½.jpg", "2026:03:03 19:52:40.71+00:00", t2, 1,
                     [] { return hanger_view(HangerState::enamelled); }});
    shots.push_back({"U-bolt 7⁄8 réf.jpg", "2026:03:05 20:06:31.90+00:00", older, 1, u_bolt_head});
}

} // namespace fettle::demo
