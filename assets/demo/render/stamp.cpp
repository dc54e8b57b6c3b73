#include "stamp.h"

#include "noise.h"

namespace fettle::demo {

Vec2 Stamp::half() const {
    const Vec2 h = letters->half();
    switch (sign) {
    case Sign::diamond:
        return {h.x * 1.25f + h.y * 1.7f, h.x * 0.72f + h.y * 1.45f};
    case Sign::oval:
        return {h.x * 1.3f + h.y * 0.5f, h.y * 2.1f};
    case Sign::arrow_below:
        return {h.x * 1.1f, h.y * 2.3f};
    case Sign::none:
        break;
    }
    return h;
}

float Stamp::distance(Vec2 p) const {
    const Vec2 h = letters->half(), outer = half();
    const float line = h.y * 0.11f;
    switch (sign) {
    case Sign::diamond:
        return join(letters->distance(p), std::fabs(diamond(p, outer)) - line);
    case Sign::oval:
        return join(letters->distance(p), std::fabs(oval(p, outer)) - line);
    case Sign::arrow_below: {
        const float y = -h.y * 1.2f, tip = h.x * 0.95f;
        const float shaft = segment({p.x, p.y}, {-tip, y}, {tip, y}, line);
        const float barb_up = segment(p, {tip, y}, {tip - h.y * 0.7f, y + h.y * 0.55f}, line);
        const float barb_down = segment(p, {tip, y}, {tip - h.y * 0.7f, y - h.y * 0.55f}, line);
        const float letters_above = letters->distance({p.x, p.y - h.y * 0.75f});
        return join(letters_above, join(shaft, join(barb_up, barb_down)));
    }
    case Sign::none:
        break;
    }
    return letters->distance(p);
}

float Stamp::relief(Vec2 p) const {
    const Vec2 h = half();
    if (std::fabs(p.x) > h.x * 1.4f + 2 || std::fabs(p.y) > h.y * 1.4f + 2) return 0;
    const float d = distance(p) + 0.05f * cloud({p.x, p.y, 0}, h.y * 0.5f, 0.2f, seed);
    const float slope = std::max(letters->half().y * 0.16f, 0.12f);
    const float struck = smooth(slope * 0.5f, -slope * 1.1f, d);
    const float burr = std::exp(-(d - slope) * (d - slope) / (slope * slope * 0.9f));
    const float tilt =
        1 + lean * p.x / std::max(h.x, 1.0f) - 0.6f * lean * p.y / std::max(h.y, 1.0f);
    const float rubbed = cloud({p.x, p.y, 5}, h.y * 1.1f, h.y * 0.1f, seed + 11);
    const float left = smooth(wear * 1.9f - 1.1f, wear * 1.9f - 0.35f, rubbed) * (1 - 0.5f * wear);
    return depth * tilt * left * (0.20f * burr * (1 - wear) - struck);
}

Stamp quernmore(float size) {
    return {words("QM", Face::stamp, size), Sign::diamond};
}
Stamp orrinvale(float size) {
    return {words("OV", Face::serif, size), Sign::oval};
}
Stamp pellworth(float size) {
    return {words("PW", Face::stamp, size), Sign::arrow_below};
}
Stamp number(const std::string& text, float size) {
    return {words(text, Face::stamp, size), Sign::none};
}

void note_mark(Scene& scene, Placement at, const Stamp& stamp, const std::string& reading) {
    scene.marks.push_back({at, stamp.half(), reading});
}

} // namespace fettle::demo
