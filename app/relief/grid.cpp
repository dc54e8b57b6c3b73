#include "relief/grid.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace fettle::relief {
namespace {

constexpr double kDegree = std::numbers::pi / 180;
constexpr int kBoxes = 3;

// One box of 2 `reach` + 1 samples and, for the share of a sample that is lacking, a weight at both
// ends, so that its variance is exactly a third of that wanted.
struct Box {
    int reach = 0;
    float ends = 0, share = 1;

    explicit Box(double variance) {
        reach = int((std::sqrt(12 * variance + 1) - 1) / 2);
        const double r = reach, whole = 2 * r + 1;
        ends = float(whole * (3 * variance - r * (r + 1)) / (6 * ((r + 1) * (r + 1) - variance)));
        ends = std::max(0.0F, ends);
        share = 1 / (float(whole) + 2 * ends);
    }
};

void box_along(const Box& box, const float* from, float* to, int count) {
    const auto held = [&](int at) { return from[std::clamp(at, 0, count - 1)]; };
    double sum = 0;
    for (int at = -box.reach; at <= box.reach; ++at)
        sum += double(held(at));
    for (int x = 0; x < count; ++x) {
        const float before = held(x - box.reach - 1), after = held(x + box.reach + 1);
        to[x] = (float(sum) + box.ends * (before + after)) * box.share;
        sum += double(after) - double(held(x - box.reach));
    }
}

void box_down(const Box& box, const Grid& from, Grid& to) {
    const auto row = [&](int y) { return from.row(std::clamp(y, 0, from.height - 1)); };
    std::vector<double> sums(std::size_t(from.width), 0.0);
    for (int y = -box.reach; y <= box.reach; ++y)
        for (int x = 0; x < from.width; ++x)
            sums[x] += double(row(y)[x]);
    for (int y = 0; y < from.height; ++y) {
        const float *before = row(y - box.reach - 1), *after = row(y + box.reach + 1);
        const float* leaving = row(y - box.reach);
        float* out = to.row(y);
        for (int x = 0; x < from.width; ++x) {
            out[x] = (float(sums[x]) + box.ends * (before[x] + after[x])) * box.share;
            sums[x] += double(after[x]) - double(leaving[x]);
        }
    }
}

} // namespace

Direction direction_of(double side_degrees, double above_degrees) {
    const double flat = std::cos(above_degrees * kDegree);
    return {flat * std::sin(side_degrees * kDegree), -flat * std::cos(side_degrees * kDegree),
            std::sin(above_degrees * kDegree)};
}

double side_of(Direction towards) {
    const double side = std::atan2(towards.x, -towards.y) / kDegree;
    return side < 0 ? side + 360 : side;
}

double above_of(Direction towards) {
    return std::atan2(towards.z, std::hypot(towards.x, towards.y)) / kDegree;
}

double degrees_between(Direction one, Direction other) {
    const double across =
        std::hypot(one.y * other.z - one.z * other.y, one.z * other.x - one.x * other.z,
                   one.x * other.y - one.y * other.x);
    const double along = one.x * other.x + one.y * other.y + one.z * other.z;
    return std::atan2(across, along) / kDegree;
}

Grid shrunk(const Grid& from, int by) {
    assert(by >= 1 && by <= from.width && by <= from.height);
    if (by == 1) return from;
    Grid to(from.width / by, from.height / by);
    const float share = 1 / float(by * by);
    for (int y = 0; y < to.height; ++y)
        for (int line = 0; line < by; ++line) {
            const float* row = from.row(y * by + line);
            for (int x = 0; x < to.width; ++x)
                for (int at = 0; at < by; ++at)
                    to.at(x, y) += row[x * by + at] * share;
        }
    return to;
}

int divisor_for(const Grid& grid, int most) {
    const int longest = std::max(grid.width, grid.height);
    const int wanted = std::max(1, (longest + most - 1) / most);
    return std::max(1, std::min({wanted, grid.width, grid.height}));
}

Grid smoothed(const Grid& from, double sigma) {
    if (!(sigma > 0) || from.samples.empty()) return from;
    const Box box(sigma * sigma / kBoxes);
    Grid to = from, between(from.width, from.height);
    for (int pass = 0; pass < kBoxes; ++pass) {
        for (int y = 0; y < from.height; ++y)
            box_along(box, to.row(y), between.row(y), from.width);
        box_down(box, between, to);
    }
    return to;
}

Grid slope_x(const Grid& from) {
    Grid to(from.width, from.height);
    for (int y = 0; y < from.height; ++y)
        for (int x = 0; x < from.width; ++x) {
            const int before = std::max(0, x - 1), after = std::min(from.width - 1, x + 1);
            if (after > before)
                to.at(x, y) = (from.at(after, y) - from.at(before, y)) / float(after - before);
        }
    return to;
}

Grid slope_y(const Grid& from) {
    Grid to(from.width, from.height);
    for (int y = 0; y < from.height; ++y) {
        const int before = std::max(0, y - 1), after = std::min(from.height - 1, y + 1);
        if (after == before) continue;
        for (int x = 0; x < from.width; ++x)
            to.at(x, y) = (from.at(x, after) - from.at(x, before)) / float(after - before);
    }
    return to;
}

float sampled(const Grid& from, double x, double y) {
    x = std::clamp(x, 0.0, double(from.width - 1));
    y = std::clamp(y, 0.0, double(from.height - 1));
    const int left = std::min(int(x), std::max(0, from.width - 2));
    const int top = std::min(int(y), std::max(0, from.height - 2));
    const int right = std::min(left + 1, from.width - 1),
              below = std::min(top + 1, from.height - 1);
    const float u = float(x - left), v = float(y - top);
    const float above = from.at(left, top) * (1 - u) + from.at(right, top) * u;
    return above * (1 - v) + (from.at(left, below) * (1 - u) + from.at(right, below) * u) * v;
}

float quantile(std::vector<float> samples, double share) {
    std::erase_if(samples, [](float value) { return !std::isfinite(value); });
    if (samples.empty()) return 0;
    const auto at = samples.begin() + std::ptrdiff_t(share * double(samples.size() - 1));
    std::ranges::nth_element(samples, at);
    return *at;
}

} // namespace fettle::relief
