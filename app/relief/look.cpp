#include "relief/look.h"

#include "relief/height.h"

#include <algorithm>
#include <cmath>

namespace fettle::relief {
namespace {

constexpr float kMostGain = 20;
constexpr float kMiddle = 0.5F, kDeviation = 0.2F; // what evened contrast comes to
constexpr float kWhiteShare = 0.99F;               // of the samples: brighter ones are held

// A plane taken off, sized, perhaps turned over.
struct Shaping {
    float by, right, down;

    explicit Shaping(const View& view)
        : by(float(view.turned_over ? -view.slope : view.slope)),
          right(float(view.lean_right)),
          down(float(view.lean_down)) {}
};

Grid shaded(const Relief& relief, const View& view, bool with_albedo) {
    const Direction light = direction_of(view.light_from, view.light_height);
    const Shaping shaping(view);
    const float x = float(light.x), y = float(light.y), z = float(light.z);
    Grid shades(relief.right.width, relief.right.height);
    for (std::size_t at = 0; at < shades.samples.size(); ++at) {
        const float right = (relief.right.samples[at] - shaping.right) * shaping.by;
        const float down = (relief.down.samples[at] - shaping.down) * shaping.by;
        const float cosine =
            std::max(0.0F, (z - x * right - y * down) / std::sqrt(1 + right * right + down * down));
        // Level ground comes out as the middle where there is nothing else to see.
        shades.samples[at] = with_albedo ? cosine * relief.albedo.samples[at] : cosine / (2 * z);
    }
    return shades;
}

// Light to the codes of sRGB (IEC 61966-2-1), with what is brightest at white.
void as_seen(Grid& light) {
    const float white = std::max(quantile(light.samples, kWhiteShare), 1e-6F);
    for (float& sample : light.samples) {
        const float share = std::clamp(sample / white, 0.0F, 1.0F);
        sample = share <= 0.0031308F ? 12.92F * share : 1.055F * std::pow(share, 1 / 2.4F) - 0.055F;
    }
}

Grid shaped_heights(const Relief& relief, const View& view) {
    const Shaping shaping(view);
    Grid heights = relief.height;
    const float middle_x = float(heights.width - 1) / 2, middle_y = float(heights.height - 1) / 2;
    for (int y = 0; y < heights.height; ++y)
        for (int x = 0; x < heights.width; ++x)
            heights.at(x, y) =
                shaping.by * (heights.at(x, y) - shaping.right * (float(x) - middle_x) -
                              shaping.down * (float(y) - middle_y));
    return heights;
}

// Brought to 0 to 1 between the lowest and highest but a few.
DepthScale spread(Grid& heights, std::optional<double> millimetres) {
    const float low = quantile(heights.samples, 1.0 - double(kWhiteShare));
    const float high = std::max(quantile(heights.samples, double(kWhiteShare)), low + 1e-6F);
    for (float& sample : heights.samples)
        sample = (sample - low) / (high - low);
    DepthScale scale{double(low), double(high), {}, {}};
    if (millimetres)
        scale.black_mm = double(low) * *millimetres, scale.white_mm = double(high) * *millimetres;
    return scale;
}

// `floor`: a deviation as small as this is noise and not raised to the full.
void even_contrast(Grid& shades, double radius, float amount) {
    const Grid mean = smoothed(shades, radius);
    Grid square(shades.width, shades.height);
    for (std::size_t at = 0; at < square.samples.size(); ++at) {
        const float off = shades.samples[at] - mean.samples[at];
        square.samples[at] = off * off;
    }
    square = smoothed(square, radius);
    for (std::size_t at = 0; at < shades.samples.size(); ++at) {
        const float deviation = std::sqrt(std::max(0.0F, square.samples[at]));
        const float gain = std::min(kMostGain, kDeviation / std::max(deviation, 1e-6F));
        const float even = kMiddle + gain * (shades.samples[at] - mean.samples[at]);
        shades.samples[at] += amount * (even - shades.samples[at]);
    }
}

GreyPicture in_grey(const Grid& shades) {
    GreyPicture picture{shades.width, shades.height, {}};
    picture.samples.reserve(shades.samples.size());
    for (const float shade : shades.samples)
        picture.samples.push_back(std::uint8_t(std::lround(255 * std::clamp(shade, 0.0F, 1.0F))));
    return picture;
}

} // namespace

Seen picture_of(const Relief& relief, const View& view, std::optional<double> millimetres) {
    Grid shades;
    Seen seen;
    switch (view.kind) {
    case Kind::lit:
        shades = shaded(relief, view, true);
        as_seen(shades);
        break;
    case Kind::relief:
        shades = shaded(relief, view, false);
        break;
    case Kind::depth:
        shades = shaped_heights(relief, view);
        seen.scale = spread(shades, millimetres);
        break;
    case Kind::albedo:
        shades = relief.albedo;
        as_seen(shades);
        break;
    }
    if (view.contrast > 0) {
        even_contrast(shades, view.radius, float(view.contrast));
        seen.scale.reset();
    }
    seen.picture = in_grey(shades);
    return seen;
}

} // namespace fettle::relief
