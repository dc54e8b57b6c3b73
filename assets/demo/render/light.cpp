// How a surface answers the lamp, the window and the dark workshop round it.
#include "noise.h"
#include "view.h"

namespace fettle::demo {

namespace {

float lamp_glint(float n_h, float roughness, float spread) {
    // A wide lamp widens the glint and thins it as much.
    const float bare = std::max(roughness * roughness, 0.02f), a = bare + spread;
    const float d = n_h * n_h * (a * a - 1) + 1;
    return bare * bare / (kPi * d * d) * 0.25f;
}

Rgb fresnel(Rgb head_on, float facing, float roughness) {
    const float k = std::pow(1 - clamp01(facing), 5.0f) * (1 - 0.75f * roughness);
    return head_on + Rgb{1 - head_on.x, 1 - head_on.y, 1 - head_on.z} * k;
}

// The workshop as a mirror sees it: a window of panes on one side, a lit lamp shade, a dark roof
// with rafters, the viewer leaning over as a dark shape straight above. Blurred by roughness.
Rgb room(const Rig& rig, Vec3 way, float roughness) {
    const float soft = 0.05f + 0.9f * roughness;
    const float bearing = std::atan2(way.y, way.x) - rig.window_bearing;
    const float turn = std::fabs(std::remainder(bearing, 2 * kPi));
    float window = smooth(0.55f + soft, 0.55f - soft, turn) *
                   smooth(0.12f - soft, 0.12f + soft, way.z) *
                   smooth(0.72f + soft, 0.72f - soft, way.z);
    if (roughness < 0.3f) // glazing bars
        window *= 1 - 0.6f * smooth(0.04f, 0.02f, std::fabs(turn - 0.18f)) * (1 - roughness * 3);
    const float rafters = 0.5f + 0.5f * std::sin(way.x * 9 / (0.3f + std::fabs(way.z)));
    const Rgb roof = rig.ambient * (0.5f + 1.3f * mix(rafters, 0.5f, clamp01(soft * 2)));
    const float viewer = smooth(0.72f - soft * 0.4f, 0.95f, way.z);
    const Rgb walls = mix(roof, rig.ambient * Rgb{1.5f, 1.3f, 1.1f}, smooth(0.5f, 0.0f, way.z));
    const Vec3 lamp = normalised(rig.lamp);
    const float shade = smooth(1 - 0.035f - soft * 0.2f, 1 - 0.005f, dot(way, lamp));
    return mix(walls, rig.ambient * 0.35f, viewer * 0.7f) +
           rig.window_colour * (8.0f * window / (1 + 2 * soft)) +
           rig.lamp_colour * (0.6f * shade / (1 + 6 * soft));
}

Vec3 normal_at(const Field& field, Vec2 c, float z) {
    const float dx = field.height.between(c.x + 0.7f, c.y) - field.height.between(c.x - 0.7f, c.y);
    const float dy = field.height.between(c.x, c.y + 0.7f) - field.height.between(c.x, c.y - 0.7f);
    const Vec3 close = normalised({-dx, -dy, 1.4f * field.cell});
    const float a = field.height.between(c.x + 1.2f, c.y),
                b = field.height.between(c.x - 1.2f, c.y);
    const float e = field.height.between(c.x, c.y + 1.2f),
                f = field.height.between(c.x, c.y - 1.2f);
    const float top = std::max({a, b, e, f}), foot = std::min({a, b, e, f});
    if (top - foot < 5 * field.cell || z > top - field.cell) return close;
    // Upright walls are one cell wide in the grid: look wider, or they show its steps.
    const float wx = field.soft.between(c.x + 4, c.y) - field.soft.between(c.x - 4, c.y);
    const float wy = field.soft.between(c.x, c.y + 4) - field.soft.between(c.x, c.y - 4);
    const float turn = std::max(length({wx, wy}), 1e-4f), side = 0.995f;
    return {-wx / turn * side, -wy / turn * side, 0.1f};
}

uint8_t surface_at(const Field& field, Vec2 c) {
    const int x = std::clamp(static_cast<int>(c.x + 0.5f), 0, field.height.width - 1);
    const int y = std::clamp(static_cast<int>(c.y + 0.5f), 0, field.height.height - 1);
    return field.surface[static_cast<size_t>(y) * static_cast<size_t>(field.height.width) +
                         static_cast<size_t>(x)];
}

struct Light {
    Rgb diffuse, glint;
};

Light from_lamp(const Scene& scene, const Look& look, Vec3 point, Vec3 normal, Vec3 eye,
                float seen) {
    const Rig& rig = scene.rig;
    const Vec3 target = {scene.camera.target.x, scene.camera.target.y, scene.camera.target_height};
    const Vec3 way = rig.lamp + target - point;
    const Vec3 to = normalised(way);
    const float fall = dot(rig.lamp, rig.lamp) / dot(way, way);
    const float facing = std::max(dot(normal, to), 0.0f) * seen;
    const Rgb colour = rig.lamp_colour * (fall * facing);
    const Vec3 half = normalised(to + eye);
    const float glint =
        lamp_glint(std::max(dot(normal, half), 0.0f), look.roughness, rig.lamp_softness * 0.5f);
    return {colour * (1 / kPi), colour * std::min(glint, 3.0f)};
}

Rgb from_window(const Rig& rig, Vec3 normal, float open) {
    const Vec3 to = normalised({std::cos(rig.window_bearing), std::sin(rig.window_bearing), 0.55f});
    const float facing = std::max(dot(normal, to) * 0.8f + 0.2f, 0.0f);
    return rig.window_colour * (facing * open);
}

} // namespace

Rgb lit(const Scene& scene, const Field& field, Vec3 point, Vec3 eye) {
    const Vec2 c = field.to_cells({point.x, point.y});
    const Vec3 normal = normal_at(field, c, point.z);
    // A point on a wall belongs to the body that rises there, not to the ground at its foot.
    const float steep =
        smooth(0.45f, 0.25f, normal.z) * 1.8f / std::max(length({normal.x, normal.y}), 0.1f);
    const Vec2 owner = c - Vec2{normal.x, normal.y} * steep;
    const Surface& surface = scene.surfaces[surface_at(field, owner)];
    const float cavity = field.cavity.between(c.x, c.y) * smooth(0.1f, 0.5f, normal.z);
    const Look look_here = look(surface, {point, cavity, normal.z, 1.5f * field.cell});
    const float seen = field.shadow.between(owner.x, owner.y);
    const float sky = field.openness.between(owner.x / 2 - 0.25f, owner.y / 2 - 0.25f) *
                      (steep > 0.5f ? 0.75f : 1.0f);
    const float open = sky * (0.6f + 0.4f * sky);

    const Light lamp = from_lamp(scene, look_here, point, normal, eye, seen);
    const Rgb around = from_window(scene.rig, normal, open) + scene.rig.ambient * open;
    // Light that bounced off the neighbourhood takes its colour.
    const Rgb bounced =
        look_here.colour * (scene.rig.ambient + scene.rig.lamp_colour * 0.05f) * (1 - open);
    Rgb out = look_here.colour * (lamp.diffuse + around + bounced);

    const float facing = std::max(dot(normal, eye), 0.05f);
    const Rgb mirror = fresnel(look_here.mirror, facing, look_here.roughness);
    Vec3 back = normal * (2 * dot(normal, eye)) - eye;
    back.z = std::max(back.z, 0.02f);
    const float reach = clamp01(open * 1.35f - 0.1f);
    return out + mirror * lamp.glint +
           mirror * room(scene.rig, normalised(back), look_here.roughness) * reach;
}

} // namespace fettle::demo
