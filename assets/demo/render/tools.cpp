#include "noise.h"
#include "parts.h"

#include <memory>

namespace fettle::demo {

namespace {

Surface printed(Finish finish, Rgb tint, Placement frame, std::function<float(Vec2)> print) {
    Surface s;
    s.finish = finish;
    s.tint = tint;
    s.frame = frame;
    s.amount = 0.25f;
    s.seed = 77;
    s.print = std::move(print);
    return s;
}

float ink(float distance, float edge = 0.08f) {
    return smooth(edge, -edge, distance);
}

// A soft line through the points, as string or wire lies.
float along(Vec2 p, const std::vector<Vec2>& points) {
    float d = 1e6f;
    for (size_t i = 0; i + 1 < points.size(); ++i)
        d = join(d, segment(p, points[i], points[i + 1], 0));
    return d;
}

std::vector<Vec2> curve_of(Vec2 from, float heading, float bend, float wobble, int steps,
                           float step) {
    std::vector<Vec2> points{from};
    for (int i = 0; i < steps; ++i) {
        heading += bend + wobble * std::sin(0.55f * static_cast<float>(i));
        points.push_back(points.back() + Vec2{std::cos(heading), std::sin(heading)} * step);
    }
    return points;
}

} // namespace

void steel_rule(Scene& scene, Placement at, float len) {
    std::vector<Words> figures;
    for (int cm = 1; cm * 10 < static_cast<int>(len); ++cm)
        figures.push_back(words(std::to_string(cm * 10), Face::stamp, 2.6f));
    const auto print = [=](Vec2 p) {
        const float x = p.x + len / 2, to_edge = p.y + 12.5f;
        const float mm = std::fabs(std::remainder(x, 1.0f));
        const auto n = static_cast<int>(std::lround(x));
        const float tall = n % 10 == 0 ? 7.5f : n % 5 == 0 ? 5.5f : 3.6f;
        float mark = to_edge < tall ? ink(mm - 0.13f, 0.07f) : 0;
        const auto cm = static_cast<size_t>(std::max(std::lround(x * 0.1f), 1L));
        if (cm <= figures.size())
            mark = std::max(mark, ink(figures[cm - 1]->distance(
                                      {x - 10 * static_cast<float>(cm) + 0.0f, p.y + 2.2f})));
        const float half_mm = std::fabs(std::remainder(x, 0.5f));
        return std::max(mark, 12.5f - p.y < 3.2f ? ink(half_mm - 0.1f, 0.06f) : 0);
    };
    const int steel =
        scene.add_surface(printed(Finish::machined, {0.44f, 0.43f, 0.41f}, at, print));
    scene.add(at, {len / 2 + 3, 14}, [=](Vec2 p) -> Top {
        const float d =
            cut(slab(p, {len / 2 + 2, 12.5f}, 0.8f), disc(p - Vec2{len / 2 - 3, 0}, 2.4f));
        return {raised(d, 1.1f, 0.2f), steel};
    });
}

void spanner(Scene& scene, Placement at, int surface, float flats, float len) {
    const Stamp size = number(std::to_string(static_cast<int>(flats)), 4.2f);
    scene.add(at, {len / 2 + flats * 1.4f, flats * 1.4f}, [=](Vec2 p) -> Top {
        float d = segment(p, {-len / 2, 0}, {len / 2, 0}, flats * 0.42f);
        for (const float end : {-1.0f, 1.0f}) {
            const Vec2 q = p - Vec2{end * len / 2, 0};
            const float jaw = flats * (end > 0 ? 0.5f : 0.42f), turn = 0.26f;
            const Vec2 j = {end * (q.x * std::cos(turn) + q.y * std::sin(turn)),
                            q.y * std::cos(turn) - q.x * std::sin(turn)};
            d = blend(d, disc(q, jaw * 2.15f), 6);
            d = cut(d, slab(j - Vec2{flats * 0.75f, 0}, {flats * 0.85f, jaw}, 1));
        }
        float h = raised(d, 6.5f, 2);
        const float web = slab(p, {len / 2 - flats * 1.2f, flats * 0.25f}, 3);
        if (h > 0) h += -1.2f * smooth(0.5f, -0.8f, web) + size.relief(p);
        return {h, surface};
    });
}

void torque_wrench(Scene& scene, Placement at) {
    Surface chrome;
    chrome.finish = Finish::machined;
    chrome.tint = {0.55f, 0.55f, 0.55f};
    chrome.amount = 0.15f;
    chrome.frame = at;
    const int steel = scene.add_surface(chrome);
    chrome.finish = Finish::rubber;
    const int grip = scene.add_surface(chrome);
    const Words scale = words("40  50  60  70  80 lbf.ft", Face::stamp, 2.6f);
    scene.add(at, {250, 30}, [=](Vec2 p) -> Top {
        if (p.x < -185) { // ratchet head
            const float d = disc(p - Vec2{-205, 0}, 22);
            const float knob = raised(disc(p - Vec2{-205, 0}, 10), 36, 1);
            return {std::max(raised(d, 31, 3), knob), steel};
        }
        if (p.x > 240) return {};
        if (p.x > 120) {
            const float knurl = 0.5f * (std::fabs(std::remainder(p.x + p.y, 3.0f)) +
                                        std::fabs(std::remainder(p.x - p.y, 3.0f)));
            return {round_top(p.y, 15.5f) - knurl * (std::fabs(p.x - 180) < 50 ? 1.0f : 0.0f),
                    grip};
        }
        const float r = p.x > 95 ? 14.5f : 10.5f;
        const float cut_in = 0.25f * ink(scale->distance(p - Vec2{35, 0}), 0.1f);
        return {round_top(p.y, r) + 15 - r - (p.x < 95 ? cut_in : 0), steel};
    });
}

void tag_card(Scene& scene, Placement at, const std::string& code, const std::string& line,
              float string_turn) {
    const Words big = words(code, Face::print, 17);
    const Words small = words(line, Face::plain, 3.4f);
    const float longest = std::max(small->half().x, 1.0f), squeeze = std::min(1.0f, 28 / longest);
    const auto print = [=](Vec2 p) {
        const float wobble = 0.12f * cloud({p.x, p.y, 0}, 5, 0.5f, 3);
        float mark = ink(big->distance(p - Vec2{8, 4}) + wobble, 0.25f);
        mark =
            std::max(mark, ink(small->distance({(p.x - 8) / squeeze, (p.y + 14) / squeeze}), 0.1f));
        return mark * (0.86f + 0.14f * cloud({p.x, p.y, 2}, 2, 0.4f, 9));
    };
    Surface card = printed(Finish::paper, {0.64f, 0.53f, 0.35f}, at, print);
    card.print_colour = {0.022f, 0.022f, 0.03f};
    card.amount = 0.45f;
    const int paper = scene.add_surface(card);
    Surface patch = printed(Finish::paper, {0.36f, 0.13f, 0.07f}, at, {});
    const int ring_paper = scene.add_surface(patch);
    patch.tint = {0.55f, 0.48f, 0.36f};
    const int twine = scene.add_surface(patch);
    scene.add(at, {46, 27}, [=](Vec2 p) -> Top {
        float d = slab(p, {44, 25}, 1);
        d = std::max(d, (std::fabs(p.y) - p.x - 57) * 0.707f);
        const Vec2 eye = p - Vec2{-34, 0};
        d = cut(d, disc(eye, 2.3f));
        const float curl = 0.0012f * (p.x + 10) * (p.x + 10) + 0.02f * p.y;
        return {raised(d, 0.9f + std::max(curl, 0.0f), 0.15f),
                disc(eye, 6) < 0 ? ring_paper : paper};
    });
    const auto twist = [&](float bend, float wobble) {
        return curve_of({-34, 0}, kPi + string_turn, bend, wobble, 26, 4.5f);
    };
    const std::vector<Vec2> one = twist(0.035f, 0.07f), other = twist(-0.03f, 0.06f);
    scene.add(at, {160, 130}, [=](Vec2 p) -> Top {
        const float d = join(along(p, one), along(p, other));
        if (d > 0.85f) return {};
        return {1.6f + round_top(d, 0.85f) + 0.25f * std::sin(3 * (p.x + p.y)), twine};
    });
}

void shim_tin(Scene& scene, Placement at) {
    Surface tin = printed(Finish::turned, {0.42f, 0.41f, 0.39f}, at, {});
    tin.amount = 0.6f;
    const int surface = scene.add_surface(tin);
    scene.add(at, {50, 50}, [=](Vec2 p) -> Top {
        const float r = length(p);
        if (r > 48) return {};
        return {r > 46.4f ? 16.0f : 0.8f + 0.4f * std::cos(r * 0.9f) * (r > 36 ? 1.0f : 0.0f),
                surface};
    });
    for (int i = 0; i < 9; ++i) {
        const auto k = static_cast<float>(i);
        const float turn = 2.4f * k, reach = 19 * chance(i, 1, 0, 31);
        const int shim =
            i % 4 == 3 ? scene.add_surface(printed(Finish::turned, {0.70f, 0.5f, 0.26f}, at, {}))
                       : scene.add_surface(
                             printed(Finish::machined, {0.46f, 0.45f, 0.43f}, {0, 0, 0, k}, {}));
        const Vec2 p = at.to_world({reach * std::cos(turn), reach * std::sin(turn)});
        const float lean_x = 0.05f * (chance(i, 2, 0, 31) - 0.5f),
                    lean_y = 0.05f * (chance(i, 3, 0, 31) - 0.5f);
        scene.add({p.x, p.y, at.z + 2 + 0.7f * k, 0}, {25, 25}, [=](Vec2 q) -> Top {
            const float r = length(q);
            return {raised(std::max(r - 24, 16.5f - r), 1.2f + lean_x * q.x + lean_y * q.y, 0.2f),
                    shim};
        });
    }
}

} // namespace fettle::demo
