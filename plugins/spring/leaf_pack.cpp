#include "spring/leaf_pack.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fettle::spring {
namespace {

constexpr double kGravity = 9.80665; // m/s², standard

double cube(double x) {
    return x * x * x;
}

double half_length_of(const Pack& pack, const Leaf& leaf) {
    return (leaf.length - pack.clamp) / 2;
}

// A stretch of the half spring between two leaf ends; x is counted from the eye.
struct Stretch {
    double from;
    double to;
    double inertia; // m⁴, of all leaves present
};

std::vector<Stretch> stretches(const Pack& pack, double half_length) {
    std::vector<double> ends;
    for (const Leaf& leaf : pack.leaves)
        ends.push_back(half_length - half_length_of(pack, leaf));
    std::sort(ends.begin(), ends.end());
    ends.push_back(half_length);
    std::vector<Stretch> all;
    for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
        if (ends[i + 1] <= ends[i]) continue;
        double inertia = 0;
        for (const Leaf& leaf : pack.leaves) {
            const bool present = half_length - half_length_of(pack, leaf) <= ends[i];
            if (present) inertia += pack.width * cube(leaf.thickness) / 12;
        }
        all.push_back({ends[i], ends[i + 1], inertia});
    }
    return all;
}

// Between two leaf ends the moment grows towards the clamp, so each stretch is worst at its end.
double sharpest_moment_per_inertia(const std::vector<Stretch>& all, double leaf_end,
                                   double half_load) {
    double sharpest = 0;
    for (const Stretch& stretch : all) {
        if (stretch.from < leaf_end) continue;
        sharpest = std::max(sharpest, half_load * stretch.to / stretch.inertia);
    }
    return sharpest;
}

} // namespace

PackUnderLoad under_load(const Pack& pack, double load) {
    double longest = 0;
    for (const Leaf& leaf : pack.leaves)
        longest = std::max(longest, leaf.length);
    PackUnderLoad found{};
    found.half_length = (longest - pack.clamp) / 2;
    double cubes = 0;
    for (const Leaf& leaf : pack.leaves) {
        const bool full = leaf.length >= longest - kFullLengthWithin;
        (full ? found.full : found.graduated) += 1;
        found.book_sum += (full ? 3 : 2) * cube(leaf.thickness);
        cubes += cube(leaf.thickness);
    }
    const double length = found.half_length;
    found.rate_book = pack.modulus * pack.width * found.book_sum / (6 * cube(length));

    const std::vector<Stretch> all = stretches(pack, length);
    double give = 0; // deflection of the eye per newton at the eye
    for (const Stretch& stretch : all)
        give += (cube(stretch.to) - cube(stretch.from)) / (3 * pack.modulus * stretch.inertia);
    found.rate = 2 / give;

    const double half_load = load / 2;
    for (const Leaf& leaf : pack.leaves) {
        LeafUnderLoad each{};
        each.full = leaf.length >= longest - kFullLengthWithin;
        each.share = cube(leaf.thickness) / cubes;
        const double end = length - half_length_of(pack, leaf);
        each.stress_beam = sharpest_moment_per_inertia(all, end, half_load) * leaf.thickness / 2;
        each.stress_book = (each.full ? 18 : 12) * half_load * length * leaf.thickness /
                           (pack.width * found.book_sum);
        found.leaves.push_back(each);
    }
    return found;
}

double free_gap(double half_length, double upper_radius, double lower_radius) {
    return half_length * half_length / 2 * (1 / lower_radius - 1 / upper_radius);
}

double bounce_frequency(double rate, double load) {
    return std::sqrt(rate * kGravity / load) / (2 * std::numbers::pi);
}

} // namespace fettle::spring
