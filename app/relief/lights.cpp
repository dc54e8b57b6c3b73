#include "relief/lights.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>

namespace fettle::relief {
namespace {

constexpr int kRounds = 40;
constexpr float kFull = 0.95F, kDark = 0.02F; // of full light: what tells of strengths lies between
constexpr std::size_t kEnough = 50;           // samples

bool tells(const SmallSet& set, std::size_t at) {
    float most = 0;
    for (const Grid& light : set.light)
        most = std::max(most, light.samples[at]);
    return std::ranges::all_of(set.light, [&](const Grid& light) {
        const float reading = light.samples[at];
        return reading < kFull && reading > kDark && reading > most / 8;
    });
}

} // namespace

SmallSet small_set(std::span<const Shot> shots, std::span<const Pose> poses, const Rectangle& part,
                   int most_side) {
    SmallSet set;
    set.by = divisor_for(Grid(part.width, part.height), most_side);
    const Grid size(shots[0].width, shots[0].height);
    const int left = part.x / set.by, top = part.y / set.by;
    const int width = part.width / set.by, height = part.height / set.by;
    for (std::size_t k = 0; k < shots.size(); ++k) {
        const Grid whole = posed(light_of(shots[k], set.by), reduced(poses[k], size, set.by),
                                 size.width / set.by, size.height / set.by, -1);
        Grid seen(width, height);
        for (int y = 0; y < height; ++y)
            std::copy_n(whole.row(top + y) + left, width, seen.row(y));
        set.light.push_back(std::move(seen));
    }
    return set;
}

std::vector<Light> with_strengths(const SmallSet& set, std::span<const Direction> towards) {
    const int count = int(towards.size());
    std::vector<Light> lights;
    for (const Direction& one : towards)
        lights.push_back({one, 1});
    std::vector<std::size_t> places;
    for (std::size_t at = 0; at < set.light[0].samples.size(); ++at)
        if (tells(set, at)) places.push_back(at);
    if (places.size() < kEnough || count < 4) return lights;
    Eigen::MatrixXd readings(count, int(places.size()));
    for (int k = 0; k < count; ++k)
        for (std::size_t i = 0; i < places.size(); ++i)
            readings(k, int(i)) = double(set.light[k].samples[places[i]]);
    for (int round = 0; round < kRounds; ++round) {
        Eigen::MatrixXd all(count, 3);
        for (int k = 0; k < count; ++k)
            all.row(k) =
                Eigen::RowVector3d(towards[k].x, towards[k].y, towards[k].z) * lights[k].strength;
        const Eigen::MatrixXd given =
            all * (all.transpose() * all).ldlt().solve(all.transpose() * readings);
        double sum = 0;
        for (int k = 0; k < count; ++k) {
            std::vector<float> ratios;
            for (int i = 0; i < int(places.size()); ++i)
                if (given(k, i) > 0) ratios.push_back(float(readings(k, i) / given(k, i)));
            if (!ratios.empty()) lights[k].strength *= double(quantile(std::move(ratios), 0.5));
            sum += lights[k].strength;
        }
        for (Light& light : lights)
            light.strength *= count / sum;
    }
    return lights;
}

} // namespace fettle::relief
