// The parts of the lorry and the tools that lie beside them. Each function sets one thing down at
// a placement; surfaces are indices into the scene. Sizes in millimetres.
#pragma once

#include "stamp.h"

#include <string>
#include <vector>

namespace fettle::demo {

struct Stamped {
    Stamp stamp;
    Placement at; // in the part's own coordinates
};

// Height of all stamps at a point of the part; add to its top.
float struck(const std::vector<Stamped>& stamps, Vec2 p);

// --- parts_plain.cpp
struct Bracket {
    int body = 0, face = 0; // casting, machined faces
    std::vector<Stamped> stamps = {};
    float boss = 21; // radius
};
void spring_hanger(Scene& scene, Placement at, const Bracket& bracket);
void shackle_plate(Scene& scene, Placement at, int surface, float centres,
                   const std::vector<Stamped>& stamps);
void bush(Scene& scene, Placement at, int surface, float outer, float inner, float height);
void lying_bush(Scene& scene, Placement at, int surface, float outer, float inner, float length);
void brake_drum(Scene& scene, Placement at, int body, int face, const std::vector<Stamped>& stamps);
void name_plate(Scene& scene, Placement at, int plate, Vec2 half);

// --- parts_round.cpp
struct Pin {
    int surface = 0, thread = 0;
    float radius = 11, length = 110;
    float head_radius = 0; // 0: none
    float thread_length = 0, notch = 0;
    std::vector<Stamped> stamps = {};
};
void pin(Scene& scene, Placement at, const Pin& pin);
void bolt(Scene& scene, Placement at, int surface, float diameter, float length);
void nut(Scene& scene, Placement at, int surface, float across_flats,
         const std::vector<Stamped>& stamps = {});
void bolt_head(Scene& scene, Placement at, int surface, float across_flats,
               const std::vector<Stamped>& stamps = {});
void washer(Scene& scene, Placement at, int surface, float outer, float inner, float thickness);

// --- parts_spring.cpp
struct Pack {
    int surface = 0, bolt = 0;
    int leaves = 7;
    float longest = 900, thickness = 7, width = 45, radius = 1400;
    bool clips = true;
};
void spring_pack_on_edge(Scene& scene, Placement at, const Pack& pack);
struct Leaf {
    int surface = 0;
    float length = 600, width = 45, thickness = 7;
    bool eyes = false;
    std::vector<Stamped> stamps = {};
};
void leaf(Scene& scene, Placement at, const Leaf& leaf);

// --- parts_gears.cpp
void crown_wheel(Scene& scene, Placement at, int teeth_surface, int body,
                 const std::vector<Stamped>& stamps);
void axle_housing(Scene& scene, Placement at, int body, int face);
void pinion(Scene& scene, Placement at, int surface);

// --- tools.cpp, tools_gauges.cpp
void steel_rule(Scene& scene, Placement at, float length);
void spanner(Scene& scene, Placement at, int surface, float across_flats, float length);
void torque_wrench(Scene& scene, Placement at);
void feeler_gauge(Scene& scene, Placement at, float spread);
void dial_gauge(Scene& scene, Placement at, float reading);
void micrometer(Scene& scene, Placement at, float opening);
void tag_card(Scene& scene, Placement at, const std::string& code, const std::string& line,
              float string_turn);

// --- tools_cards.cpp
void code_card(Scene& scene, Placement at, const std::string& code, const std::string& line);
void shim_tin(Scene& scene, Placement at);
void wire_brush(Scene& scene, Placement at);
void rag(Scene& scene, Placement at, Rgb colour, Vec2 half);

} // namespace fettle::demo
