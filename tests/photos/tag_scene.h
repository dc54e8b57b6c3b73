// Pictures of tags for tests, by a renderer of their own: the code's modules on a white card, seen
// by a pinhole camera, out of focus, unevenly lit, with noise. Knows nothing of how tags are read.
#pragma once

#include "photos/picture.h"

#include <random>
#include <string>

namespace tag_tests {

struct TagView {
    double module = 8;     // pixels, where the middle of the tag is seen
    double turn = 0;       // degrees in the picture's plane
    double tilt = 0;       // degrees out of it
    double tilt_axis = 0;  // degrees: about which direction in the picture
    double blur = 0;       // sigma of a Gaussian, in modules
    double light = 1;      // how many times brighter one side of the card is than the other
    double light_from = 0; // degrees
    double noise = 2;      // sigma, of 255
    double x = 0.5;        // where the middle is, as share of width and height
    double y = 0.5;
};

// Draws the tag's code over the picture.
void draw_tag(fettle::photos::Picture& picture, const std::string& text, const TagView& view,
              std::mt19937& random);

// Grain, patches and streaks in rust and steel colours, without a code.
fettle::photos::Picture workshop_texture(int width, int height, std::mt19937& random);

} // namespace tag_tests
