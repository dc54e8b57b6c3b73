#include "relief/height.h"

#include "relief/fourier.h"

#include <cmath>
#include <numbers>

namespace fettle::relief {
namespace {

using std::numbers::pi;

// Where a sample of the field mirrored at its far edge is found, and -1 for beyond its mirror's
// end.
int mirrored(int at, int size) {
    return at < size ? at : std::max(0, 2 * size - 1 - at);
}

// What flows together in each sample, of a field that is mirrored up to quick lengths: heights and
// their mirror fit each other, and no edge shows.
Grid gathered(const Grid& right, const Grid& down, int width, int height) {
    const auto across = [&](int x, int y) { // between x and x + 1
        if (x < 0 || x + 1 >= width) return 0.0F;
        const int here = mirrored(x, right.width), next = mirrored(x + 1, right.width);
        if (here == next) return 0.0F;
        const float mean = (right.at(here, y) + right.at(next, y)) / 2;
        return here < next ? mean : -mean;
    };
    const auto along = [&](int x, int y) { // between y and y + 1
        if (y < 0 || y + 1 >= height) return 0.0F;
        const int here = mirrored(y, down.height), next = mirrored(y + 1, down.height);
        if (here == next) return 0.0F;
        const float mean = (down.at(x, here) + down.at(x, next)) / 2;
        return here < next ? mean : -mean;
    };
    Grid flow(width, height);
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            const int row = mirrored(y, right.height), column = mirrored(x, right.width);
            flow.at(x, y) =
                across(x, row) - across(x - 1, row) + along(column, y) - along(column, y - 1);
        }
    return flow;
}

} // namespace

Result<Grid> heights_of(const Grid& right, const Grid& down, const Work& work) {
    if (right.width != down.width || right.height != down.height)
        return Failure{FailureKind::invalid,
                       "The slopes to the right and downwards are of two sizes; heights need both "
                       "of each pixel."};
    if (right.width < 2 || right.height < 2)
        return Failure{FailureKind::invalid,
                       "Heights need slopes of 2 by 2 pixels or more, not of " +
                           std::to_string(right.width) + " by " + std::to_string(right.height) +
                           "."};
    const int width = quick_length(right.width), height = quick_length(right.height);
    Grid flow = gathered(right, down, width, height);
    if (auto there = cosine_transform(flow, Way::forward, work, "heights"); !there)
        return there.failure();
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            const double weight = 2 * std::cos(pi * x / width) + 2 * std::cos(pi * y / height) - 4;
            flow.at(x, y) = weight < 0 ? float(double(flow.at(x, y)) / weight) : 0.0F;
        }
    if (auto back = cosine_transform(flow, Way::inverse, work, "heights"); !back)
        return back.failure();
    Grid heights(right.width, right.height);
    double sum = 0;
    for (int y = 0; y < heights.height; ++y)
        for (int x = 0; x < heights.width; ++x) {
            heights.at(x, y) = flow.at(x, y);
            sum += double(flow.at(x, y));
        }
    for (float& sample : heights.samples)
        sample -= float(sum / double(heights.samples.size()));
    return heights;
}

Grid levelled(Grid heights) {
    // About the middle the three unknowns of a plane do not mix.
    const double middle_x = (heights.width - 1) / 2.0, middle_y = (heights.height - 1) / 2.0;
    double sum = 0, by_x = 0, by_y = 0, of_x = 0, of_y = 0;
    for (int y = 0; y < heights.height; ++y)
        for (int x = 0; x < heights.width; ++x) {
            const double z = double(heights.at(x, y)), u = x - middle_x, v = y - middle_y;
            sum += z;
            by_x += z * u, of_x += u * u;
            by_y += z * v, of_y += v * v;
        }
    const double mean = sum / double(std::max<std::size_t>(1, heights.samples.size()));
    const double lean_x = of_x > 0 ? by_x / of_x : 0, lean_y = of_y > 0 ? by_y / of_y : 0;
    for (int y = 0; y < heights.height; ++y)
        for (int x = 0; x < heights.width; ++x)
            heights.at(x, y) -= float(mean + lean_x * (x - middle_x) + lean_y * (y - middle_y));
    return heights;
}

} // namespace fettle::relief
