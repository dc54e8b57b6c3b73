// Grids of floats and what is done to them everywhere: the ground of this room, which makes the
// relief of a part out of photos that a torch lit from several sides.
//
// Axes of the whole room: x to the right, y down, z towards the camera; the middle of the pixel in
// the top left corner is (0, 0). Heights and slopes are in pixels. Pure functions, any thread.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace fettle::relief {

struct Point {
    double x = 0, y = 0;
};

// Of unit length where it says where light comes from.
struct Direction {
    double x = 0, y = 0, z = 0;
};
// Degrees clockwise from the top, as seen in the picture, and degrees above its plane.
Direction direction_of(double side_degrees, double above_degrees);
double side_of(Direction towards);  // 0 to 360
double above_of(Direction towards); // -90 to 90
double degrees_between(Direction one, Direction other);

// A rectangle of whole pixels.
struct Rectangle {
    int x = 0, y = 0, width = 0, height = 0;
    bool operator==(const Rectangle&) const = default;
};

// Rows from the top, no padding.
struct Grid {
    int width = 0, height = 0;
    std::vector<float> samples;

    Grid() = default;
    Grid(int columns, int rows, float value = 0)
        : width(columns), height(rows), samples(std::size_t(columns) * rows, value) {}
    float* row(int y) { return samples.data() + std::size_t(y) * width; }
    const float* row(int y) const { return samples.data() + std::size_t(y) * width; }
    float at(int x, int y) const { return row(y)[x]; }
    float& at(int x, int y) { return row(y)[x]; }
};

// 0 is black.
struct GreyPicture {
    int width = 0, height = 0;
    std::vector<std::uint8_t> samples;
};

// Each sample the mean of `by` times `by`; what is left over at the right and below is cut off.
// Precondition: 1 <= by <= both sides.
Grid shrunk(const Grid& from, int by);
// The smallest such divisor that brings the longest side to `most` or less.
int divisor_for(const Grid& grid, int most);

// A Gaussian to within the accuracy of three boxes (Wells, IEEE PAMI 8, 1986), the last sample
// going on beyond the edges; costs the same for any sigma. Sigma in samples, 0 or more.
Grid smoothed(const Grid& from, double sigma);

// Central differences, one-sided at the edges.
Grid slope_x(const Grid& from);
Grid slope_y(const Grid& from);

// With straight lines between the samples, held to the grid beyond its edges.
float sampled(const Grid& from, double x, double y);

// Of the samples that are numbers; 0 where there are none. `share` 0.5 is the median.
float quantile(std::vector<float> samples, double share);

} // namespace fettle::relief
