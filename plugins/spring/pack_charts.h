// The pictures of spring.pack: load over deflection, stress along each leaf, and the pack to scale.
// Knows the sink.
#pragma once

#include "describe.hpp"
#include "spring/pack_sheet.h"

namespace fettle::spring {

void draw_load(const fettle_sink* sink, const PackTyped& typed, const PackAnswer& answer);
void draw_stress(const fettle_sink* sink, const PackTyped& typed, const PackAnswer& answer);
void draw_pack(const fettle_sink* sink, const PackAnswer& answer);

} // namespace fettle::spring
