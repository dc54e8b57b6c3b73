// What stands before the camera: bodies as heights over the bench, their surfaces, the lamps, the
// camera, and the stampings that a reader would mark. Plain values; building them is the job of
// the parts_*.cpp files, turning them into a picture that of field, light and view.
#pragma once

#include "outline.h"
#include "surfaces.h"

#include <functional>
#include <string>
#include <vector>

namespace fettle::demo {

struct Top {
    float height = kNothing; // above the foot of the body
    int surface = 0;         // index into Scene::surfaces
};

struct Body {
    Placement at;
    Vec2 half; // nothing of the body lies further than this from its origin
    std::function<Top(Vec2)> top;
};

// A stamping in the picture; the renderer turns it into a region in pixels.
struct Mark {
    Placement at;
    Vec2 half;
    std::string reading;
};

struct Rig {
    Vec3 lamp = {-300, 250, 350}; // millimetres from the target
    Rgb lamp_colour = {2.6f, 2.0f, 1.35f};
    float lamp_softness = 0.10f;
    float window_bearing = 0.6f; // direction of the window, radians from x
    Rgb window_colour = {0.30f, 0.38f, 0.50f};
    Rgb ambient = {0.10f, 0.095f, 0.09f};
};

struct Camera {
    Vec2 target;
    float target_height = 0;
    float view_width = 240; // millimetres across the picture at the target
    float distance = 1.05f; // in view widths
    float pitch = 0.35f;    // from straight down
    float roll = 0;
    float blur = 1; // depth of field; 1 is a phone held close
};

struct Scene {
    uint32_t seed = 1;
    std::vector<Surface> surfaces; // the first is the ground
    std::vector<Body> bodies;
    std::vector<Mark> marks;
    Rig rig;
    Camera camera;
    float exposure = 1;

    int add_surface(Surface surface) {
        surfaces.push_back(std::move(surface));
        return static_cast<int>(surfaces.size()) - 1;
    }
    void add(Placement at, Vec2 half, std::function<Top(Vec2)> top) {
        bodies.push_back({at, half, std::move(top)});
    }
};

} // namespace fettle::demo
