// Makers' marks and numbers struck into metal: the relief they leave, with burrs thrown up at the
// edges, worn in places. Also the same marks as print.
#pragma once

#include "lettering.h"
#include "scene.h"

namespace fettle::demo {

enum class Sign { none, diamond, oval, arrow_below };

struct Stamp {
    Words letters;
    Sign sign = Sign::none;
    float depth = 0.5f; // millimetres
    float wear = 0.2f;  // 0 fresh, 1 nearly gone
    float lean = 0.2f;  // how unevenly the die was struck
    uint32_t seed = 1;

    Vec2 half() const;
    // Signed distance to the strokes of letters and sign.
    float distance(Vec2 p) const;
    // Change of height at a point, millimetres.
    float relief(Vec2 p) const;
};

Stamp quernmore(float size); // QM in a diamond
Stamp orrinvale(float size); // OV in an oval
Stamp pellworth(float size); // PW over an arrow
Stamp number(const std::string& text, float size);

// Notes the stamp for the reader of marks; `at` is where it lies on the bench, z its surface.
void note_mark(Scene& scene, Placement at, const Stamp& stamp, const std::string& reading);

} // namespace fettle::demo
