// Pictures spoilt or repeated in known ways, for tests of what is seen of them: blur, shake,
// another framing, another exposure, noise. By plain sums over pixels, in grey.
#pragma once

#include "photos/grey.h"

#include <algorithm>
#include <cmath>
#include <random>

namespace blur_tests {

using fettle::photos::Grey;

// Straight along one direction, weights as given, the edge repeated.
inline Grey smeared(const Grey& from, const std::vector<double>& weights, int dx, int dy) {
    Grey to{from.width, from.height, {}};
    to.samples.resize(from.samples.size());
    const int reach = int(weights.size()) / 2;
    for (int y = 0; y < from.height; ++y)
        for (int x = 0; x < from.width; ++x) {
            double sum = 0, weight = 0;
            for (int i = -reach; i <= reach; ++i) {
                const int u = std::clamp(x + i * dx, 0, from.width - 1);
                const int v = std::clamp(y + i * dy, 0, from.height - 1);
                sum += weights[std::size_t(i + reach)] * from.row(v)[u];
                weight += weights[std::size_t(i + reach)];
            }
            to.samples[std::size_t(y) * from.width + x] = std::uint8_t(std::lround(sum / weight));
        }
    return to;
}

// Out of focus: a Gaussian of this sigma, pixels.
inline Grey blurred(const Grey& from, double sigma) {
    const int reach = int(std::ceil(3 * sigma));
    std::vector<double> weights;
    for (int i = -reach; i <= reach; ++i)
        weights.push_back(std::exp(-i * i / (2 * sigma * sigma)));
    return smeared(smeared(from, weights, 1, 0), weights, 0, 1);
}

// Moved while the shutter was open: an even streak of so many pixels.
inline Grey shaken(const Grey& from, int length, bool down) {
    return smeared(from, std::vector<double>(std::size_t(length | 1), 1.0), down ? 0 : 1,
                   down ? 1 : 0);
}

// The same thing again: framed a little aside, a little brighter or darker, with other noise.
inline Grey again(const Grey& from, double aside, double light, double noise,
                  std::mt19937& random) {
    const int width = from.width * 9 / 10, height = from.height * 9 / 10;
    std::uniform_real_distribution<double> anyway(-aside, aside);
    std::normal_distribution<double> grain(0, noise);
    const int left = std::clamp(int((0.05 + anyway(random)) * from.width), 0, from.width - width);
    const int top = std::clamp(int((0.05 + anyway(random)) * from.height), 0, from.height - height);
    Grey to = cropped(from, {left, top, width, height});
    for (auto& sample : to.samples)
        sample = std::uint8_t(std::clamp(std::lround(sample * light + grain(random)), 0L, 255L));
    return to;
}

} // namespace blur_tests
