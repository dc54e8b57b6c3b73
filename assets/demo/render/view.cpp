#include "view.h"

#include "rows.h"

namespace fettle::demo {

Eye::Eye(const Camera& camera, int width, int height) : width_(width), height_(height) {
    focus_ = camera.view_width * camera.distance;
    forward_ = {0, std::sin(camera.pitch), -std::cos(camera.pitch)};
    const Vec3 level = {1, 0, 0}, top = cross(level, forward_);
    right_ = level * std::cos(camera.roll) + top * std::sin(camera.roll);
    up_ = top * std::cos(camera.roll) - level * std::sin(camera.roll);
    position_ = Vec3{camera.target.x, camera.target.y, camera.target_height} - forward_ * focus_;
    pixels_ = static_cast<float>(width) * focus_ / camera.view_width;
}

Vec3 Eye::ray(float x, float y) const {
    const float u = (x - static_cast<float>(width_) / 2) / pixels_;
    const float v = (static_cast<float>(height_) / 2 - y) / pixels_;
    return normalised(forward_ + right_ * u + up_ * v);
}

Vec2 Eye::project(Vec3 point) const {
    const Vec3 from = point - position_;
    const float k = pixels_ / dot(from, forward_);
    return {static_cast<float>(width_) / 2 + dot(from, right_) * k,
            static_cast<float>(height_) / 2 - dot(from, up_) * k};
}

namespace {

// The highest point of every block of cells and its neighbours, to leap over empty air.
Grid roof_of(const Grid& height, int block) {
    const int w = (height.width + block - 1) / block, h = (height.height + block - 1) / block;
    Grid roof(w, h, -1e6f);
    for (int y = 0; y < height.height; ++y)
        for (int x = 0; x < height.width; ++x)
            for (int by = std::max(y / block - 1, 0); by <= std::min(y / block + 1, h - 1); ++by)
                roof.at(x / block, by) = std::max(roof.at(x / block, by), height.at(x, y));
    Grid wide = roof;
    for (int y = 0; y < h; ++y)
        for (int x = 0; x < w; ++x)
            wide.at(x, y) = std::max({roof.at(std::max(x - 1, 0), y), roof.at(x, y),
                                      roof.at(std::min(x + 1, w - 1), y)});
    return wide;
}

constexpr int kBlock = 12;

float height_under(const Field& field, Vec3 p) {
    const Vec2 c = field.to_cells({p.x, p.y});
    return field.height.between(c.x, c.y);
}

float roof_over(const Field& field, const Grid& roof, Vec3 p) {
    const Vec2 c = field.to_cells({p.x, p.y});
    return roof.at(std::clamp(static_cast<int>(c.x) / kBlock, 0, roof.width - 1),
                   std::clamp(static_cast<int>(c.y) / kBlock, 0, roof.height - 1));
}

// Where the ray first meets the field.
Vec3 meet(const Field& field, const Grid& roof, Vec3 eye, Vec3 ray) {
    const float start = (eye.z - field.highest) / -ray.z;
    const float end = (eye.z - field.lowest) / -ray.z + field.cell;
    const float sideways = std::max(length({ray.x, ray.y}), 1e-4f);
    const float fine =
        std::min(0.8f * field.cell / sideways, 2.0f * field.cell + (end - start) / 6);
    const float leap = (static_cast<float>(kBlock) - 1) * field.cell / sideways;
    float above = start, t = start;
    while (t < end) {
        const Vec3 p = eye + ray * t;
        if (p.z <= height_under(field, p)) break;
        above = t;
        const float ahead = std::min(t + leap, end);
        t = eye.z + ray.z * ahead > roof_over(field, roof, p) && ahead < end ? ahead : t + fine;
    }
    float below = std::min(t, end);
    for (int i = 0; i < 7; ++i) {
        const float middle = (above + below) / 2;
        const Vec3 p = eye + ray * middle;
        (p.z <= height_under(field, p) ? below : above) = middle;
    }
    return eye + ray * below;
}

struct Box {
    Vec2 low{1e9f, 1e9f}, high{-1e9f, -1e9f};
    void take(Vec2 p) {
        low = {std::min(low.x, p.x), std::min(low.y, p.y)};
        high = {std::max(high.x, p.x), std::max(high.y, p.y)};
    }
};

// What of the bench the picture can show, down to a little below it.
Box seen_by(const Eye& eye, int width, int height) {
    Box box;
    for (const float x : {0.0f, static_cast<float>(width)})
        for (const float y : {0.0f, static_cast<float>(height)}) {
            const Vec3 ray = eye.ray(x, y),
                       p = eye.position() + ray * ((eye.position().z + 2) / -ray.z);
            box.take({p.x, p.y});
        }
    return box;
}

} // namespace

Picture photograph(const Scene& scene, int width, int height) {
    const Eye eye(scene.camera, width, height);
    const Box box = seen_by(eye, width, height);
    // A little coarser than the pixels, which also smooths as a small sensor does.
    const float cell = scene.camera.view_width / (0.85f * static_cast<float>(width));
    const Vec2 margin = {cell * 24, cell * 24};
    Field field = build_field(scene, box.low - margin, box.high + margin, cell);
    cast_light(field, scene);
    const Grid roof = roof_of(field.height, kBlock);
    Picture picture(width, height);
    for_rows(height, [&](int y) {
        for (int x = 0; x < width; ++x) {
            const Vec3 ray = eye.ray(static_cast<float>(x) + 0.5f, static_cast<float>(y) + 0.5f);
            const Vec3 point = meet(field, roof, eye.position(), ray);
            picture.light[picture.index(x, y)] = lit(scene, field, point, ray * -1);
            picture.away[picture.index(x, y)] =
                (eye.depth(point) - eye.focus()) / scene.camera.view_width;
        }
    });
    return picture;
}

} // namespace fettle::demo
