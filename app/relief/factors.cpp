#include "relief/factors.h"

#include <algorithm>
#include <cmath>

namespace fettle::relief {
namespace {

constexpr int kTrims = 3;
constexpr std::ptrdiff_t kEnough = 200; // samples
constexpr double kLeastThird = 2e-3, kOverNoise = 2;
constexpr double kKept = 0.9; // of the samples, by how well they are of rank 3

std::vector<bool> usable(const SmallSet& set) {
    std::vector<bool> in(set.light[0].samples.size());
    for (std::size_t at = 0; at < in.size(); ++at) {
        std::vector<float> readings;
        for (const Grid& light : set.light)
            readings.push_back(light.samples[at]);
        const auto [least, most] = std::ranges::minmax(readings);
        in[at] = least > 0.005F && most < 0.95F && least > 0.1F * quantile(readings, 0.5);
    }
    return in;
}

Eigen::VectorXd readings_at(const SmallSet& set, std::size_t at) {
    Eigen::VectorXd readings(int(set.light.size()));
    for (int k = 0; k < readings.size(); ++k)
        readings[k] = double(set.light[k].samples[at]);
    return readings;
}

} // namespace

bool Factors::enough() const {
    return std::ranges::count(in, true) >= kEnough;
}

bool Factors::tells() const {
    return third > kLeastThird && third > kOverNoise * fourth;
}

Factors factors_of(const SmallSet& set) {
    Factors factors{set.light[0].width, set.light[0].height, {}, {}, usable(set)};
    const int count = int(set.light.size());
    for (int round = 0; round <= kTrims; ++round) {
        Eigen::MatrixXd sums = Eigen::MatrixXd::Zero(count, count);
        for (std::size_t at = 0; at < factors.in.size(); ++at)
            if (factors.in[at]) {
                const Eigen::VectorXd readings = readings_at(set, at).normalized();
                sums += readings * readings.transpose();
            }
        const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> axes(sums);
        factors.lights = axes.eigenvectors().rightCols(3).rowwise().reverse();
        const auto beside_first = [&](int axis) {
            return std::sqrt(std::max(0.0, axes.eigenvalues()[count - axis]) /
                             std::max(1e-30, axes.eigenvalues()[count - 1]));
        };
        factors.third = beside_first(3), factors.fourth = beside_first(4);
        if (round == kTrims) break;
        std::vector<float> left(factors.in.size(), NAN);
        for (std::size_t at = 0; at < left.size(); ++at)
            if (factors.in[at]) {
                const Eigen::VectorXd readings = readings_at(set, at);
                const Eigen::VectorXd rest =
                    readings - factors.lights * (factors.lights.transpose() * readings);
                left[at] = float(rest.norm() / readings.norm());
            }
        const float most = quantile(left, kKept);
        for (std::size_t at = 0; at < left.size(); ++at)
            factors.in[at] = factors.in[at] && left[at] <= std::max(most, 1e-6F);
    }
    for (std::size_t at = 0; at < factors.in.size(); ++at)
        factors.normals.push_back(factors.lights.transpose() * readings_at(set, at));
    return factors;
}

} // namespace fettle::relief
