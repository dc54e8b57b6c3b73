// Looking for the ball: votes of edges for the middles of circles through them (Hough; with the
// direction of the slope as in Kimme, Ballard and Sklansky, Comm. ACM 18, 1975).
#include "relief/align.h"
#include "relief/ball.h"

#include <algorithm>
#include <cmath>

namespace fettle::relief {
namespace {

constexpr int kVotingSide = 200; // samples
constexpr int kLeastRadius = 5;  // of these
constexpr double kEdges = 0.90;  // this share of samples is taken for no edge
constexpr int kCandidates = 12;
constexpr double kLeastRim = 0.5; // of a circle's edge that must be seen

struct Candidate {
    double votes = 0;
    Ball ball;
};

// Votes by radius, then row, then column.
struct Votes {
    int width = 0, height = 0, radii = 0;
    std::vector<float> all;

    float& at(int radius, int x, int y) {
        return all[(std::size_t(radius) * height + y) * width + x];
    }
};

// The mean over all photos of the slopes' outer products' sizes: the edges that stay.
Grid mean_edges(std::span<const Grid> photos) {
    Grid mean(photos[0].width, photos[0].height);
    for (const Grid& photo : photos) {
        const Grid edges = edges_of(photo, 1);
        for (std::size_t i = 0; i < mean.samples.size(); ++i)
            mean.samples[i] += edges.samples[i] / float(photos.size());
    }
    return mean;
}

void vote(const Grid& photo, Votes& votes) {
    const Grid smooth = smoothed(photo, 1), right = slope_x(smooth), down = slope_y(smooth);
    const Grid edges = edges_of(photo, 1);
    const float least = quantile(edges.samples, kEdges);
    for (int y = 0; y < photo.height; ++y)
        for (int x = 0; x < photo.width; ++x) {
            const double dx = double(right.at(x, y)), dy = double(down.at(x, y));
            const double size = std::hypot(dx, dy);
            if (edges.at(x, y) < least || !(size > 0)) continue;
            for (int radius = 0; radius < votes.radii; ++radius)
                for (const double way : {1.0, -1.0}) {
                    const double far = way * (radius + kLeastRadius) / size;
                    const int u = int(std::lround(x + dx * far)),
                              v = int(std::lround(y + dy * far));
                    if (u >= 0 && v >= 0 && u < photo.width && v < photo.height)
                        votes.at(radius, u, v) += 1 / float(radius + kLeastRadius);
                }
        }
}

// The best middles of all radii, none twice.
std::vector<Candidate> best_of(Votes& votes) {
    std::vector<Candidate> all;
    for (int radius = 0; radius < votes.radii; ++radius) {
        Grid layer(votes.width, votes.height);
        std::copy_n(&votes.at(radius, 0, 0), layer.samples.size(), layer.samples.begin());
        layer = smoothed(layer, 1);
        const double size = radius + kLeastRadius;
        for (int y = int(size * 0.9); y < votes.height - int(size * 0.9); ++y)
            for (int x = int(size * 0.9); x < votes.width - int(size * 0.9); ++x)
                all.push_back({double(layer.at(x, y)), {double(x), double(y), size}});
    }
    std::ranges::sort(all, std::greater(), &Candidate::votes);
    std::vector<Candidate> kept;
    for (const Candidate& one : all) {
        const bool known = std::ranges::any_of(kept, [&](const Candidate& other) {
            return std::hypot(one.ball.x - other.ball.x, one.ball.y - other.ball.y) +
                       std::abs(one.ball.radius - other.ball.radius) <
                   0.3 * other.ball.radius;
        });
        if (!known) kept.push_back(one);
        if (int(kept.size()) == kCandidates) break;
    }
    return kept;
}

// How much of an edge lies along the circle, and on what share of it there is one.
struct Rim {
    double mean = 0, share = 0;
};
Rim rim_of(const Grid& edges, const Ball& ball, float usual) {
    const int steps = std::max(24, int(4 * ball.radius));
    Rim rim;
    for (int step = 0; step < steps; ++step) {
        const double angle = 6.283185307179586 * step / steps;
        const float edge = sampled(edges, ball.x + ball.radius * std::cos(angle),
                                   ball.y + ball.radius * std::sin(angle));
        rim.mean += double(edge) / steps;
        rim.share += edge > usual ? 1.0 / steps : 0;
    }
    return rim;
}

// Walks to where the edge is strongest along the whole circle.
Ball settled(const Grid& edges, Ball ball, double step) {
    for (double best = rim_of(edges, ball, 1).mean; step > 0.02;) {
        Ball found = ball;
        for (int axis = 0; axis < 3; ++axis)
            for (const double way : {step, -step}) {
                Ball tried = ball;
                (axis == 0 ? tried.x : axis == 1 ? tried.y : tried.radius) += way;
                if (const double mean = rim_of(edges, tried, 1).mean; mean > best)
                    best = mean, found = tried;
            }
        if (found == ball)
            step /= 2;
        else
            ball = found;
    }
    return ball;
}

bool shines_in_all(std::span<const Grid> photos, const Ball& ball) {
    for (std::size_t i = 0; i < photos.size(); ++i)
        if (!light_from_ball({photos[i], ball}, i)) return false;
    return true;
}

} // namespace

Result<Ball> find_ball(std::span<const Grid> photos, const Work& work) {
    const Failure none{FailureKind::not_found,
                       "No shiny ball stands out in the photos: circle it by hand, or go without."};
    if (photos.empty() || photos[0].width < 32 || photos[0].height < 32) return none;
    const int by = divisor_for(photos[0], kVotingSide);
    const int width = photos[0].width / by, height = photos[0].height / by;
    Votes votes{width, height, std::min(width, height) / 4 - kLeastRadius, {}};
    if (votes.radii < 1) return none;
    votes.all.resize(std::size_t(votes.radii) * width * height);
    for (std::size_t i = 0; i < photos.size(); ++i) {
        if (work.stop.stop_requested()) return stopped();
        vote(shrunk(photos[i], by), votes);
        if (work.progress) work.progress(i + 1, photos.size(), "ball");
    }
    const Grid edges = mean_edges(photos);
    const float usual = quantile(edges.samples, 0.8);
    Rim best;
    Ball found;
    for (const Candidate& candidate : best_of(votes)) {
        if (work.stop.stop_requested()) return stopped();
        const double half = (by - 1) / 2.0;
        const Ball rough{candidate.ball.x * by + half, candidate.ball.y * by + half,
                         candidate.ball.radius * by};
        const Ball ball = settled(edges, rough, by);
        const Rim rim = rim_of(edges, ball, usual);
        if (rim.share >= kLeastRim && rim.mean > best.mean && shines_in_all(photos, ball))
            best = rim, found = ball;
    }
    if (!(best.mean > 0)) return none;
    return found;
}

} // namespace fettle::relief
