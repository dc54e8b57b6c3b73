#include "notebook/torch_bursts.h"

#include "notebook/bursts.h"

#include <algorithm>
#include <map>
#include <utility>

namespace fettle {
namespace {

using Burst = std::vector<Photo>;

bool continues(const Photo& before, const Photo& photo) {
    return photo.taken->local - before.taken->local <= kTorchPause && before.width == photo.width &&
           before.height == photo.height;
}

// Bits that differ on the mean from one photo to the next.
double unlikeness_of(const Burst& burst) {
    double sum = 0;
    for (std::size_t at = 1; at < burst.size(); ++at)
        sum += unlikeness(*burst[at - 1].likeness, *burst[at].likeness);
    return sum / double(burst.size() - 1);
}

} // namespace

std::vector<Burst> torch_bursts(const std::vector<Photo>& photos) {
    std::vector<Burst> found;
    const auto close = [&found](Burst& burst) {
        if (burst.size() >= kLeastOfTorch) found.push_back(std::move(burst));
        burst.clear();
    };
    std::map<std::pair<std::string, std::string>, Burst> open; // by camera
    for (const Photo& photo : photos) {
        if (!photo.taken || !photo.likeness) continue;
        Burst& burst = open[{photo.camera_make, photo.camera_model}];
        if (!burst.empty() && (burst.size() == kMostOfTorch || !continues(burst.back(), photo)))
            close(burst);
        burst.push_back(photo);
    }
    for (auto& [camera, burst] : open)
        close(burst);
    std::ranges::stable_sort(found, {}, unlikeness_of);
    return found;
}

} // namespace fettle
