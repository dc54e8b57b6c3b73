// The photographs of the demo: what each shows, when it was taken and how the camera was held.
#pragma once

#include "parts.h"
#include "studio.h"

#include <vector>

namespace fettle::demo {

enum class Phone { t2, older }; // two invented cameras

struct Shot {
    const char* file;
    const char* taken; // EXIF form with hundredths and offset: "2026:01:10 14:02:11.37+00:00"
    Phone phone;
    int orientation; // EXIF: 1 as stored, 6 and 8 held upright
    std::function<Scene()> scene;
    bool on_the_moor = false; // carries a GPS position
    int wide = 0;             // pixels across; 0: as all others
};

using Shots = std::vector<Shot>;
void add_finding_shots(Shots& shots);
void add_spring_shots(Shots& shots);
void add_axle_shots(Shots& shots);
void add_finish_shots(Shots& shots);
void add_tagged_shots(Shots& shots);
void add_torch_shots(Shots& shots);

} // namespace fettle::demo
