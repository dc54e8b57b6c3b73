#include "relief/register.h"

#include "relief/fourier.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>

namespace fettle::relief {
namespace {

constexpr int kMostSteps = 15;
constexpr double kStill = 0.01; // samples at the rim: smaller steps change nothing that matters

double middle(int size) {
    return (size - 1) / 2.0;
}

// Sums over what overlaps, for the correlation and for gain and offset.
struct Sums {
    double count = 0, still = 0, moved = 0, still_2 = 0, moved_2 = 0, both = 0;

    void add(double a, double b) {
        ++count;
        still += a, moved += b;
        still_2 += a * a, moved_2 += b * b, both += a * b;
    }
    double spread_still() const { return still_2 - still * still / count; }
    double spread_moved() const { return moved_2 - moved * moved / count; }
    double together() const { return both - still * moved / count; }
    double alike() const {
        const double spread = count > 1 ? spread_still() * spread_moved() : 0;
        return spread > 0 ? together() / std::sqrt(spread) : 0;
    }
};

template <class Act>
void over_overlap(const Grid& still, const Grid& moved, const Pose& pose, Act act) {
    const PoseMap map(pose, middle(still.width), middle(still.height));
    for (int y = 0; y < still.height; ++y)
        for (int x = 0; x < still.width; ++x) {
            const Point there = map(x, y);
            if (there.x < 0 || there.y < 0 || there.x > moved.width - 1 ||
                there.y > moved.height - 1)
                continue;
            act(x, y, double(still.at(x, y)), double(sampled(moved, there.x, there.y)));
        }
}

Sums sums_at(const Grid& still, const Grid& moved, const Pose& pose) {
    Sums sums;
    over_overlap(still, moved, pose, [&](int, int, double a, double b) { sums.add(a, b); });
    return sums;
}

struct Slopes {
    Grid x, y;
    explicit Slopes(const Grid& of) : x(slope_x(of)), y(slope_y(of)) {}
};

// What a sample changes by for a small x, y, scale and turn.
Eigen::Vector4d changes_at(const Slopes& slopes, int x, int y) {
    const double u = x - middle(slopes.x.width), v = y - middle(slopes.x.height);
    const double right = double(slopes.x.at(x, y)), down = double(slopes.y.at(x, y));
    return {right, down, right * u + down * v, down * u - right * v};
}

} // namespace

Pose relative(const Pose& of, const Pose& to) {
    // Turning and sizing as one complex number c: middle + c (point - middle) + shift.
    const std::complex<double> by = std::polar(of.scale, of.turn) / std::polar(to.scale, to.turn);
    const std::complex<double> shift = std::complex(of.x, of.y) - by * std::complex(to.x, to.y);
    return {shift.real(), shift.imag(), std::arg(by), std::abs(by)};
}

PoseMap::PoseMap(const Pose& pose, double middle_x, double middle_y)
    : a(pose.scale * std::cos(pose.turn)), b(pose.scale * std::sin(pose.turn)) {
    x = middle_x - a * middle_x + b * middle_y + pose.x;
    y = middle_y - b * middle_x - a * middle_y + pose.y;
}

Pose coarse_shift(const Grid& still, const Grid& moved) {
    const int side = quick_length(std::max(still.width, still.height));
    // Faded out towards the edges, which would else be what both have in common.
    const auto faded = [](Grid grid) {
        const auto window = [](int at, int size) {
            return float(0.5 - 0.5 * std::cos(2 * std::numbers::pi * (at + 0.5) / size));
        };
        for (int y = 0; y < grid.height; ++y)
            for (int x = 0; x < grid.width; ++x)
                grid.at(x, y) *= window(x, grid.width) * window(y, grid.height);
        return grid;
    };
    // One sample does not tell a peak from noise: neighbours are asked as well.
    const Grid answer = smoothed(correlated(faded(still), faded(moved), Weigh::phase, side), 1);
    const auto at = int(std::ranges::max_element(answer.samples) - answer.samples.begin());
    const auto around = [side](int shift) { return shift > side / 2 ? shift - side : shift; };
    // `moved` has to go that way to fit: what stands here stands in it at the opposite.
    return {-double(around(at % side)), -double(around(at / side))};
}

Laid judged(const Grid& still, const Grid& moved, const Pose& pose) {
    const Sums sums = sums_at(still, moved, pose);
    return {pose, sums.alike(),
            sums.count / double(std::max<std::size_t>(1, still.samples.size()))};
}

Laid refined(const Grid& still, const Grid& moved, Pose start, Freedom freedom) {
    const Slopes slopes(still);
    const int free = freedom == Freedom::shift ? 2 : 4;
    const double rim = std::max(still.width, still.height) / 2.0;
    Laid best;
    best.alike = -1;
    Pose pose = start;
    for (int round = 0; round < kMostSteps; ++round) {
        const Sums sums = sums_at(still, moved, pose);
        if (sums.alike() > best.alike)
            best = {pose, sums.alike(), sums.count / double(still.samples.size())};
        if (sums.count < 16 || sums.together() <= 0) break;
        // So that what both share comes out equal, whatever noise the moved one has besides.
        const double gain = sums.spread_still() / sums.together();
        const double mean_still = sums.still / sums.count, mean_moved = sums.moved / sums.count;
        Eigen::Matrix4d normal = Eigen::Matrix4d::Zero();
        Eigen::Vector4d right = Eigen::Vector4d::Zero();
        over_overlap(still, moved, pose, [&](int x, int y, double a, double b) {
            const Eigen::Vector4d change = changes_at(slopes, x, y);
            const double differs = gain * (b - mean_moved) - (a - mean_still);
            normal += change * change.transpose();
            right += change * differs;
        });
        Eigen::Vector4d step = Eigen::Vector4d::Zero();
        step.head(free) = normal.topLeftCorner(free, free).ldlt().solve(right.head(free));
        if (!step.allFinite() || step.head<2>().norm() > rim) break;
        // The step moves the reference: what it is laid on is undone (inverse compositional).
        pose = relative(pose, {step[0], step[1], std::atan2(step[3], 1 + step[2]),
                               std::hypot(1 + step[2], step[3])});
        const double moves = step.head<2>().norm() + rim * step.tail<2>().norm();
        if (moves < kStill) break;
    }
    const Laid last = judged(still, moved, pose);
    return last.alike > best.alike ? last : best;
}

Grid posed(const Grid& moved, const Pose& pose, int width, int height, float beyond) {
    const PoseMap map(pose, middle(width), middle(height));
    Grid seen(width, height, beyond);
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x)
            if (const Point there = map(x, y); there.x >= 0 && there.y >= 0 &&
                                               there.x <= moved.width - 1 &&
                                               there.y <= moved.height - 1)
                seen.at(x, y) = sampled(moved, there.x, there.y);
    return seen;
}

namespace {

// The middle of the shrunk grid, in samples of the one it was made of.
Point shrunk_middle(const Grid& still, int by) {
    const auto there = [by](int size) { return by * middle(size / by) + (by - 1) / 2.0; };
    return {there(still.width), there(still.height)};
}

} // namespace

// Turning about another middle moves what is turned.
Pose enlarged(const Pose& pose, const Grid& still, int by) {
    const Point from = shrunk_middle(still, by);
    Pose about{by * pose.x, by * pose.y, pose.turn, pose.scale};
    const PoseMap map(about, from.x, from.y);
    const double u = middle(still.width), v = middle(still.height);
    const Point there = map(u, v);
    return {there.x - u, there.y - v, pose.turn, pose.scale};
}

Pose reduced(const Pose& pose, const Grid& still, int by) {
    const Point to = shrunk_middle(still, by);
    const PoseMap map(pose, middle(still.width), middle(still.height));
    const Point there = map(to.x, to.y);
    return {(there.x - to.x) / by, (there.y - to.y) / by, pose.turn, pose.scale};
}

} // namespace fettle::relief
