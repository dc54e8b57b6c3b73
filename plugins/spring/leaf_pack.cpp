#include "spring/leaf_pack.h"

#include "spring/leaf_beam.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fettle::spring {
namespace {

constexpr double kGravity = 9.80665; // m/s², standard

double cube(double x) {
    return x * x * x;
}

} // namespace

double working_length(const Pack& pack, const Leaf& leaf) {
    return (leaf.length - pack.clamp) / 2;
}

double bending_stiffness(const Pack& pack, const Leaf& leaf, double at) {
    const double whole = pack.modulus * pack.width * cube(leaf.thickness) / 12;
    const double from_tip = std::max(0.0, working_length(pack, leaf) - at);
    if (from_tip >= leaf.narrowed) return whole;
    const double share = std::clamp(pack.tip_share, kLeastTipShare, 1.0);
    return whole * (share + (1 - share) * from_tip / leaf.narrowed);
}

std::vector<double> free_curvatures(const Pack& pack) {
    std::vector<double> all;
    for (const Leaf& leaf : pack.leaves) {
        double fitting = 0;
        if (!all.empty()) {
            const double above = all.back();
            fitting = above / (1 + above * pack.leaves[all.size() - 1].thickness);
        }
        all.push_back(leaf.curvature.value_or(fitting));
    }
    return all;
}

std::vector<double> nips(const Pack& pack) {
    const std::vector<double> curvatures = free_curvatures(pack);
    std::vector<double> all;
    for (std::size_t i = 0; i + 1 < curvatures.size(); ++i) {
        const double face = curvatures[i] / (1 + curvatures[i] * pack.leaves[i].thickness);
        all.push_back(curvatures[i + 1] - face);
    }
    return all;
}

double free_gap(double half_length, double nip_curvature) {
    return half_length * half_length / 2 * nip_curvature;
}

double rise_of_arc(double curvature, double length) {
    const double angle = curvature * length / 2;
    // 1 - cos as 2 sin²(a/2), which keeps its digits for nearly flat leaves.
    const double half = std::sin(angle / 2);
    return std::fabs(angle) < 1e-9 ? curvature * length * length / 8 : 2 * half * half / curvature;
}

double curvature_from_rise(double rise, double length) {
    double low = -4 / length; // the arc that rises a third of its length, either way
    double high = 4 / length;
    for (int i = 0; i < 60; ++i) {
        const double middle = (low + high) / 2;
        (rise_of_arc(middle, length) < rise ? low : high) = middle;
    }
    return rise == 0 ? 0 : (low + high) / 2;
}

BookView book_view(const Pack& pack, double load, int spare) {
    double longest = 0;
    for (const Leaf& leaf : pack.leaves)
        longest = std::max(longest, leaf.length);
    BookView view{};
    view.half_length = (longest - pack.clamp) / 2;
    std::vector<int> weights;
    for (const Leaf& leaf : pack.leaves) {
        const bool full = leaf.length >= longest - kFullLengthWithin && spare-- <= 0;
        (full ? view.full : view.graduated) += 1;
        weights.push_back(full ? 3 : 2);
        view.sum += weights.back() * cube(leaf.thickness);
    }
    view.rate = pack.modulus * pack.width * view.sum / (6 * cube(view.half_length));
    for (std::size_t i = 0; i < weights.size(); ++i) {
        view.stress.push_back(6 * weights[i] * load / 2 * view.half_length *
                              pack.leaves[i].thickness / (pack.width * view.sum));
    }
    return view;
}

double common_curvature_rate(const Pack& pack) {
    std::vector<double> stations;
    for (const Leaf& leaf : pack.leaves) {
        const double tip = working_length(pack, leaf);
        stations.push_back(tip);
        if (leaf.narrowed > 0 && leaf.narrowed < tip) stations.push_back(tip - leaf.narrowed);
    }
    std::sort(stations.begin(), stations.end());
    stations.erase(std::unique(stations.begin(), stations.end()), stations.end());
    std::vector<Stretch> stretches;
    double from = 0;
    for (const double to : stations) {
        Stretch stretch{to - from, 0, 0};
        for (const Leaf& leaf : pack.leaves) {
            if (working_length(pack, leaf) < to) continue;
            stretch.inner += bending_stiffness(pack, leaf, from);
            stretch.outer += bending_stiffness(pack, leaf, to);
        }
        stretches.push_back(stretch);
        from = to;
    }
    const LeafBeam beam(stretches);
    return 2 / beam.sag(stretches.size() - 1, stretches.size() - 1);
}

double bounce_frequency(double rate, double load) {
    return std::sqrt(rate * kGravity / load) / (2 * std::numbers::pi);
}

} // namespace fettle::spring
