#include "ui/saturday.h"

#include "photos/jpeg.h"
#include "photos/tag_scene.h"
#include "ui/workshop.h"

#include <cstdio>
#include <fstream>

namespace fettle::ui::testing {

std::vector<std::filesystem::path> saturday_pictures(const std::filesystem::path& folder) {
    std::filesystem::create_directories(folder);
    std::mt19937 random(36);
    std::vector<std::filesystem::path> files;
    std::string dates;
    int second = 9 * 3600;
    for (int shot = 0; shot < kShots; ++shot) {
        const std::string tag = shot == 0 ? "H7" : shot == 10 ? "S2" : shot == 30 ? "K1" : "";
        if (shot == 20 || shot == 30) second += 30 * 60;
        if (shot == 40) second += 3 * 3600;
        second += 40;
        auto picture = tag_tests::workshop_texture(640, 480, random);
        if (!tag.empty())
            tag_tests::draw_tag(picture, "fettlebook:" + tag, {.module = 8, .turn = 12}, random);
        char name[24], command[160];
        std::snprintf(name, sizeof name, "S%03d.jpg", shot);
        files.push_back(folder / name);
        const auto bytes = must(photos::encode_jpeg(picture));
        std::ofstream(files.back(), std::ios::binary)
            .write(reinterpret_cast<const char*>(bytes.data()), std::streamsize(bytes.size()));
        std::snprintf(command, sizeof command,
                      "exiv2 -M'set Exif.Photo.DateTimeOriginal 2026:04:04 %02d:%02d:%02d' "
                      "-M'set Exif.Image.Model P2026' ",
                      second / 3600, second / 60 % 60, second % 60);
        dates += command + files.back().string() + " && ";
    }
    run(dates + "true");
    return files;
}

} // namespace fettle::ui::testing
