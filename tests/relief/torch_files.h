// A torch set as picture files: a struck part of 200 by 200 pixels beside a ball, under lights that
// are known, the camera moved a little from photo to photo.
#pragma once

#include "relief/torch_scene.h"

#include <filesystem>

namespace relief_tests {

struct TorchFiles {
    std::vector<Light> lights;
    std::vector<Pose> cameras;
    std::vector<std::filesystem::path> files; // p0.png, p1.png ... or .jpg
    Ball ball{162, 160, 26};
};

// Six photos. With `timed` they are JPEG files, as cameras write them, taken 5 seconds apart from
// 7 Mar 2026, 19:42 on. `seed` tells one stamping from another.
TorchFiles torch_files(const std::filesystem::path& folder, bool timed = false, unsigned seed = 3);

} // namespace relief_tests
