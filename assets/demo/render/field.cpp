#include "field.h"

#include "rows.h"

namespace fettle::demo {

float Grid::between(float x, float y) const {
    x = std::clamp(x, 0.0f, static_cast<float>(width - 1) - 0.001f);
    y = std::clamp(y, 0.0f, static_cast<float>(height - 1) - 0.001f);
    const int ix = static_cast<int>(x), iy = static_cast<int>(y);
    const float u = x - static_cast<float>(ix), v = y - static_cast<float>(iy);
    return mix(mix(at(ix, iy), at(ix + 1, iy), u), mix(at(ix, iy + 1), at(ix + 1, iy + 1), u), v);
}

Grid halved(const Grid& grid) {
    Grid out(std::max(grid.width / 2, 2), std::max(grid.height / 2, 2));
    for (int y = 0; y < out.height; ++y)
        for (int x = 0; x < out.width; ++x) {
            const int x0 = std::min(2 * x, grid.width - 1),
                      x1 = std::min(2 * x + 1, grid.width - 1);
            const int y0 = std::min(2 * y, grid.height - 1),
                      y1 = std::min(2 * y + 1, grid.height - 1);
            out.at(x, y) =
                (grid.at(x0, y0) + grid.at(x1, y0) + grid.at(x0, y1) + grid.at(x1, y1)) / 4;
        }
    return out;
}

namespace {

void blur_line(const float* from, float* to, int count, int stride, int radius) {
    float sum = 0;
    const auto read = [&](int i) { return from[std::clamp(i, 0, count - 1) * stride]; };
    for (int i = -radius; i <= radius; ++i)
        sum += read(i);
    for (int i = 0; i < count; ++i) {
        to[i * stride] = sum / static_cast<float>(2 * radius + 1);
        sum += read(i + radius + 1) - read(i - radius);
    }
}

struct Cell {
    float height;
    uint8_t surface;
};

Cell topmost(const Scene& scene, Vec2 p, const std::vector<const Body*>& near) {
    Cell cell{0, 0};
    for (const Body* body : near) {
        const Vec2 local = body->at.to_local(p);
        if (std::fabs(local.x) > body->half.x || std::fabs(local.y) > body->half.y) continue;
        const Top top = body->top(local);
        if (body->at.z + top.height > cell.height)
            cell = {body->at.z + top.height, static_cast<uint8_t>(top.surface)};
    }
    (void)scene;
    return cell;
}

std::vector<const Body*> bodies_at_row(const Scene& scene, float y) {
    std::vector<const Body*> near;
    for (const Body& body : scene.bodies)
        if (std::fabs(body.at.y - y) <= length(body.half)) near.push_back(&body);
    return near;
}

} // namespace

Grid blurred(const Grid& grid, int radius) {
    Grid across(grid.width, grid.height), out(grid.width, grid.height);
    for (int y = 0; y < grid.height; ++y)
        blur_line(&grid.values[static_cast<size_t>(y) * static_cast<size_t>(grid.width)],
                  &across.at(0, y), grid.width, 1, radius);
    for (int x = 0; x < grid.width; ++x)
        blur_line(&across.values[static_cast<size_t>(x)], &out.at(x, 0), grid.height, grid.width,
                  radius);
    return out;
}

Field build_field(const Scene& scene, Vec2 low, Vec2 high, float cell) {
    Field field;
    field.origin = low;
    field.cell = cell;
    field.height = Grid(static_cast<int>((high.x - low.x) / cell) + 1,
                        static_cast<int>((high.y - low.y) / cell) + 1);
    field.surface.resize(field.height.values.size());
    for_rows(field.height.height, [&](int y) {
        const float wy = low.y + cell * static_cast<float>(y);
        const auto near = bodies_at_row(scene, wy);
        for (int x = 0; x < field.height.width; ++x) {
            const float wx = low.x + cell * static_cast<float>(x);
            const Cell top = topmost(scene, {wx, wy}, near);
            const Surface& surface = scene.surfaces[top.surface];
            field.height.at(x, y) = top.height + relief(surface, {wx, wy, top.height}, 1.6f * cell);
            field.surface[static_cast<size_t>(y) * static_cast<size_t>(field.height.width) +
                          static_cast<size_t>(x)] = top.surface;
        }
    });
    const auto [least, most] =
        std::minmax_element(field.height.values.begin(), field.height.values.end());
    field.lowest = *least;
    field.highest = *most;
    return field;
}

} // namespace fettle::demo
