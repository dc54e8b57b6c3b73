// What a phone makes of the light: blur away from the focus, glow, vignette, tone, noise and its
// own smoothing; then eight-bit sRGB.
#pragma once

#include "view.h"

#include <cstdint>

namespace fettle::demo {

struct Sensor {
    Rgb balance = {1, 1, 1};
    float exposure = 1;
    float noise = 1;
    float contrast = 1;
    float saturation = 1;
    uint32_t seed = 1;
};

struct Pixels {
    int width = 0, height = 0;
    std::vector<uint8_t> rgb;
};

// `blur` scales the depth of field; the picture is brought down to the given width.
Pixels develop(const Picture& picture, const Sensor& sensor, float blur, int width, int height);
// The same picture turned by quarter turns clockwise, as a camera held upright stores it.
Pixels turned(const Pixels& pixels, int quarter_turns);

} // namespace fettle::demo
