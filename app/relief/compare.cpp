#include "relief/compare.h"

#include "relief/fourier.h"

#include <algorithm>
#include <cmath>
#include <mutex>
#include <numbers>

namespace fettle::relief {
namespace {

constexpr int kCoarseSide = 64, kFineSide = 500;
constexpr double kTurnStep = 3, kScaleStep = 0.06;
constexpr double kFine = 0.12, kAround = 0.6; // of the radius: strokes lie between
constexpr double kLeastOverlap = 0.4;
constexpr std::size_t kFollowed = 6; // of the coarse places

Failure refused(const std::string& sentence) {
    return {FailureKind::invalid, sentence};
}

Done checked(const Grid& one, const Grid& other, const CompareWish& wish) {
    const int least = std::min({one.width, one.height, other.width, other.height});
    if (least < 32)
        return refused("Reliefs of 32 pixels a side or more can be laid on each other; one has " +
                       std::to_string(least) + ".");
    if (!(wish.radius >= 2 && wish.radius <= least / 3.0))
        return refused("The radius " + std::to_string(wish.radius) +
                       " is not accepted: give 2 to a third of the smallest side, " +
                       std::to_string(least / 3) + ".");
    if (!(wish.most_turn_degrees >= 0 && wish.most_turn_degrees <= 45))
        return refused("Reliefs are turned by 0 to 45 degrees to fit, not by " +
                       std::to_string(wish.most_turn_degrees) + ".");
    if (!(wish.most_scale >= 1 && wish.most_scale <= 2))
        return refused("Reliefs are sized by a factor of 1 to 2 to fit, not by " +
                       std::to_string(wish.most_scale) + ".");
    return done();
}

// What is about as large as letters.
Grid letters_of(const Grid& heights, double radius) {
    Grid fine = smoothed(heights, radius * kFine);
    const Grid around = smoothed(heights, radius * kAround);
    for (std::size_t at = 0; at < fine.samples.size(); ++at)
        fine.samples[at] -= around.samples[at];
    return fine;
}

struct Masked {
    Grid value, square, there; // of what was posed; `there` is 1 where it reaches
};

Masked masked(const Grid& grid, const Pose& pose, int width, int height) {
    Masked made{posed(grid, pose, width, height, NAN), Grid(width, height), Grid(width, height)};
    for (std::size_t at = 0; at < made.value.samples.size(); ++at) {
        float& value = made.value.samples[at];
        if (std::isnan(value)) {
            value = 0;
            continue;
        }
        made.square.samples[at] = value * value;
        made.there.samples[at] = 1;
    }
    return made;
}

// The correlation coefficient of what overlaps at all whole shifts at once (Padfield, IEEE Trans.
// Image Processing 21, 2012), at best.
Laid best_shift(const Masked& still, const Masked& moved) {
    const int side = quick_length(2 * std::max(still.value.width, still.value.height));
    const auto sums = [&](const Grid& a, const Grid& b) {
        return correlated(a, b, Weigh::products, side);
    };
    const Grid count = sums(still.there, moved.there);
    const Grid a = sums(still.value, moved.there), b = sums(still.there, moved.value);
    const Grid aa = sums(still.square, moved.there), bb = sums(still.there, moved.square);
    const Grid ab = sums(still.value, moved.value);
    const float least = float(kLeastOverlap * double(still.value.samples.size()));
    Laid best;
    best.alike = -1;
    for (std::size_t at = 0; at < count.samples.size(); ++at) {
        const float n = count.samples[at];
        if (n < least) continue;
        const float spread_a = aa.samples[at] - a.samples[at] * a.samples[at] / n;
        const float spread_b = bb.samples[at] - b.samples[at] * b.samples[at] / n;
        if (!(spread_a > 0 && spread_b > 0)) continue;
        const float together = ab.samples[at] - a.samples[at] * b.samples[at] / n;
        const double alike = double(together / std::sqrt(spread_a * spread_b));
        if (alike <= best.alike) continue;
        const auto around = [side](int shift) { return shift > side / 2 ? shift - side : shift; };
        best = {{-double(around(int(at) % side)), -double(around(int(at) / side)), 0, 1},
                alike,
                double(n) / double(still.value.samples.size())};
    }
    return best;
}

// Poses that only turn and size.
std::vector<Pose> to_try(const CompareWish& wish) {
    std::vector<Pose> poses;
    const int turns = int(std::ceil(wish.most_turn_degrees / kTurnStep));
    const int scales = int(std::ceil(std::log(wish.most_scale) / std::log(1 + kScaleStep)));
    for (int turn = -turns; turn <= turns; ++turn)
        for (int scale = -scales; scale <= scales; ++scale)
            poses.push_back(
                {0, 0, turn * kTurnStep * std::numbers::pi / 180, std::pow(1 + kScaleStep, scale)});
    return poses;
}

// The turned one is shifted after it: both shifts add up in the frame of the turned one.
Pose shifted_before(const Pose& pose, const Pose& shift) {
    const double a = pose.scale * std::cos(pose.turn), b = pose.scale * std::sin(pose.turn);
    return {pose.x + a * shift.x - b * shift.y, pose.y + b * shift.x + a * shift.y, pose.turn,
            pose.scale};
}

} // namespace

Result<Alike> alike(const Grid& one, const Grid& other, const CompareWish& wish, const Work& work) {
    if (auto sound = checked(one, other, wish); !sound) return sound.failure();
    const int by = std::max(divisor_for(one, kFineSide), divisor_for(other, kFineSide));
    const Grid still = shrunk(letters_of(one, wish.radius), by);
    const Grid moved = shrunk(letters_of(other, wish.radius), by);
    const int coarse_by =
        std::max(divisor_for(still, kCoarseSide), divisor_for(moved, kCoarseSide));
    const Grid small = shrunk(still, coarse_by), small_moved = shrunk(moved, coarse_by);
    const Masked small_still = masked(small, {}, small.width, small.height);
    const auto poses = to_try(wish);
    std::vector<Laid> found(poses.size());
    auto tried = in_pieces(int(poses.size()), work, "comparing", [&](int piece) {
        // Turned about the middle of both.
        const Pose centred{(small_moved.width - small.width) / 2.0,
                           (small_moved.height - small.height) / 2.0, poses[piece].turn,
                           poses[piece].scale};
        const Laid laid =
            best_shift(small_still, masked(small_moved, centred, small.width, small.height));
        found[piece] = {shifted_before(centred, laid.pose), laid.alike, laid.overlap};
    });
    if (!tried) return tried.failure();
    std::ranges::sort(found, std::greater(), &Laid::alike);
    Laid best;
    best.alike = -1;
    for (std::size_t at = 0; at < std::min(kFollowed, found.size()); ++at) {
        if (work.stop.stop_requested()) return stopped();
        const Laid rough = refined(small, small_moved, found[at].pose, Freedom::similarity);
        const Laid fine =
            refined(still, moved, enlarged(rough.pose, still, coarse_by), Freedom::similarity);
        if (fine.overlap >= kLeastOverlap && fine.alike > best.alike) best = fine;
    }
    if (best.alike <= -1) best = judged(still, moved, {});
    return Alike{enlarged(best.pose, one, by), best.alike, best.overlap};
}

} // namespace fettle::relief
