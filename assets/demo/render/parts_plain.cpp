#include "noise.h"
#include "parts.h"

namespace fettle::demo {

float struck(const std::vector<Stamped>& stamps, Vec2 p) {
    float h = 0;
    for (const Stamped& s : stamps)
        h += s.stamp.relief(s.at.to_local(p));
    return h;
}

namespace {

// Forged and cast outlines are never quite true.
float rough_edge(float distance, Vec2 p, float amount, uint32_t seed) {
    return distance + amount * cloud({p.x, p.y, 0}, 14, 2, seed);
}

} // namespace

// Seen from its outer side: a foot with four bolt holes, a web rising to a bored boss.
void spring_hanger(Scene& scene, Placement at, const Bracket& b) {
    const Vec2 boss = {0, 58};
    scene.add(at, {75, 110}, [=](Vec2 p) -> Top {
        const float foot = rough_edge(slab(p - Vec2{0, -38}, {62, 30}, 10), p, 0.5f, 3);
        const float hub = rough_edge(disc(p - boss, b.boss), p, 0.3f, 4);
        const float web =
            slab({p.x + p.y * 0.04f * (p.x > 0 ? 1.0f : -1.0f), p.y - 10}, {21, 48}, 8);
        const float bore = disc(p - boss, b.boss * 0.52f);
        float holes = 1e3f;
        for (const float x : {-44.0f, 44.0f})
            for (const float y : {-54.0f, -22.0f})
                holes = join(holes, disc(p - Vec2{x, y}, 5.6f));
        Top top{raised(cut(foot, holes), 12, 2.5f), b.body};
        const float ribbed = raised(web, 20 + 6 * smooth(12.0f, 16.0f, std::fabs(p.x)), 3.5f);
        if (bore > 0 && ribbed > top.height) top.height = ribbed;
        const float collar = raised(cut(hub, bore), 30, 1.2f);
        if (collar > top.height) top = {collar, length(p - boss) > b.boss - 1.6f ? b.body : b.face};
        if (holes > 0 && holes < 5.5f && foot < 0)
            top.height += 1.0f * smooth(5.5f, 5.0f, holes) * (top.height < 14 ? 1.0f : 0.0f);
        if (top.height > 0) top.height += struck(b.stamps, p);
        return top;
    });
}

void shackle_plate(Scene& scene, Placement at, int surface, float centres,
                   const std::vector<Stamped>& stamps) {
    const float half = centres / 2;
    scene.add(at, {half + 24, 26}, [=](Vec2 p) -> Top {
        const Vec2 q = {std::fabs(p.x) - half, p.y};
        const float body = blend(disc(q, 19), slab(p, {half, 13}, 2), 9);
        const float d = cut(rough_edge(body, p, 0.35f, 8), disc(q, 9.2f));
        const float h = raised(d, 9.5f, 1.8f);
        return {h > 0 ? h + struck(stamps, p) : h, surface};
    });
}

void bush(Scene& scene, Placement at, int surface, float outer, float inner, float height) {
    scene.add(at, {outer + 1, outer + 1}, [=](Vec2 p) -> Top {
        const float r = length(p);
        return {raised(std::max(r - outer, inner - r), height, 0.8f), surface};
    });
}

void lying_bush(Scene& scene, Placement at, int surface, float outer, float inner, float len) {
    scene.add(at, {len / 2 + 1, outer + 1}, [=](Vec2 p) -> Top {
        if (std::fabs(p.x) > len / 2) return {};
        const float chamfer = std::max(std::fabs(p.x) - len / 2 + 1.2f, 0.0f) * 0.6f;
        const float oil_hole = smooth(2.4f, 2.1f, length({p.x, p.y - outer * 0.25f}));
        return {round_top(p.y, outer - chamfer) + chamfer - oil_hole * (outer - inner), surface};
    });
}

void brake_drum(Scene& scene, Placement at, int body, int face,
                const std::vector<Stamped>& stamps) {
    scene.add(at, {180, 180}, [=](Vec2 p) -> Top {
        const float r = length(p), angle = std::atan2(p.y, p.x);
        const auto around = [&](int count, float turn, float radius) {
            const float step = 2 * kPi / static_cast<float>(count);
            const float a = std::remainder(angle - turn, step);
            return Vec2{r * std::cos(a) - radius, r * std::sin(a)};
        };
        if (r > 172) return {};
        if (r > 160) return {raised(r - 172, 44, 2) - (r < 165 ? 3.0f : 0.0f), body};
        const float studs = disc(around(6, 0.2f, 78), 8.5f), vents = disc(around(2, 0.9f, 112), 6);
        if (join(studs, vents) < 0 || r < 38) return {2, body};
        float h = 58 + 10 * smooth(70.0f, 46.0f, r) - 8 * smooth(146.0f, 159.0f, r);
        h += 2.0f * smooth(100.0f, 98.5f, r) - 1.5f * smooth(2.0f, 0.0f, join(studs, vents)) * 0.6f;
        h -= 3 * smooth(41.0f, 38.0f, r);
        return {h + struck(stamps, p), r < 98.5f && r > 58 ? face : body};
    });
}

void name_plate(Scene& scene, Placement at, int plate, Vec2 half) {
    const Words title = words("QUERNMORE MOTOR WORKS", Face::serif, half.y * 0.125f);
    const Words model = words("DROVER", Face::stamp, half.y * 0.26f);
    const Words chassis = words("CHASSIS No", Face::stamp, half.y * 0.10f);
    const Stamp serial = [&] {
        Stamp s = number("D 2147", half.y * 0.2f);
        s.depth = 0.3f;
        return s;
    }();
    scene.add(at, half + Vec2{1, 1}, [=](Vec2 p) -> Top {
        float holes = 1e3f;
        for (const float x : {-half.x + 5, half.x - 5})
            for (const float y : {-half.y + 5, half.y - 5})
                holes = join(holes, disc(p - Vec2{x, y}, 1.7f));
        const float d = cut(slab(p, half, 4), holes);
        float h = raised(d, 1.6f, 0.4f);
        if (h < 0) return {};
        const float raised_words =
            join(title->distance(p - Vec2{0, half.y * 0.55f}),
                 join(model->distance(p - Vec2{0, half.y * 0.1f}),
                      chassis->distance(p - Vec2{-half.x * 0.42f, -half.y * 0.5f})));
        const float border = std::fabs(d + 3) - 0.5f;
        const float window =
            slab(p - Vec2{half.x * 0.4f, -half.y * 0.5f}, {half.x * 0.45f, half.y * 0.2f}, 1);
        const float up = smooth(0.12f, -0.12f, join(join(raised_words, border), window));
        h += 0.45f * up + serial.relief(p - Vec2{half.x * 0.4f, -half.y * 0.5f});
        return {h + 0.7f * cloud({p.x, p.y, 3}, 60, 12, 5), plate};
    });
}

} // namespace fettle::demo
