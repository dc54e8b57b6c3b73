// Stampings of letters, fresh or worn, for reading and for comparing. The letters are those of the
// installed DejaVu Sans Mono, struck in with flanks of a few pixels.
#pragma once

#include "relief/torch_scene.h"

namespace relief_tests {

// 1 within the letters, 0 outside; the line in the middle, letters so many pixels high.
Grid letters_in(const std::string& text, int width, int height, double letter_height,
                double turn_degrees = 0, Point off_middle = {});

struct Struck {
    std::string text;
    int width = 640, height = 200;
    double letter_height = 70;   // pixels
    double depth = 2, flank = 2; // pixels
    double wear = 0.5;           // share of the depth that is gone where most is
    double grain = 0.15;         // roughness of the ground, pixels
    double stain = 0.6;          // how much of the albedo rust and dirt take at most
    double turn_degrees = 0;
    Point off_middle = {};
    unsigned seed = 1; // of wear, ground and stains
};
Scene struck(const Struck& wanted);

// From letters and figures that are not easily taken for each other.
std::string random_stamp(std::mt19937& random, int letters);

} // namespace relief_tests
