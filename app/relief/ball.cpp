#include "relief/ball.h"

#include <algorithm>
#include <cmath>

namespace fettle::relief {
namespace {

constexpr double kWithin = 0.97;     // of the radius: beyond, the rim's own shine begins
constexpr float kStandsOut = 2.5F;   // a highlight against the middling brightness of the ball
constexpr float kLeastRise = 0.04F;  // of full light
constexpr double kMostShare = 0.125; // of the disc
constexpr double kLeastAbove = 5;    // degrees

Failure refused(std::size_t photo, const std::string& what) {
    return {FailureKind::invalid, "Photo " + std::to_string(photo + 1) + ": " + what};
}

bool on_disc(const Ball& ball, double x, double y) {
    return std::hypot(x - ball.x, y - ball.y) <= kWithin * ball.radius;
}

// What hangs together with the brightest sample above the threshold: its weighed middle and size.
struct Spot {
    double weight = 0, x = 0, y = 0;
    int samples = 0;
};
Spot spot_around(const Grid& light, const Ball& ball, int start, float above) {
    Spot spot;
    std::vector<bool> seen(light.samples.size(), false);
    std::vector<int> open{start};
    seen[std::size_t(start)] = true;
    while (!open.empty()) {
        const int at = open.back(), x = at % light.width, y = at / light.width;
        open.pop_back();
        const double weight = double(light.samples[std::size_t(at)] - above);
        spot.weight += weight, spot.x += weight * x, spot.y += weight * y;
        ++spot.samples;
        for (const auto& [dx, dy] : {std::pair{1, 0}, {-1, 0}, {0, 1}, {0, -1}}) {
            const int u = x + dx, v = y + dy;
            if (u < 0 || v < 0 || u >= light.width || v >= light.height || !on_disc(ball, u, v))
                continue;
            const int next = v * light.width + u;
            if (seen[std::size_t(next)] || light.samples[std::size_t(next)] <= above) continue;
            seen[std::size_t(next)] = true;
            open.push_back(next);
        }
    }
    return spot;
}

} // namespace

Result<Point> highlight_of(const BallView& view, std::size_t photo) {
    const Ball& ball = view.ball;
    if (!(ball.radius >= kLeastBall))
        return refused(photo, "the ball's radius is " + std::to_string(int(ball.radius)) +
                                  " pixels; " + std::to_string(int(kLeastBall)) +
                                  " or more are needed.");
    if (ball.x - ball.radius < -1 || ball.y - ball.radius < -1 ||
        ball.x + ball.radius > view.light.width || ball.y + ball.radius > view.light.height)
        return refused(photo, "the ball does not lie within the picture as a whole.");
    const Grid light = smoothed(view.light, std::max(0.7, ball.radius / 60));
    std::vector<float> disc;
    int brightest = -1;
    for (int y = 0; y < light.height; ++y)
        for (int x = 0; x < light.width; ++x) {
            if (!on_disc(ball, x, y)) continue;
            disc.push_back(light.at(x, y));
            const int at = y * light.width + x;
            if (brightest < 0 || light.at(x, y) > light.samples[std::size_t(brightest)])
                brightest = at;
        }
    const float middling = quantile(disc, 0.5), most = light.samples[std::size_t(brightest)];
    if (most < middling * kStandsOut || most < middling + kLeastRise)
        return refused(photo, "no highlight stands out on the ball; circle the ball by hand, or "
                              "leave it out.");
    const Spot spot = spot_around(light, ball, brightest, (middling + most) / 2);
    if (spot.samples > kMostShare * double(disc.size()))
        return refused(photo, "the highlight covers more than an eighth of the ball: it must be "
                              "shiny, and the torch small.");
    const auto row = brightest / light.width;
    if (!(spot.weight > 0)) return Point{double(brightest - row * light.width), double(row)};
    return Point{spot.x / spot.weight, spot.y / spot.weight};
}

Result<Direction> light_from_ball(const BallView& view, std::size_t photo) {
    const auto spot = highlight_of(view, photo);
    if (!spot) return spot.failure();
    const double x = (spot->x - view.ball.x) / view.ball.radius;
    const double y = (spot->y - view.ball.y) / view.ball.radius;
    const double z = std::sqrt(std::max(0.0, 1 - x * x - y * y));
    const Direction light{2 * z * x, 2 * z * y, 2 * z * z - 1};
    if (above_of(light) < kLeastAbove)
        return refused(photo, "by the ball the torch stood " +
                                  std::to_string(int(std::lround(above_of(light)))) +
                                  " degrees above the part; 5 or more are needed.");
    return light;
}

} // namespace fettle::relief
