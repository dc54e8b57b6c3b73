// The camera: from a scene to linear light per pixel, with the depth that the lens needs.
#pragma once

#include "field.h"

#include <array>

namespace fettle::demo {

struct Picture {
    int width = 0, height = 0;
    std::vector<Rgb> light;
    std::vector<float> away; // distance from the plane in focus, in view widths

    Picture() = default;
    Picture(int w, int h)
        : width(w),
          height(h),
          light(static_cast<size_t>(w) * static_cast<size_t>(h)),
          away(light.size()) {}
    size_t index(int x, int y) const {
        return static_cast<size_t>(y) * static_cast<size_t>(width) + static_cast<size_t>(x);
    }
};

// Rays and projection of one camera; sizes in pixels of the picture asked for.
class Eye {
  public:
    Eye(const Camera& camera, int width, int height);

    Vec3 position() const { return position_; }
    Vec3 ray(float x, float y) const; // unit length
    Vec2 project(Vec3 point) const;
    float depth(Vec3 point) const { return dot(point - position_, forward_); }
    float focus() const { return focus_; }

  private:
    int width_, height_;
    Vec3 position_, forward_, right_, up_;
    float focus_, pixels_; // pixels per unit of slope
};

Picture photograph(const Scene& scene, int width, int height);

// The light a point sends to the eye.
Rgb lit(const Scene& scene, const Field& field, Vec3 point, Vec3 towards_eye);

} // namespace fettle::demo
