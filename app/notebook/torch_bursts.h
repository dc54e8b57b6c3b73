// Photos that may be a torch set: by one camera, of one size, soon after each other. Likeness only
// orders them, as light from another side changes a picture more than it does its subject. Only
// points out; knows no pixels.
#pragma once

#include "notebook/photos.h"

#include <vector>

namespace fettle {

inline constexpr std::chrono::seconds kTorchPause{
    30}; // to move a torch; common practice, no source
inline constexpr std::size_t kLeastOfTorch = 4, kMostOfTorch = 24;

// Each in the order of time, those with the most alike pictures first. A longer run is cut after
// its 24th photo. Photos without a time or figures of likeness are passed over. Precondition: the
// photos are in the order of time, as list_photos gives them.
std::vector<std::vector<Photo>> torch_bursts(const std::vector<Photo>& photos);

} // namespace fettle
