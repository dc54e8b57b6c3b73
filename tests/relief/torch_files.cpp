#include "relief/torch_files.h"

#include "temp_folder.h"

#include <algorithm>
#include <cstdlib>
#include <stdexcept>

namespace relief_tests {
namespace {

void run(const std::string& command) {
    if (std::system(command.c_str()) != 0) throw std::runtime_error("failed: " + command);
}

void write_picture(const std::vector<std::byte>& rgba, const std::filesystem::path& file) {
    auto raw = file;
    raw += ".rgba";
    write_file(raw, std::string(reinterpret_cast<const char*>(rgba.data()), rgba.size()));
    run("convert -size 200x200 -depth 8 'rgba:" + raw.string() + "' -alpha off -quality 98 '" +
        file.string() + "'");
    std::filesystem::remove(raw);
}

} // namespace

TorchFiles torch_files(const std::filesystem::path& folder, bool timed, unsigned seed) {
    TorchFiles made{ring_of_lights(6, {30, 45, 60}), {}, {}};
    Scene scene{struck_shapes(200, 3, 4, seed + 1), {}};
    std::mt19937 random(seed);
    scene.albedo = cloud(200, 200, 4, random);
    for (float& sample : scene.albedo.samples)
        sample = std::clamp(0.5F + 0.1F * sample, 0.1F, 0.9F);
    scene.ball = made.ball;
    scene.noise = 0.004;
    for (std::size_t k = 0; k < made.lights.size(); ++k) {
        made.cameras.push_back(
            {k == 0 ? 0.0 : 1.5 * double(k) - 4, k == 0 ? 0.0 : 2 - double(k) / 2});
        const auto file = folder / ("p" + std::to_string(k) + (timed ? ".jpg" : ".png"));
        write_picture(photographed(scene, made.lights[k], made.cameras[k], unsigned(k)), file);
        const auto second = std::to_string(10 + 5 * k);
        if (timed)
            run("exiv2 -M'set Exif.Photo.DateTimeOriginal 2026:03:07 19:42:" + second + "' '" +
                file.string() + "'");
        made.files.push_back(file);
    }
    return made;
}

} // namespace relief_tests
