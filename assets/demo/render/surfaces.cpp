#include "surfaces.h"

#include "noise.h"

namespace fettle::demo {

namespace {

constexpr Rgb kSteel = {0.50f, 0.49f, 0.475f};

Rgb rust_colour(float t) {
    constexpr Rgb black = {0.026f, 0.018f, 0.015f}, brown = {0.088f, 0.045f, 0.027f};
    constexpr Rgb red = {0.158f, 0.071f, 0.035f}, powder = {0.29f, 0.155f, 0.078f};
    if (t < 0.35f) return mix(black, brown, t / 0.35f);
    if (t < 0.72f) return mix(brown, red, (t - 0.35f) / 0.37f);
    return mix(red, powder, clamp01((t - 0.72f) / 0.4f));
}

Look rusty(const Surface& s, const Site& site) {
    const float big = cloud(site.at, 55, 9, s.seed + 100), mid = cloud(site.at, 7, 1, s.seed + 101);
    const float small = cloud(site.at, 1.3f, site.finest, s.seed + 102);
    const float t = 0.44f + 0.25f * big + 0.20f * mid + 0.14f * small + 0.14f * site.cavity;
    Look out{rust_colour(clamp01(t + 0.12f * (s.amount - 0.5f)))};
    const float rubbed = smooth(-0.25f, -0.8f, site.cavity + 0.3f * mid) * (1 - s.amount);
    out.colour = mix(out.colour, {0.10f, 0.09f, 0.085f}, 0.5f * rubbed);
    out.mirror = mix({0.035f, 0.035f, 0.035f}, kSteel * 0.6f, 0.6f * rubbed);
    out.roughness = mix(0.85f, 0.45f, rubbed);
    return out;
}

Look forged(const Surface& s, const Site& site) {
    const float v = cloud(site.at, 16, site.finest, s.seed + 110) + 0.5f * site.cavity;
    const Look rust = rusty(s, site);
    const float t = smooth(0.75f - 1.5f * s.amount, 1.05f - 1.5f * s.amount, v);
    const float tone = 0.5f + 0.5f * cloud(site.at, 6, 1, s.seed + 111);
    const Rgb scale = mix({0.028f, 0.029f, 0.032f}, {0.062f, 0.060f, 0.060f}, tone);
    return {mix(scale, rust.colour, t), mix(Rgb{0.07f, 0.07f, 0.073f}, rust.mirror, t),
            mix(0.48f, 0.85f, t)};
}

Look blasted(const Surface& s, const Site& site) {
    const float t = cloud(site.at, 30, 3, s.seed + 120);
    const float grain = cloud(site.at, 0.8f, site.finest * 0.8f, s.seed + 121);
    Look out{Rgb{0.165f, 0.165f, 0.163f} * (1 + 0.10f * t + 0.20f * grain - 0.30f * site.cavity)};
    out.mirror = kSteel * (0.15f + 0.05f * grain);
    out.roughness = 0.62f;
    return out;
}

Look painted(const Surface& s, const Site& site, float gloss) {
    const float t = cloud(site.at, 35, 4, s.seed + 130);
    Look out{s.tint * (1 + 0.10f * t)};
    out.roughness = mix(0.75f, 0.07f, gloss);
    // Dust settles on what lies flat and in the corners.
    const float dust =
        smooth(0.1f, 0.9f, site.up) * (0.02f + 0.05f * clamp01(site.cavity + t * 0.4f));
    out.colour = mix(out.colour, {0.45f, 0.42f, 0.38f}, dust * 0.5f);
    return out;
}

Look old_paint(const Surface& s, const Site& site) {
    const float v =
        cloud(site.at, 22, site.finest, s.seed) + 0.5f * cloud(site.at, 4, site.finest, s.seed + 7);
    const float edge = 1.1f - 2.2f * s.amount;
    const float kept = smooth(edge - 0.03f, edge + 0.03f, v);
    const float faded = 0.5f + 0.5f * cloud(site.at, 26, 1.5f, s.seed + 140);
    Rgb paint = mix(s.tint, Rgb{0.22f, 0.22f, 0.19f}, 0.05f + 0.2f * faded);
    // Rust bleeds into the paint beside a bare patch.
    const float bleeding = smooth(edge + 0.5f, edge, v);
    paint = mix(paint, paint * Rgb{0.62f, 0.36f, 0.2f}, 0.75f * bleeding);
    const Look rust = rusty(s, site);
    return {mix(rust.colour, paint, kept), {0.04f, 0.04f, 0.04f}, mix(rust.roughness, 0.5f, kept)};
}

Look bright(const Surface& s, const Site& site) {
    const float stain = cloud(site.at, 24, 1.2f, s.seed + 150) + 0.4f * site.cavity;
    Look out{s.tint * 0.10f, s.tint, 0.27f};
    const float tarnish = s.amount * smooth(0.0f, 0.9f, stain);
    out.mirror = out.mirror * (1 - 0.55f * tarnish);
    out.colour = mix(out.colour, {0.10f, 0.07f, 0.045f}, tarnish);
    out.roughness = 0.25f + 0.25f * tarnish + 0.05f * cloud(site.at, 9, 2, s.seed + 151);
    return out;
}

Look cast_iron(const Surface& s, const Site& site) {
    const float t = cloud(site.at, 20, 1, s.seed + 160);
    const float dirt = clamp01(s.amount + 0.6f * t * s.amount + 0.5f * site.cavity * s.amount);
    Look out{mix(Rgb{0.13f, 0.125f, 0.12f}, {0.028f, 0.022f, 0.016f}, dirt)};
    out.mirror = mix(kSteel * 0.2f, {0.05f, 0.05f, 0.05f}, dirt);
    out.roughness = mix(0.62f, 0.42f, dirt);
    return out;
}

Look greased(const Surface& s, const Site& site) {
    const float t = cloud(site.at, 14, 1, s.seed + 170) + 0.6f * site.cavity;
    const Look rust = rusty(s, site);
    const float film = smooth(0.7f - 1.4f * s.amount, 1.0f - 1.4f * s.amount, t);
    return {mix(rust.colour * 0.55f, {0.018f, 0.013f, 0.009f}, film),
            mix(Rgb{0.10f, 0.09f, 0.08f}, {0.05f, 0.05f, 0.05f}, film), mix(0.40f, 0.24f, film)};
}

Rgb stained(Rgb colour, const Surface& s, const Site& site, Rgb stain) {
    const Vec3 bent = site.at + Vec3{14 * cloud(site.at, 60, 6, s.seed + 182),
                                     14 * cloud(site.at, 60, 6, s.seed + 183), 0};
    const float blot =
        cloud(bent, 150, 10, s.seed + 180) + 0.12f * cloud(site.at, 6, 1, s.seed + 184);
    const float drop = pits({bent.x, bent.y, 0}, 38, 0.10f, s.seed + 181);
    const float wet = 0.75f * smooth(0.30f, 0.75f, blot) + 0.55f * smooth(0.2f, 0.45f, drop);
    return mix(colour, colour * stain, clamp01(wet * s.amount));
}

Look wood(const Surface& s, const Site& site) {
    const Vec2 p = s.frame.to_local({site.at.x, site.at.y});
    const float board = std::floor(p.y / 118);
    const float tone = chance(static_cast<int>(board), 0, 0, s.seed);
    const float rings =
        cloud({p.x * 0.012f, p.y * 0.16f + 0.8f * cloud({p.x, p.y, 0}, 160, 30, s.seed), board * 9},
              1, 0.05f, s.seed + 190);
    const float grain = cloud({p.x * 0.05f, p.y * 1.3f, board}, 1, 0.2f, s.seed + 191);
    Rgb colour = mix(Rgb{0.155f, 0.105f, 0.064f}, {0.27f, 0.19f, 0.118f},
                     0.45f + 0.3f * rings + 0.15f * grain);
    colour = mix(colour, {0.15f, 0.14f, 0.125f}, 0.3f + 0.3f * tone);
    colour = colour * (1 - 0.35f * clamp01(site.cavity * 1.6f));
    colour = colour * (1 + 0.18f * cloud({p.x, p.y, 0}, 90, 3, s.seed + 192));
    return {stained(colour, s, site, {0.30f, 0.27f, 0.25f}), {0.035f, 0.035f, 0.035f}, 0.62f};
}

Look concrete(const Surface& s, const Site& site) {
    const float t = cloud(site.at, 70, site.finest, s.seed + 200);
    const float speck = cloud(site.at, 2, site.finest, s.seed + 201);
    const Rgb colour =
        Rgb{0.225f, 0.215f, 0.198f} * (1 + 0.2f * t + 0.1f * speck - 0.3f * clamp01(site.cavity));
    return {stained(colour, s, site, {0.25f, 0.23f, 0.21f}), {0.03f, 0.03f, 0.03f}, 0.75f};
}

Look cardboard(const Surface& s, const Site& site) {
    const float t = cloud(site.at, 60, 2, s.seed + 210);
    const Vec2 p = s.frame.to_local({site.at.x, site.at.y});
    const float flute =
        0.03f * std::sin(p.x * 0.95f) + 0.05f * cloud({p.x * 0.1f, p.y * 1.2f, 0}, 1, 0.2f, s.seed);
    const Rgb colour = Rgb{0.335f, 0.235f, 0.145f} * (1 + 0.10f * t + flute);
    return {stained(colour, s, site, {0.5f, 0.45f, 0.4f}), {0.03f, 0.03f, 0.03f}, 0.8f};
}

Look paper(const Surface& s, const Site& site) {
    const float t = cloud(site.at, 25, site.finest, s.seed + 220);
    const float thumb = smooth(0.25f, 0.9f, cloud(site.at, 30, 4, s.seed + 221));
    const Rgb colour = s.tint * (1 + 0.04f * t);
    return {mix(colour, colour * Rgb{0.55f, 0.5f, 0.43f}, s.amount * thumb),
            {0.03f, 0.03f, 0.03f},
            0.8f};
}

Look bare(const Surface& s, const Site& site) {
    switch (s.finish) {
    case Finish::rusty:
        return rusty(s, site);
    case Finish::forged:
        return forged(s, site);
    case Finish::blasted:
        return blasted(s, site);
    case Finish::red_oxide:
        return painted(s, site, 0.15f);
    case Finish::enamel:
        return painted(s, site, 1);
    case Finish::old_paint:
        return old_paint(s, site);
    case Finish::machined:
    case Finish::turned:
        return bright(s, site);
    case Finish::cast:
        return cast_iron(s, site);
    case Finish::greased:
        return greased(s, site);
    case Finish::paper:
        return paper(s, site);
    case Finish::wood:
        return wood(s, site);
    case Finish::concrete:
        return concrete(s, site);
    case Finish::cardboard:
        return cardboard(s, site);
    case Finish::rubber:
        return {{0.022f, 0.022f, 0.023f}, {0.035f, 0.035f, 0.035f}, 0.6f};
    case Finish::lacquer:
        return painted(s, site, 0.75f);
    }
    return {};
}

} // namespace

Look look(const Surface& s, const Site& site) {
    Look out = bare(s, site);
    if (!s.print) return out;
    const float ink = clamp01(s.print(s.frame.to_local({site.at.x, site.at.y})));
    out.colour = mix(out.colour, s.print_colour, ink);
    out.mirror = mix(out.mirror, {0.04f, 0.04f, 0.04f}, ink);
    return out;
}

} // namespace fettle::demo
