// The bench and all that lies on it as one grid of heights, with what light needs to know of every
// point: shadow of the lamp, openness to the room, edge or corner. Owns its grids.
#pragma once

#include "scene.h"

#include <cstdint>
#include <vector>

namespace fettle::demo {

struct Grid {
    int width = 0, height = 0;
    std::vector<float> values;

    Grid() = default;
    Grid(int w, int h, float value = 0)
        : width(w), height(h), values(static_cast<size_t>(w) * static_cast<size_t>(h), value) {}
    float& at(int x, int y) {
        return values[static_cast<size_t>(y) * static_cast<size_t>(width) + static_cast<size_t>(x)];
    }
    float at(int x, int y) const {
        return values[static_cast<size_t>(y) * static_cast<size_t>(width) + static_cast<size_t>(x)];
    }
    // Between the cell centres, held at the border.
    float between(float x, float y) const;
};

Grid halved(const Grid& grid);
Grid blurred(const Grid& grid, int radius);

struct Field {
    Vec2 origin;       // of the first cell's centre
    float cell = 0.2f; // millimetres
    float highest = 0, lowest = 0;
    Grid height, soft; // as it is, and smoothed over a dozen cells
    Grid shadow, openness, cavity;
    std::vector<uint8_t> surface;

    Vec2 to_cells(Vec2 p) const { return {(p.x - origin.x) / cell, (p.y - origin.y) / cell}; }
};

// Fills heights and surfaces over the box from low to high; light is added by cast_light.
Field build_field(const Scene& scene, Vec2 low, Vec2 high, float cell);
void cast_light(Field& field, const Scene& scene);

} // namespace fettle::demo
