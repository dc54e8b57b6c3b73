// demo-render OUT_DIR [WIDTH [NAME_PART]]
// Renders the demo's photographs into OUT_DIR and writes OUT_DIR/marks.json, the regions of the
// stampings in pixels of each upright picture.
#include "exif_block.h"
#include "jpeg_file.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>

namespace fettle::demo {

namespace {

constexpr size_t kMostBytes = 176'000;

Sensor sensor_of(const Scene& scene, Phone phone) {
    Sensor sensor;
    sensor.seed = scene.seed;
    sensor.exposure = scene.exposure;
    const float warmth = scene.rig.lamp_colour.x / scene.rig.lamp_colour.z;
    // A phone takes out half of the lamp's tint.
    sensor.balance = {std::pow(warmth, -0.28f), 1, std::pow(warmth, 0.26f)};
    sensor.saturation = phone == Phone::t2 ? 1.0f : 0.85f;
    sensor.contrast = phone == Phone::t2 ? 1.1f : 0.9f;
    sensor.noise = phone == Phone::t2 ? 1.0f : 1.7f;
    return sensor;
}

nlohmann::json regions_of(const Shot& shot, const Scene& scene, int width, int height) {
    const Eye eye(scene.camera, width, height);
    nlohmann::json regions = nlohmann::json::array();
    for (const Mark& mark : scene.marks) {
        float left = 1e9f, top = 1e9f, right = -1e9f, bottom = -1e9f;
        for (const float sx : {-1.12f, 1.12f})
            for (const float sy : {-1.12f, 1.12f}) {
                const Vec2 p = mark.at.to_world({mark.half.x * sx, mark.half.y * sy});
                const Vec2 pixel = eye.project({p.x, p.y, mark.at.z});
                left = std::min(left, pixel.x), right = std::max(right, pixel.x);
                top = std::min(top, pixel.y), bottom = std::max(bottom, pixel.y);
            }
        regions.push_back({{"photo", shot.file},
                           {"reading", mark.reading},
                           {"region",
                            {std::lround(left), std::lround(top), std::lround(right - left),
                             std::lround(bottom - top)}}});
    }
    return regions;
}

// Renders upright, stores as the camera held it would.
nlohmann::json take(const Shot& shot, const std::filesystem::path& folder, int most_wide) {
    const int wide = shot.wide > 0 ? std::min(shot.wide, most_wide) : most_wide;
    const Scene scene = shot.scene();
    const bool upright = shot.orientation == 6 || shot.orientation == 8;
    const int width = upright ? wide * 3 / 4 : wide, height = upright ? wide : wide * 3 / 4;
    const Picture picture = photograph(scene, width, height);
    const Pixels seen =
        develop(picture, sensor_of(scene, shot.phone), scene.camera.blur, width, height);
    const Pixels stored = turned(seen, shot.orientation == 6 ? 3 : shot.orientation == 8 ? 1 : 0);
    const auto bytes = with_exif(jpeg_of(stored, kMostBytes), shot, stored.width, stored.height);
    std::ofstream file(folder / shot.file, std::ios::binary);
    file.write(reinterpret_cast<const char*>(bytes.data()),
               static_cast<std::streamsize>(bytes.size()));
    if (!file.flush()) throw std::runtime_error("cannot write " + (folder / shot.file).string());
    std::printf("%s %zu\n", shot.file, bytes.size());
    std::fflush(stdout);
    return regions_of(shot, scene, width, height);
}

int run(const std::filesystem::path& folder, int wide, const std::string& name_part) {
    Shots shots;
    add_finding_shots(shots);
    add_spring_shots(shots);
    add_axle_shots(shots);
    add_finish_shots(shots);
    add_tagged_shots(shots);
    add_torch_shots(shots);
    std::filesystem::create_directories(folder);
    nlohmann::json marks = nlohmann::json::array();
    for (const Shot& shot : shots)
        if (std::string(shot.file).find(name_part) != std::string::npos)
            for (const auto& region : take(shot, folder, wide))
                marks.push_back(region);
    std::ofstream(folder / "marks.json") << marks.dump(1) << '\n';
    return 0;
}

} // namespace

} // namespace fettle::demo

int main(int count, char** words) {
    if (count < 2 || count > 4 || words[1][0] == '-') { // an option is no folder, and there is none
        std::fprintf(stderr, "usage: demo-render OUT_DIR [WIDTH [NAME_PART]]\n");
        return 2;
    }
    try {
        return fettle::demo::run(words[1], count > 2 ? std::stoi(words[2]) : 1440,
                                 count > 3 ? words[3] : "");
    } catch (const std::exception& error) {
        std::fprintf(stderr, "demo-render: %s\n", error.what());
        return 1;
    }
}
