#include "thread/profile.h"

#include "screw_threads/words.h"

#include <cmath>

namespace fettle::thread {
namespace {

constexpr int kPointsPerTurn = 48;

std::vector<fettle_point> turned(std::vector<fettle_point> edge, bool above) {
    if (above) return edge;
    for (fettle_point& point : edge)
        point.y = -point.y;
    return edge;
}

void close(std::vector<fettle_point>& outline) {
    outline.push_back(outline.front());
}

} // namespace

double profile_height(const screw::Thread& thread, double along) {
    const double pitch = thread.pitch;
    const double slope = 1 / std::tan(screw::flank_angle(thread.form)); // height over distance
    const double t = std::abs(std::remainder(along, pitch)); // 0 at a crest, p/2 at a root
    const double crest = thread.diameter / 2;
    const double depth = screw::thread_depth(thread.form) * pitch;
    const double r = screw::crest_radius(thread.form) * pitch;
    const bool round = r > 0;
    // The flank's line is the sharp triangle, whose apex stands above the crest by what is cut off.
    const double cut = round ? (screw::sharp_height(thread.form) * pitch - depth) / 2
                             : screw::sharp_height(thread.form) * pitch / 8;
    const double flank = crest + cut - slope * t;
    if (!round) return std::min(crest, std::max(crest - depth, flank));
    const double reach = r * std::cos(screw::flank_angle(thread.form)); // where the arc meets it
    if (t < reach) return crest - r + std::sqrt(r * r - t * t);
    const double from_root = pitch / 2 - t;
    if (from_root < reach) return crest - depth + r - std::sqrt(r * r - from_root * from_root);
    return flank;
}

std::vector<fettle_point> profile_outline(const screw::Thread& thread, double from, int turns,
                                          double floor) {
    std::vector<fettle_point> outline{{from, floor}};
    const int points = turns * kPointsPerTurn;
    for (int i = 0; i <= points; ++i) {
        const double along = thread.pitch * i / kPointsPerTurn;
        outline.push_back({from + along, profile_height(thread, along + thread.pitch / 2)});
    }
    outline.push_back({from + turns * thread.pitch, floor});
    close(outline);
    return outline;
}

std::vector<fettle_point> tapped_half(const screw::Thread& thread, double length, double outside) {
    const bool above = outside >= 0;
    std::vector<fettle_point> outline = turned(screw::thread_edge(thread, 0, length), above);
    outline.push_back({length, outside});
    outline.push_back({0, outside});
    close(outline);
    return outline;
}

std::vector<fettle_point> ring_half(const screw::Thread& outer, const screw::Thread& inner,
                                    double length, bool above) {
    std::vector<fettle_point> outline = turned(screw::thread_edge(outer, 0, length), above);
    const auto inside = turned(screw::thread_edge(inner, 0, length), above);
    outline.insert(outline.end(), inside.rbegin(), inside.rend());
    close(outline);
    return outline;
}

} // namespace fettle::thread
