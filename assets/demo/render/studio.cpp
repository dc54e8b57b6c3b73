#include "studio.h"

#include "noise.h"

namespace fettle::demo {

namespace {

Surface ground_of(Ground ground, uint32_t seed) {
    Surface s;
    s.seed = seed * 7 + 3;
    s.amount = 0.75f;
    s.frame.angle = (chance(1, 2, 3, seed) - 0.5f) * 0.5f;
    s.frame.y = 40 * chance(4, 5, 6, seed);
    switch (ground) {
    case Ground::bench:
        s.finish = Finish::wood;
        break;
    case Ground::floor:
        s.finish = Finish::concrete;
        break;
    case Ground::box:
        s.finish = Finish::cardboard;
        s.frame.angle += 0.9f;
        break;
    case Ground::drawing:
        s.finish = Finish::paper;
        s.tint = {0.43f, 0.41f, 0.36f};
        s.amount = 0.5f;
        break;
    }
    return s;
}

Rig rig_of(Hour hour, uint32_t seed) {
    Rig rig;
    const float turn = (chance(7, 8, 9, seed) - 0.5f) * 0.9f;
    const auto lamp = [&](float bearing, float low, float height) {
        return Vec3{low * std::cos(bearing + turn), low * std::sin(bearing + turn), height};
    };
    switch (hour) {
    case Hour::bulb:
        rig.lamp = lamp(2.3f, 620, 430);
        rig.lamp_colour = {4.6f, 3.45f, 2.25f};
        rig.window_colour = {0.10f, 0.13f, 0.17f};
        rig.ambient = {0.15f, 0.125f, 0.095f};
        break;
    case Hour::tube:
        rig.lamp = lamp(1.9f, 700, 1000);
        rig.lamp_softness = 0.24f;
        rig.lamp_colour = {2.9f, 3.1f, 2.95f};
        rig.window_colour = {0.16f, 0.18f, 0.18f};
        rig.ambient = {0.17f, 0.185f, 0.18f};
        break;
    case Hour::window:
        rig.lamp = lamp(0.5f, 900, 560);
        rig.lamp_softness = 0.30f;
        rig.lamp_colour = {2.5f, 2.85f, 3.2f};
        rig.window_bearing = 0.5f + turn;
        rig.window_colour = {0.42f, 0.50f, 0.60f};
        rig.ambient = {0.14f, 0.15f, 0.165f};
        break;
    case Hour::torch:
        rig.lamp = lamp(3.0f, 480, 170);
        rig.lamp_softness = 0.06f;
        rig.lamp_colour = {6.2f, 5.7f, 4.9f};
        rig.window_colour = {0.05f, 0.06f, 0.07f};
        rig.ambient = {0.085f, 0.08f, 0.075f};
        break;
    }
    return rig;
}

int made(Scene& scene, Finish finish, float amount, Rgb tint = {0.5f, 0.5f, 0.5f},
         Placement frame = {}) {
    Surface s;
    s.finish = finish;
    s.amount = amount;
    s.tint = tint;
    s.frame = frame;
    s.seed = scene.seed * 13 + static_cast<uint32_t>(scene.surfaces.size()) * 977;
    return scene.add_surface(s);
}

constexpr Rgb kSteel = {0.52f, 0.51f, 0.495f};

} // namespace

Scene studio(uint32_t seed, Ground ground, Hour hour) {
    Scene scene;
    scene.seed = seed;
    scene.surfaces.push_back(ground_of(ground, seed));
    scene.rig = rig_of(hour, seed);
    scene.camera.roll = (chance(11, 12, 13, seed) - 0.5f) * 0.10f;
    return scene;
}

int rust(Scene& scene, float amount) {
    return made(scene, Finish::rusty, amount);
}
int scale(Scene& scene, float amount) {
    return made(scene, Finish::forged, amount);
}
int blasted(Scene& scene) {
    return made(scene, Finish::blasted, 0.5f);
}
int primer(Scene& scene) {
    return made(scene, Finish::red_oxide, 0.5f, {0.155f, 0.043f, 0.028f});
}
int enamel(Scene& scene, Rgb tint) {
    return made(scene, Finish::enamel, 0.5f, tint);
}
int green_paint(Scene& scene, float left) {
    return made(scene, Finish::old_paint, left, {0.045f, 0.095f, 0.06f});
}
int ground_steel(Scene& scene, float tarnish, float direction) {
    return made(scene, Finish::machined, tarnish, kSteel, {0, 0, 0, direction});
}
int turned_steel(Scene& scene, float tarnish, Placement centre) {
    return made(scene, Finish::turned, tarnish, kSteel, centre);
}
int bronze(Scene& scene, Placement centre) {
    return made(scene, Finish::turned, 0.25f, {0.60f, 0.385f, 0.20f}, centre);
}
int brass(Scene& scene, float tarnish) {
    return made(scene, Finish::machined, tarnish, {0.74f, 0.57f, 0.27f});
}
int cast_iron(Scene& scene, float dirt) {
    return made(scene, Finish::cast, dirt);
}
int greased(Scene& scene, float film) {
    return made(scene, Finish::greased, film);
}

} // namespace fettle::demo
