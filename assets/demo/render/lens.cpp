#include "lens.h"

#include "noise.h"
#include "rows.h"

namespace fettle::demo {

namespace {

constexpr int kTaps = 20;

// Gathers over a disc as wide as the point is out of focus.
Picture out_of_focus(const Picture& in, float strength) {
    Picture out = in;
    const float widest = static_cast<float>(in.width) * 0.006f;
    for_rows(in.height, [&](int y) {
        for (int x = 0; x < in.width; ++x) {
            const float beyond = std::max(std::fabs(in.away[in.index(x, y)]) - 0.04f, 0.0f);
            const float radius =
                std::min(beyond * strength * static_cast<float>(in.width) * 0.03f, widest);
            if (radius < 0.6f) continue;
            Rgb sum = in.light[in.index(x, y)];
            float weight = 1;
            for (int i = 0; i < kTaps; ++i) {
                const float r = radius * std::sqrt((static_cast<float>(i) + 0.5f) / kTaps);
                const float angle = 2.399963f * static_cast<float>(i);
                const int sx = std::clamp(x + static_cast<int>(std::lround(r * std::cos(angle))), 0,
                                          in.width - 1);
                const int sy = std::clamp(y + static_cast<int>(std::lround(r * std::sin(angle))), 0,
                                          in.height - 1);
                sum = sum + in.light[in.index(sx, sy)];
                weight += 1;
            }
            out.light[out.index(x, y)] = sum * (1 / weight);
        }
    });
    return out;
}

Picture reduced(const Picture& in, int width, int height) {
    Picture out(width, height);
    const float scale = static_cast<float>(in.width) / static_cast<float>(width);
    for_rows(height, [&](int y) {
        for (int x = 0; x < width; ++x) {
            // A tent a little wider than the pixel: smooths as a phone's noise reduction does.
            const float cx = (static_cast<float>(x) + 0.5f) * scale,
                        cy = (static_cast<float>(y) + 0.5f) * scale;
            const float reach = 1.15f * scale;
            Rgb sum;
            float weight = 0;
            for (int sy = static_cast<int>(cy - reach); sy <= static_cast<int>(cy + reach); ++sy)
                for (int sx = static_cast<int>(cx - reach); sx <= static_cast<int>(cx + reach);
                     ++sx) {
                    const float kx = 1 - std::fabs(static_cast<float>(sx) + 0.5f - cx) / reach;
                    const float ky = 1 - std::fabs(static_cast<float>(sy) + 0.5f - cy) / reach;
                    if (kx <= 0 || ky <= 0) continue;
                    const Rgb light = in.light[in.index(std::clamp(sx, 0, in.width - 1),
                                                        std::clamp(sy, 0, in.height - 1))];
                    // Weigh down glints, which would otherwise boil.
                    const float k = kx * ky / (1 + 0.5f * std::max({light.x, light.y, light.z}));
                    sum = sum + light * k;
                    weight += k;
                }
            out.light[out.index(x, y)] = sum * (1 / weight);
        }
    });
    return out;
}

// Glow of bright places over their surroundings, on a quarter-size copy.
std::vector<Grid> glow_of(const Picture& in) {
    std::vector<Grid> glow(3, Grid(in.width / 4, in.height / 4));
    for (int y = 0; y < in.height / 4; ++y)
        for (int x = 0; x < in.width / 4; ++x) {
            const Rgb light = in.light[in.index(4 * x + 2, 4 * y + 2)];
            glow[0].at(x, y) = std::max(light.x - 0.7f, 0.0f);
            glow[1].at(x, y) = std::max(light.y - 0.7f, 0.0f);
            glow[2].at(x, y) = std::max(light.z - 0.7f, 0.0f);
        }
    for (Grid& channel : glow)
        channel = blurred(blurred(channel, 7), 12);
    return glow;
}

// What brings the picture near to a middle grey: the camera's own exposure, which gives way only
// in part to a dark or bright subject.
float metered(const Picture& in) {
    double sum = 0;
    for (const Rgb& light : in.light)
        sum +=
            std::log(0.02 + static_cast<double>(0.3f * light.x + 0.6f * light.y + 0.1f * light.z));
    const double mean = std::exp(sum / static_cast<double>(in.light.size()));
    return static_cast<float>(std::pow(0.165 / mean, 0.8));
}

float curve(float v, float contrast) {
    v = std::max(v, 0.0f);
    const float film = v * (2.51f * v + 0.03f) / (v * (2.43f * v + 0.59f) + 0.14f);
    const float screen = clamp01(film) <= 0.0031308f
                             ? 12.92f * film
                             : 1.055f * std::pow(clamp01(film), 1 / 2.4f) - 0.055f;
    return mix(screen, screen * screen * (3 - 2 * screen), 0.35f * (contrast - 1) + 0.12f);
}

Rgb noisy(Rgb c, const Sensor& sensor, int x, int y) {
    const Vec3 fine = {static_cast<float>(x) * 0.62f, static_cast<float>(y) * 0.62f, 0.5f};
    const Vec3 blotch = {static_cast<float>(x) * 0.13f, static_cast<float>(y) * 0.13f, 0.5f};
    const float luma = 0.3f * c.x + 0.6f * c.y + 0.1f * c.z;
    const float k = sensor.noise * (0.012f + 0.010f * (1 - luma));
    const float grey = k * 0.75f * value_noise(fine, sensor.seed);
    const float red = k * 0.55f * value_noise(blotch, sensor.seed + 1),
                blue = k * 0.8f * value_noise(blotch, sensor.seed + 2);
    return c + Rgb{grey + red, grey, grey + blue};
}

Rgb vivid(Rgb c, float saturation) {
    const float luma = 0.3f * c.x + 0.6f * c.y + 0.1f * c.z;
    return mix(Rgb{luma, luma, luma}, c, saturation);
}

uint8_t eight_bits(float v) {
    return static_cast<uint8_t>(std::lround(clamp01(v) * 255));
}

} // namespace

Pixels develop(const Picture& picture, const Sensor& sensor, float blur, int width, int height) {
    const Picture image = reduced(out_of_focus(picture, blur), width, height);
    const float exposure = sensor.exposure * metered(image);
    const std::vector<Grid> glow = glow_of(image);
    Pixels out{width, height,
               std::vector<uint8_t>(static_cast<size_t>(width) * static_cast<size_t>(height) * 3)};
    for_rows(height, [&](int y) {
        for (int x = 0; x < width; ++x) {
            const float u = 2 * static_cast<float>(x) / static_cast<float>(width) - 1;
            const float v = (2 * static_cast<float>(y) / static_cast<float>(height) - 1) * 0.75f;
            const float corner =
                1 - 0.26f * (u * u + v * v) * (u * u + v * v) * 0.8f - 0.10f * (u * u + v * v);
            const float gx = static_cast<float>(x) / 4, gy = static_cast<float>(y) / 4;
            Rgb light =
                image.light[image.index(x, y)] +
                Rgb{glow[0].between(gx, gy), glow[1].between(gx, gy), glow[2].between(gx, gy)} *
                    0.25f;
            light = light * sensor.balance * (exposure * corner);
            Rgb c = {curve(light.x, sensor.contrast), curve(light.y, sensor.contrast),
                     curve(light.z, sensor.contrast)};
            c = noisy(vivid(c, sensor.saturation), sensor, x, y);
            uint8_t* pixel = &out.rgb[image.index(x, y) * 3];
            pixel[0] = eight_bits(c.x);
            pixel[1] = eight_bits(c.y);
            pixel[2] = eight_bits(c.z);
        }
    });
    return out;
}

Pixels turned(const Pixels& in, int quarter_turns) {
    if (quarter_turns % 4 == 0) return in;
    Pixels out{in.height, in.width, std::vector<uint8_t>(in.rgb.size())};
    for (int y = 0; y < in.height; ++y)
        for (int x = 0; x < in.width; ++x) {
            const size_t from =
                static_cast<size_t>(y) * static_cast<size_t>(in.width) + static_cast<size_t>(x);
            const int tx = in.height - 1 - y, ty = x;
            const size_t to =
                static_cast<size_t>(ty) * static_cast<size_t>(out.width) + static_cast<size_t>(tx);
            for (size_t channel = 0; channel < 3; ++channel)
                out.rgb[to * 3 + channel] = in.rgb[from * 3 + channel];
        }
    return turned(out, quarter_turns - 1);
}

} // namespace fettle::demo
