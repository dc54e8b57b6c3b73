// Grounds, lamps and surfaces that the photographs share.
#pragma once

#include "scene.h"

namespace fettle::demo {

enum class Ground { bench, floor, box, drawing };
enum class Hour { bulb, tube, window, torch };

// A scene with its ground and light; everything random in it follows the seed.
Scene studio(uint32_t seed, Ground ground, Hour hour);

int rust(Scene& scene, float amount);
int scale(Scene& scene, float rust);
int blasted(Scene& scene);
int primer(Scene& scene);
int enamel(Scene& scene, Rgb tint = {0.012f, 0.012f, 0.013f});
int green_paint(Scene& scene, float left);
int ground_steel(Scene& scene, float tarnish, float direction = 0);
int turned_steel(Scene& scene, float tarnish, Placement centre);
int bronze(Scene& scene, Placement centre);
int brass(Scene& scene, float tarnish);
int cast_iron(Scene& scene, float dirt);
int greased(Scene& scene, float film);

} // namespace fettle::demo
