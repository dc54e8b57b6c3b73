#include "screw_threads/picture.h"

namespace fettle::screw {
std::vector<fettle_point> thread_edge(const Thread& thread, double from, double to) {
    constexpr int kMostTurns = 120;
    const double turns = (to - from) / thread.pitch;
    if (turns > kMostTurns)
        return {{from, pitch_diameter(thread) / 2}, {to, pitch_diameter(thread) / 2}};
    const double root = core_diameter(thread) / 2;
    std::vector<fettle_point> edge;
    for (int i = 0; i < static_cast<int>(turns + 1e-6); ++i) {
        edge.push_back({from + i * thread.pitch, thread.diameter / 2});
        edge.push_back({from + (i + 0.5) * thread.pitch, root});
    }
    edge.push_back({to, root});
    return edge;
}

std::vector<fettle_point> bolt_outline(const BoltShape& bolt, double axis) {
    const double radius = bolt.across / 2;
    std::vector<fettle_point> edge{{-bolt.head_height, radius}, {0, radius}};
    if (bolt.plain > 0) {
        edge.push_back({0, bolt.thread.diameter / 2});
        edge.push_back({bolt.plain, bolt.thread.diameter / 2});
    }
    const auto threaded = thread_edge(bolt.thread, bolt.plain, bolt.tip);
    edge.insert(edge.end(), threaded.begin(), threaded.end());
    for (std::size_t i = edge.size(); i > 0; --i)
        edge.push_back({edge[i - 1].x, -edge[i - 1].y});
    edge.push_back(edge.front());
    for (fettle_point& point : edge)
        point.y += axis;
    return edge;
}

} // namespace fettle::screw
