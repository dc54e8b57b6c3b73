#include "noise.h"
#include "parts.h"

namespace fettle::demo {

namespace {

struct Edgewise {
    float distance;
    int leaf;
};

// Nearest leaf of the pack at a point of the unbent strip (x along, y across the stack).
Edgewise nearest_leaf(const Pack& pack, Vec2 q) {
    const int i =
        std::clamp(static_cast<int>(std::floor(-q.y / pack.thickness)), 0, pack.leaves - 1);
    const float n = static_cast<float>(i);
    const float half = pack.longest / 2 * (1 - 0.92f * n / static_cast<float>(pack.leaves));
    const Vec2 centre = {0, -(n + 0.5f) * pack.thickness};
    return {slab(q - centre, {half, pack.thickness / 2 - 0.12f}, 1.0f), i};
}

// Straps bent round the pack against rebound.
float clip_distance(const Pack& pack, Vec2 q) {
    float d = 1e3f;
    for (const float share : {0.33f, 0.62f}) {
        const float depth =
            std::floor((1 - share) * static_cast<float>(pack.leaves)) * pack.thickness;
        const Vec2 centre = {std::fabs(q.x) - share * pack.longest / 2, q.y + depth / 2};
        d = join(d, slab(centre, {7.5f, depth / 2 + 4}, 2));
    }
    return d;
}

} // namespace

// The pack lies on its side: the leaves show their edges, the long leaf away from the viewer.
void spring_pack_on_edge(Scene& scene, Placement at, const Pack& pack) {
    const float reach = pack.longest / 2 + 40,
                stack = static_cast<float>(pack.leaves) * pack.thickness;
    scene.add(at, {reach, reach * 0.5f + 60}, [=](Vec2 p) -> Top {
        const Vec2 q = unbent(p, pack.radius);
        const Edgewise edge = nearest_leaf(pack, q);
        Top top{raised(edge.distance, pack.width - 0.8f * chance(edge.leaf, 3, 0, 5), 1.4f),
                pack.surface};
        const Vec2 eye = {std::fabs(q.x) - pack.longest / 2, q.y - 8};
        const float rolled = raised(cut(disc(eye, 17), disc(eye, 9.5f)), pack.width, 1.5f);
        top.height = std::max(top.height, rolled);
        if (pack.clips)
            top.height = std::max(top.height, raised(clip_distance(pack, q), pack.width + 4, 1.5f));
        const float away = q.y > 0 ? q.y : -stack - q.y;
        if (std::fabs(q.x) < 9 && away > 0 && away < 9) {
            const float side = std::fabs(q.x) < 4.5f ? 9.0f : 9 - (std::fabs(q.x) - 4.5f) * 1.5f;
            if (pack.width / 2 + side > top.height) top = {pack.width / 2 + side, pack.bolt};
        }
        return top;
    });
}

// One leaf on its flat, ends up.
void leaf(Scene& scene, Placement at, const Leaf& leaf) {
    const float half = leaf.length / 2, wide = leaf.width / 2;
    scene.add(at, {half + 22, wide + 3}, [=](Vec2 p) -> Top {
        const float x = std::fabs(p.x), y = std::fabs(p.y);
        float d = slab(p, {half, wide}, 2);
        if (!leaf.eyes)
            d = std::max(d, (x - half + 0.55f * (y - wide + 16)) * 0.87f); // trimmed ends
        d = cut(d, disc(p, 5.2f));
        float h = raised(d, leaf.thickness, 1.2f);
        const float camber = 0.022f * half * (x / half) * (x / half);
        if (leaf.eyes && x > half - 19)
            h = std::max(h, y < wide - 0.5f ? round_top(x - half, 17) + 4 : kNothing);
        // The next leaf has rubbed a step near its end.
        h -= 0.35f * smooth(4.0f, 0.0f, std::fabs(x - half * 0.84f)) *
             smooth(0.5f, 0.8f, 1 - y / wide * 0.4f);
        return {h > 0 ? h + camber + struck(leaf.stamps, p) : h, leaf.surface};
    });
}

} // namespace fettle::demo
