#include "noise.h"
#include "parts.h"

namespace fettle::demo {

namespace {

float ink(float distance, float edge = 0.08f) {
    return smooth(edge, -edge, distance);
}

int plain(Scene& scene, Finish finish, Rgb tint, Placement frame, float amount = 0.15f) {
    Surface s;
    s.finish = finish;
    s.tint = tint;
    s.frame = frame;
    s.amount = amount;
    s.seed = 91;
    return scene.add_surface(s);
}

constexpr Rgb kBright = {0.54f, 0.53f, 0.52f};

std::function<float(Vec2)> dial_print(float reading) {
    std::vector<Words> figures;
    for (int i = 0; i < 10; ++i)
        figures.push_back(words(std::to_string(i * 10), Face::plain, 2.7f));
    const Words unit = words("0.01 mm", Face::plain, 1.7f);
    return [=](Vec2 p) {
        const float r = length(p),
                    turn = std::atan2(p.x, p.y) / (2 * kPi); // clockwise from the top
        const float tick = std::fabs(std::remainder(turn, 0.01f)) * 2 * kPi * r;
        const bool long_tick = std::fabs(std::remainder(turn, 0.1f)) < 0.004f;
        float mark = r < 24.2f && r > (long_tick ? 20.5f : 22.3f)
                         ? ink(tick - (long_tick ? 0.22f : 0.13f))
                         : 0;
        for (int i = 0; i < 10; ++i) {
            const float a = static_cast<float>(i) * 0.2f * kPi;
            mark = std::max(mark, ink(figures[static_cast<size_t>(i)]->distance(
                                      p - Vec2{17.3f * std::sin(a), 17.3f * std::cos(a)})));
        }
        mark = std::max(mark, ink(unit->distance(p - Vec2{0, -9})));
        const float a = reading * 2 * kPi;
        const Vec2 tip = {22.6f * std::sin(a), 22.6f * std::cos(a)};
        mark = std::max(mark, ink(segment(p, tip * -0.25f, tip, 0.35f)));
        return std::max(mark, ink(disc(p, 2.1f)));
    };
}

} // namespace

void dial_gauge(Scene& scene, Placement at, float reading) {
    Surface face;
    face.finish = Finish::lacquer;
    face.tint = {0.66f, 0.66f, 0.63f};
    face.frame = at;
    face.print = dial_print(reading);
    const int dial = scene.add_surface(face);
    const int rim = plain(scene, Finish::turned, kBright, at);
    const int stem = plain(scene, Finish::machined, kBright, {at.x, at.y, 0, at.angle + kPi / 2});
    scene.add(at, {31, 95}, [=](Vec2 p) -> Top {
        const float r = length(p);
        if (r < 24.8f) return {15.0f, dial};
        if (r < 30) {
            const float knurl = r > 29 ? 0.5f * std::cos(std::atan2(p.y, p.x) * 90) : 0;
            return {19 - 0.18f * (r - 27) * (r - 27) - smooth(26.0f, 25.0f, r) * 2 + knurl, rim};
        }
        if (p.y > 0)
            return {p.y < 34 && std::fabs(p.x) < 3 ? 8 + round_top(p.x, 3) : kNothing, stem};
        const float radius = p.y > -58 ? 4.0f : p.y > -82 ? 2.2f : p.y > -90 ? 2.9f : 0.0f;
        return {radius > 0 ? round_top(p.x, radius) + 9 - radius : kNothing, stem};
    });
}

// Blades fanned out from their case; the sizes are etched near the tips.
void feeler_gauge(Scene& scene, Placement at, float spread) {
    const char* const sizes[] = {".002", ".004", ".006", ".008", ".010", ".012", ".015", ".020"};
    for (int i = 0; i < 8; ++i) {
        const Placement blade =
            at.of({0, 0, 1.2f + 0.75f * static_cast<float>(i), spread * static_cast<float>(i)});
        const Words size = words(sizes[i], Face::plain, 3);
        Surface s;
        s.finish = Finish::machined;
        s.tint = {0.47f, 0.46f, 0.44f};
        s.frame = blade;
        s.seed = 30 + static_cast<uint32_t>(i);
        s.amount = 0.3f;
        s.print = [=](Vec2 p) { return 0.8f * ink(size->distance(p - Vec2{72, 0})); };
        const int steel = scene.add_surface(s);
        scene.add(blade, {92, 8}, [=](Vec2 p) -> Top {
            const float d = cut(segment(p, {0, 0}, {84, 0}, 6.3f), disc(p, 2.5f));
            return {raised(d, 0.6f, 0.15f), steel};
        });
    }
    const int cover = plain(scene, Finish::enamel, {0.018f, 0.02f, 0.024f}, at);
    const int rivet = plain(scene, Finish::turned, kBright, at);
    scene.add(at.of({0, 0, 7.4f, -0.25f}), {60, 12}, [=](Vec2 p) -> Top {
        if (length(p) < 4.5f) return {raised(disc(p, 4.5f), 3.2f, 1.5f), rivet};
        return {raised(segment(p, {0, 0}, {-46, 0}, 9), 1.6f, 0.7f), cover};
    });
}

void micrometer(Scene& scene, Placement at, float opening) {
    const int frame = plain(scene, Finish::lacquer, {0.055f, 0.065f, 0.075f}, at);
    const int steel = plain(scene, Finish::machined, kBright, {at.x, at.y, 0, at.angle + kPi / 2});
    const Words range = words("0-25 mm", Face::plain, 3);
    scene.add(at, {120, 50}, [=](Vec2 p) -> Top {
        const float bow = std::max(ring(p - Vec2{0, 0}, 30, 6.5f), p.y - 4);
        float h = raised(bow, 10, 2.5f);
        int surface = frame;
        if (h > 0) h -= 0.25f * ink(range->distance(p - Vec2{0, -30}), 0.1f);
        const auto rod = [&](float from, float to, float radius, float cut_in) {
            if (p.x < from || p.x > to) return;
            const float rise = round_top(p.y, radius) + 7 - radius - cut_in;
            if (rise > h) h = rise, surface = steel;
        };
        const float tip = -24 + opening;
        rod(-36, -24, 3.2f, 0);
        rod(tip, 34, 3.2f, 0);
        const float sleeve =
            0.12f * ink(std::fabs(std::remainder(p.x, 1.0f)) - 0.15f) * (p.y < 0 ? 1.0f : 0.0f);
        rod(34, 62, 6.2f, sleeve + 0.1f * ink(std::fabs(p.y) - 0.2f));
        const float thimble_start = 40 + opening;
        const float lines =
            p.x < thimble_start + 4
                ? 0.15f * ink(std::fabs(std::remainder(
                                  std::asin(std::clamp(p.y / 8.5f, -1.0f, 1.0f)), 0.18f)) *
                                  8 -
                              0.2f)
                : 0;
        const float knurl =
            p.x > thimble_start + 16 ? 0.25f * std::fabs(std::remainder(p.x + p.y, 1.6f)) : 0;
        rod(thimble_start, thimble_start + 42,
            8.6f - 0.4f * std::max(thimble_start + 5 - p.x, 0.0f), lines + knurl);
        rod(thimble_start + 42, thimble_start + 52, 5.5f,
            0.2f * std::fabs(std::remainder(p.y, 1.2f)));
        return {h, surface};
    });
}

void wire_brush(Scene& scene, Placement at) {
    const int handle =
        plain(scene, Finish::wood, {0.3f, 0.2f, 0.1f}, {at.x + 900, at.y + 59, 0, at.angle});
    const int bristle = plain(scene, Finish::greased, kBright, at, 0.2f);
    scene.add(at, {150, 26}, [=](Vec2 p) -> Top {
        if (slab(p - Vec2{-75, 0}, {65, 14}, 3) < 0) { // bristles upwards, in tufts
            const float tuft = std::cos(p.x * 0.78f) * std::cos(p.y * 0.78f);
            return {20 + 14 * smooth(-0.1f, 0.4f, tuft) +
                        2.5f * value_noise({p.x * 1.6f, p.y * 1.6f, 0}, 5),
                    bristle};
        }
        const float d =
            blend(slab(p - Vec2{-75, 0}, {70, 18}, 6), segment(p, {-5, 0}, {135, 4}, 12), 14);
        return {raised(d, 20, 7), handle};
    });
}

void rag(Scene& scene, Placement at, Rgb colour, Vec2 half) {
    const int cloth = plain(scene, Finish::paper, colour, at, 0.9f);
    const auto seed = static_cast<uint32_t>(half.x * 7);
    scene.add(at, half * 1.25f, [=](Vec2 p) -> Top {
        const float d = slab(p, half, 14) + 10 * cloud({p.x, p.y, 0}, 55, 6, seed);
        if (d > 0) return {};
        const Vec3 bent = {p.x + 12 * cloud({p.x, p.y, 1}, 70, 20, seed), p.y, 0};
        const float fold =
            1 - std::fabs(cloud({bent.x * 0.6f, bent.y * 1.6f, 0}, 60, 24, seed + 1));
        const float weave = 0.10f * std::sin(p.x * 4.2f) * std::sin(p.y * 4.2f);
        const float edge = smooth(0.0f, -22.0f, d);
        return {1.2f + (1.5f + 6 * fold * fold) * (0.25f + 0.75f * edge) + weave, cloth};
    });
}

} // namespace fettle::demo
