#include "relief/torch_set.h"

#include "relief/height.h"

#include <algorithm>
#include <cmath>

namespace fettle::relief {
namespace {

constexpr int kKnownSide = 120, kUnknownSide = 300; // samples that lights are worked out on
constexpr double kSmall = 1.0 / 12; // of the region's smaller side: what is small beside it

// Whether more of what is small stands out than is sunk in: the third power of heights tells.
bool is_raised(const Grid& height) {
    const int by = divisor_for(height, 400);
    const Grid small = shrunk(height, by);
    const Grid around = smoothed(small, kSmall * std::min(small.width, small.height));
    double sum = 0;
    for (std::size_t at = 0; at < small.samples.size(); ++at)
        sum += std::pow(double(small.samples[at] - around.samples[at]), 3);
    return sum > 0;
}

Result<UnknownLights> lights_of(std::span<const Shot> shots, const std::vector<Pose>& poses,
                                const Rectangle& part,
                                const std::optional<std::vector<Direction>>& towards) {
    if (!towards) return unknown_lights(small_set(shots, poses, part, kUnknownSide));
    return UnknownLights{with_strengths(small_set(shots, poses, part, kKnownSide), *towards), true};
}

} // namespace

void turn_over(Relief& relief) {
    for (Grid* grid : {&relief.right, &relief.down, &relief.height})
        for (float& sample : grid->samples)
            sample = -sample;
    for (auto& [towards, strength] : relief.lights)
        towards.x = -towards.x, towards.y = -towards.y;
}

Result<Relief> relief_of(std::span<const Shot> shots, const std::vector<Pose>& poses,
                         const Rectangle& part,
                         const std::optional<std::vector<Direction>>& towards, const Work& work) {
    const std::size_t lit = towards ? towards->size() : shots.size();
    if (auto sound = check_set(shots, lit, poses.size(), part); !sound) return sound.failure();
    if (work.stop.stop_requested()) return stopped();
    auto lights = lights_of(shots, poses, part, towards);
    if (!lights) return lights.failure();
    auto slopes = slopes_of(shots, lights->lights, poses, part, work);
    if (!slopes) return slopes.failure();
    auto height = heights_of(slopes->right, slopes->down, work);
    if (!height) return height.failure();
    Relief relief{std::move(slopes->right), std::move(slopes->down),   std::move(slopes->albedo),
                  std::move(*height),       std::move(lights->lights), poses,
                  towards.has_value(),      lights->slope_settled,     slopes->readings,
                  slopes->unknown};
    if (!towards && is_raised(relief.height)) turn_over(relief);
    return relief;
}

} // namespace fettle::relief
