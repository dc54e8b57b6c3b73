// Repeatable noise for surfaces: the same point and seed give the same value on every run.
#pragma once

#include "geometry.h"

#include <cstdint>

namespace fettle::demo {

// Even in [0, 1).
float chance(int32_t x, int32_t y, int32_t z, uint32_t seed);
// Smooth, about [-1, 1], features one unit across.
float value_noise(Vec3 p, uint32_t seed);
// Octaves of value noise from wavelength `coarse` down to `fine` millimetres, about [-1, 1].
float cloud(Vec3 p, float coarse, float fine, uint32_t seed);
// Sparse round pits of about `size` millimetres: 0 outside, 1 at the deepest.
float pits(Vec3 p, float size, float share, uint32_t seed);

} // namespace fettle::demo
