// Shadow and openness of every cell: cones traced over ever coarser copies of the height grid, so
// that edges soften with distance as they do under a real lamp or window.
#include "field.h"
#include "rows.h"

namespace fettle::demo {

namespace {

using Pyramid = std::vector<Grid>;

Pyramid pyramid_of(const Grid& height) {
    Pyramid levels{height};
    while (levels.size() < 8 && levels.back().width > 16)
        levels.push_back(halved(levels.back()));
    return levels;
}

float read(const Pyramid& levels, Vec2 cells, float width) {
    int level = 0;
    while (width > 1.5f && level + 1 < static_cast<int>(levels.size())) {
        width /= 2;
        ++level;
    }
    const float scale = 1.0f / static_cast<float>(1 << level);
    return levels[static_cast<size_t>(level)].between((cells.x + 0.5f) * scale - 0.5f,
                                                      (cells.y + 0.5f) * scale - 0.5f);
}

// Share of the lamp that a cell sees.
float lamp_seen(const Field& field, const Pyramid& levels, Vec3 lamp, float softness, int x,
                int y) {
    const float z = field.height.at(x, y);
    const Vec2 at = {static_cast<float>(x), static_cast<float>(y)};
    const Vec2 foot = field.to_cells({lamp.x, lamp.y});
    const Vec2 away = foot - at;
    const float distance = std::max(length(away), 1e-3f);
    const Vec2 step = away * (1 / distance);
    const float climb = (lamp.z - z) / distance; // millimetres a cell
    float seen = 1;
    for (float t = 1.6f; t < distance; t *= 1.17f) {
        const float ray = z + climb * t;
        if (ray > field.highest) break;
        const float blocked = read(levels, at + step * t, 0.20f * t) - ray;
        const float penumbra = softness * t * field.cell + 0.04f;
        seen = std::min(seen, smooth(penumbra, -penumbra, blocked));
        if (seen <= 0) return 0;
    }
    return seen;
}

// Share of the sky above a cell that nothing stands before.
float open_sky(const Field& field, const Pyramid& levels, int x, int y) {
    constexpr int kDirections = 8;
    const float z = levels[1].at(x, y);
    const Vec2 at = {2 * static_cast<float>(x) + 0.5f, 2 * static_cast<float>(y) + 0.5f};
    float open = 0;
    for (int i = 0; i < kDirections; ++i) {
        const float angle = (static_cast<float>(i) + 0.3f) * 2 * kPi / kDirections;
        const Vec2 step = {std::cos(angle), std::sin(angle)};
        float slope = 0;
        for (float t = 2.5f; t < 420; t *= 1.9f) {
            const float rise = read(levels, at + step * t, 0.35f * t) - z;
            slope = std::max(slope, rise / (t * field.cell) * (1 - t / 600));
        }
        open += 1 - slope / std::sqrt(1 + slope * slope);
    }
    return open / kDirections;
}

} // namespace

void cast_light(Field& field, const Scene& scene) {
    const Pyramid levels = pyramid_of(field.height);
    const Vec3 lamp = scene.rig.lamp + Vec3{scene.camera.target.x, scene.camera.target.y,
                                            scene.camera.target_height};
    field.shadow = Grid(field.height.width, field.height.height, 1);
    for_rows(field.shadow.height, [&](int y) {
        for (int x = 0; x < field.shadow.width; ++x)
            field.shadow.at(x, y) = lamp_seen(field, levels, lamp, scene.rig.lamp_softness, x, y);
    });
    field.shadow = blurred(blurred(field.shadow, 1), 1);
    field.openness = Grid(levels[1].width, levels[1].height, 1);
    for_rows(field.openness.height, [&](int y) {
        for (int x = 0; x < field.openness.width; ++x)
            field.openness.at(x, y) = open_sky(field, levels, x, y);
    });
    field.soft = blurred(blurred(field.height, 5), 5);
    field.cavity = Grid(field.height.width, field.height.height);
    const float scale = 1.0f / (3.0f * field.cell + 0.15f);
    for (size_t i = 0; i < field.soft.values.size(); ++i)
        field.cavity.values[i] =
            std::clamp((field.soft.values[i] - field.height.values[i]) * scale, -1.0f, 1.0f);
}

} // namespace fettle::demo
