// What things are made of and in what state: colour, gloss and the small relief of rust, blasting,
// paint, turned steel, wood. Knows nothing of light, camera or the shapes that wear it.
#pragma once

#include "geometry.h"

#include <cstdint>
#include <functional>

namespace fettle::demo {

enum class Finish {
    rusty,     // years of rust, pitted; `amount` from stained to scaled
    forged,    // black forging scale with rust breaking through
    blasted,   // fine even grey, matt
    red_oxide, // primer
    enamel,    // gloss over `tint`
    old_paint, // `tint` flaking off rust; `amount` is the paint that is left
    machined,  // bright steel, marks along x of the frame
    turned,    // bright steel or bronze (`tint`), marks round the frame's origin
    cast,      // sand-cast iron, greasy dirt by `amount`
    greased,   // steel under a film of old oil
    paper,     // card or paper of `tint`
    wood,      // scarred bench boards along x of the frame
    concrete,  // floor with oil stains
    cardboard, // flattened box
    rubber,    // matt black
    lacquer,   // smooth plain `tint`, half gloss
};

struct Surface {
    Finish finish = Finish::rusty;
    float amount = 0.5f;
    uint32_t seed = 1;
    Rgb tint = {0.5f, 0.5f, 0.5f};
    Placement frame;
    // Coverage of print or paint at a point of the frame, 0 to 1; empty for none.
    std::function<float(Vec2)> print = {};
    Rgb print_colour = {0.02f, 0.02f, 0.022f};
};

// How a point looks, ready for lighting.
struct Look {
    Rgb colour;                         // diffuse
    Rgb mirror = {0.04f, 0.04f, 0.04f}; // reflectance seen head-on
    float roughness = 0.8f;
};

// Where the point is: on an edge (cavity < 0), in a corner (> 0), and how finely one may look.
struct Site {
    Vec3 at;
    float cavity = 0;    // millimetres below its smoothed surroundings, scaled to about [-1, 1]
    float up = 1;        // z of the normal
    float finest = 0.3f; // millimetres; smaller detail is left out
};

// The small relief of the finish, in millimetres, added to the shape.
float relief(const Surface& surface, Vec3 at, float finest);
Look look(const Surface& surface, const Site& site);

} // namespace fettle::demo
