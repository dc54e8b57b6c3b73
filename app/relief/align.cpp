#include "relief/align.h"

#include <algorithm>
#include <cmath>

namespace fettle::relief {
namespace {

constexpr int kCoarseSide = 250;
constexpr double kSmooth = 1.0;    // samples
constexpr double kAround = 10;     // how far the brightness and the busyness around is looked for
constexpr int kRounds = 2;         // on all others together
constexpr double kMostTurn = 0.06; // radians
constexpr double kMostScale = 0.04;

bool within_reason(const Pose& pose, const Grid& still) {
    return std::abs(pose.x) <= still.width / 3.0 && std::abs(pose.y) <= still.height / 3.0 &&
           std::abs(pose.turn) <= kMostTurn && std::abs(pose.scale - 1) <= kMostScale;
}

Failure unlike(std::size_t shot) {
    return {FailureKind::invalid,
            "Photo " + std::to_string(shot + 1) +
                " cannot be laid on the first: choose photos of one part that was not moved, taken "
                "from one place."};
}

// All as the first sees them, and their sum.
struct Together {
    std::vector<Grid> seen;
    Grid sum;

    Together(const std::vector<Grid>& photos, const std::vector<Pose>& poses)
        : sum(photos[0].width, photos[0].height) {
        for (std::size_t i = 0; i < photos.size(); ++i) {
            seen.push_back(posed(photos[i], poses[i], sum.width, sum.height));
            for (std::size_t at = 0; at < sum.samples.size(); ++at)
                sum.samples[at] += seen[i].samples[at];
        }
    }
    // A photo would agree with a mean that it is part of.
    Grid mean_without(std::size_t photo) const {
        Grid mean = sum;
        for (std::size_t at = 0; at < mean.samples.size(); ++at)
            mean.samples[at] =
                (mean.samples[at] - seen[photo].samples[at]) / float(seen.size() - 1);
        return mean;
    }
};

struct Edges {
    std::vector<Grid> fine, coarse; // one each of a shot
    int by = 1, coarse_by = 1;      // pixels a sample of `fine`, samples of it a sample of `coarse`
};

Result<Edges> edges_of(std::span<const Shot> shots, const Work& work) {
    Edges edges;
    const Grid size(shots[0].width, shots[0].height);
    edges.by = divisor_for(size, kAlignSide);
    edges.fine.resize(shots.size());
    edges.coarse.resize(shots.size());
    const Grid fine_size(size.width / edges.by, size.height / edges.by);
    edges.coarse_by = divisor_for(fine_size, kCoarseSide);
    auto seen = in_pieces(int(shots.size()), work, "edges", [&](int shot) {
        const Grid light = light_of(shots[shot], edges.by);
        edges.fine[shot] = edges_of(light, kSmooth);
        edges.coarse[shot] = edges_of(shrunk(light, edges.coarse_by), kSmooth);
    });
    if (!seen) return seen.failure();
    return edges;
}

} // namespace

Grid edges_of(const Grid& light, double sigma) {
    const Grid smooth = smoothed(light, sigma), around = smoothed(light, kAround);
    const Grid right = slope_x(smooth), down = slope_y(smooth);
    Grid size(light.width, light.height);
    for (std::size_t i = 0; i < size.samples.size(); ++i)
        size.samples[i] =
            std::hypot(right.samples[i], down.samples[i]) / (around.samples[i] + 1e-3F);
    // A single glint counts no more than a clear edge.
    const Grid busy = smoothed(size, kAround);
    for (std::size_t i = 0; i < size.samples.size(); ++i)
        size.samples[i] = size.samples[i] / (size.samples[i] + 2 * busy.samples[i] + 1e-4F);
    return smoothed(size, sigma);
}

Result<std::vector<Pose>> aligned(std::span<const Shot> shots, Freedom freedom, const Work& work) {
    if (shots.empty()) return std::vector<Pose>{};
    for (std::size_t i = 1; i < shots.size(); ++i)
        if (shots[i].width != shots[0].width || shots[i].height != shots[0].height)
            return Failure{
                FailureKind::invalid,
                "Photo " + std::to_string(i + 1) + " is " + std::to_string(shots[i].width) +
                    " by " + std::to_string(shots[i].height) + " pixels and the first " +
                    std::to_string(shots[0].width) + " by " + std::to_string(shots[0].height) +
                    ": a torch set is of one size, taken from one place."};
    const auto edges = edges_of(shots, work);
    if (!edges) return edges.failure();
    const Grid &first = edges->fine[0], &first_coarse = edges->coarse[0];
    std::vector<Pose> poses(shots.size());
    std::vector<double> alike(shots.size(), 1);
    auto begun = in_pieces(int(shots.size()), work, "shifts", [&](int shot) {
        if (shot == 0) return;
        const Pose start = coarse_shift(first_coarse, edges->coarse[shot]);
        const Laid rough = refined(first_coarse, edges->coarse[shot], start, freedom);
        poses[shot] = enlarged(rough.pose, first, edges->coarse_by);
    });
    if (!begun) return begun.failure();
    for (int round = 0; round < kRounds; ++round) {
        const Together all(edges->fine, poses);
        auto better = in_pieces(int(shots.size()), work, "shifts", [&](int shot) {
            const Laid laid =
                refined(all.mean_without(shot), edges->fine[shot], poses[shot], freedom);
            alike[shot] = laid.alike;
            poses[shot] = laid.pose;
        });
        if (!better) return better.failure();
    }
    const Pose first_pose = poses[0];
    for (std::size_t i = 0; i < poses.size(); ++i) {
        // All were laid on the mean; asked for is how they lie on the first.
        poses[i] = relative(poses[i], first_pose);
        if (alike[i] < kLeastAlike || !within_reason(poses[i], first)) return unlike(i);
        const Grid size(shots[0].width, shots[0].height);
        poses[i] = enlarged(poses[i], size, edges->by);
    }
    return poses;
}

} // namespace fettle::relief
