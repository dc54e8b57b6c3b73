#include "relief/factors.h"

#include <algorithm>
#include <cmath>

namespace fettle::relief {
namespace {

constexpr double kWeakest = 0.2, kStrongest = 5; // beside the mean

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
    const auto count = Eigen::Index(towards.size());
    std::vector<Light> lights;
    for (const Direction& one : towards)
        lights.push_back({one, 1});
    const Factors factors = factors_of(set);
    if (!factors.enough() || !factors.tells()) return lights;
    // Of each light three figures: (its row of the factors) A - strength * direction = 0.
    Eigen::MatrixXd all = Eigen::MatrixXd::Zero(3 * count, 9 + count);
    for (Eigen::Index k = 0; k < count; ++k)
        for (Eigen::Index axis = 0; axis < 3; ++axis) {
            const double along[] = {towards[k].x, towards[k].y, towards[k].z};
            all.block<1, 3>(3 * k + axis, 3 * axis) = factors.lights.row(k);
            all(3 * k + axis, 9 + k) = -along[axis];
        }
    const Eigen::JacobiSVD<Eigen::MatrixXd> svd(all, Eigen::ComputeFullV);
    const Eigen::VectorXd strengths = svd.matrixV().col(8 + count).tail(count);
    const double mean = strengths.mean();
    // One that came out absurd says that directions and photos do not fit: then none is believed.
    if (!((strengths / mean).minCoeff() > kWeakest && (strengths / mean).maxCoeff() < kStrongest))
        return lights;
    for (Eigen::Index k = 0; k < count; ++k)
        lights[k].strength = strengths[k] / mean;
    return lights;
}

} // namespace fettle::relief
