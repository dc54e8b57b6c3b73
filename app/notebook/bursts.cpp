#include "notebook/bursts.h"

#include <bit>
#include <map>
#include <utility>

namespace fettle {
namespace {

constexpr std::chrono::seconds kBurstPause{6};
// Found by tests/campaigns/sight_sweep (DEVELOPERS.md says how well they do).
constexpr int kMostUnlike = 16;         // bits
constexpr double kOfTheSharpest = 0.6;  // less than this share of it is blurred
constexpr double kBlurredAnyway = 0.05; // whatever stands beside it

// The photos of one camera that may belong together, as places in the list.
using Burst = std::vector<std::size_t>;

bool continues(const Photo& before, const Photo& photo) {
    return before.likeness && photo.likeness && before.taken && photo.taken &&
           photo.taken->local - before.taken->local <= kBurstPause &&
           unlikeness(*before.likeness, *photo.likeness) <= kMostUnlike;
}

void judge(const std::vector<Photo>& photos, const Burst& burst, std::vector<Seen>& seen) {
    std::size_t best = burst.front();
    for (const std::size_t at : burst)
        if (photos[at].sharpness.value_or(0) > photos[best].sharpness.value_or(0)) best = at;
    const double sharpest = photos[best].sharpness.value_or(0);
    for (const std::size_t at : burst) {
        seen[at].like_before = at != burst.front();
        const auto& figure = photos[at].sharpness;
        seen[at].blurred =
            figure && (*figure < kBlurredAnyway || *figure < kOfTheSharpest * sharpest);
    }
    if (burst.size() > 1 && photos[best].sharpness && !seen[best].blurred)
        seen[best].sharpest_of = static_cast<int>(burst.size());
}

} // namespace

int unlikeness(std::uint64_t a, std::uint64_t b) {
    return std::popcount(a ^ b);
}

std::vector<Seen> look_over(const std::vector<Photo>& photos) {
    std::vector<Seen> seen(photos.size());
    std::map<std::pair<std::string, std::string>, Burst> open; // by camera
    for (std::size_t at = 0; at < photos.size(); ++at) {
        const Photo& photo = photos[at];
        Burst& burst = open[{photo.camera_make, photo.camera_model}];
        if (!burst.empty() && !continues(photos[burst.back()], photo)) {
            judge(photos, burst, seen);
            burst.clear();
        }
        burst.push_back(at);
    }
    for (const auto& [camera, burst] : open)
        judge(photos, burst, seen);
    return seen;
}

std::string to_words(const Seen& seen) {
    std::string said;
    const auto say = [&said](const std::string& words) {
        said += (said.empty() ? "" : ", ") + words;
    };
    if (seen.blurred) say("blurred");
    if (seen.sharpest_of > 0)
        say("sharpest of " + std::to_string(seen.sharpest_of));
    else if (seen.like_before)
        say("much like the one before");
    return said;
}

} // namespace fettle
