#include "spring/pack_charts.h"

#include "spring/words.h"

#include <algorithm>

namespace fettle::spring {
namespace {

using plugin::give_label;
using plugin::give_series;
using plugin::line;
using Points = std::vector<fettle_point>;

constexpr double kCoarse = 1.0 / 20; // of the half length: outlines need no finer points

Points points_of(const std::vector<LoadPoint>& curve) {
    Points points;
    for (const LoadPoint& point : curve)
        points.push_back({point.deflection, point.load});
    return points;
}

// The upper edge of every leaf under the load, outside the clamp; x from the middle of the spring.
std::vector<Points> upper_edges(const PackAnswer& answer, const PackState& state,
                                double curvature) {
    std::vector<Points> all(1);
    const double clamp = answer.pack.clamp / 2;
    for (const Place& place : state.master) {
        all[0].push_back({clamp + place.at, curvature * place.at * place.at / 2 - place.value});
    }
    for (std::size_t i = 1; i < state.leaves.size(); ++i) {
        Points edge;
        const auto& gaps = state.leaves[i].gap;
        for (std::size_t s = 0; s < gaps.size(); ++s) {
            const double above = all[i - 1][s].y - answer.pack.leaves[i - 1].thickness;
            edge.push_back({clamp + gaps[s].at, above - std::max(0.0, gaps[s].value)});
        }
        all.push_back(std::move(edge));
    }
    return all;
}

// Fewer points of an edge, its last one kept; behind the flat in the clamp at this height.
Points thinned(const Points& edge, double flat, double clamp, double half_length) {
    Points kept = {{clamp, flat}};
    for (std::size_t s = 0; s < edge.size(); ++s) {
        const bool last = s + 1 == edge.size();
        if (last || edge[s].x - kept.back().x >= kCoarse * half_length) kept.push_back(edge[s]);
    }
    return kept;
}

// Both halves of a leaf as a closed outline.
Points outline(const Points& half, double thickness) {
    Points whole;
    for (auto point = half.rbegin(); point != half.rend(); ++point)
        whole.push_back({-point->x, point->y});
    whole.insert(whole.end(), half.begin(), half.end());
    for (std::size_t s = whole.size(); s-- > 0;)
        whole.push_back({whole[s].x, whole[s].y - thickness});
    whole.push_back(whole.front());
    return whole;
}

// Curvature that draws the free master so that its eye comes to the arch stated.
double drawn_curvature(const PackAnswer& answer) {
    const double length = answer.work.book.half_length;
    if (answer.loaded_arch)
        return 2 * (*answer.loaded_arch + answer.work.loaded.eye.drop) / (length * length);
    return free_curvatures(answer.pack).front();
}

Points contacts(const PackAnswer& answer, const std::vector<Points>& edges) {
    Points dots;
    const double clamp = answer.pack.clamp / 2;
    for (const Touch& touch : answer.work.loaded.touches) {
        if (touch.force <= 0) continue;
        const double x = clamp + touch.at;
        for (const fettle_point& point : edges[touch.upper]) {
            if (point.x < x - 1e-9) continue;
            const double y = point.y - answer.pack.leaves[touch.upper].thickness;
            dots.push_back({-x, y});
            dots.push_back({x, y});
            break;
        }
    }
    return dots;
}

} // namespace

void draw_load(const fettle_sink* sink, const PackTyped& typed, const PackAnswer& answer) {
    const PackWork& work = answer.work;
    Points here = {{work.deflection, typed.load}};
    if (work.loop) {
        const double empty = work.empty.eye.drop;
        give_series(sink, "load", "Loading", FETTLE_LINE, points_of(work.curve));
        give_series(sink, "load", "Unloading", FETTLE_LINE, points_of(work.curve_back));
        here.push_back({work.loop->down.drop - empty, typed.load});
        here.push_back({work.loop->up.drop - empty, typed.load});
    } else {
        give_series(sink, "load", "Without friction", FETTLE_LINE, points_of(work.curve));
    }
    give_series(sink, "load", "Textbook", FETTLE_DASHED,
                {{0, 0}, {2 * typed.load / work.book.rate, 2 * typed.load}});
    give_series(sink, "load", "This load", FETTLE_DOTS, here);
}

void draw_stress(const fettle_sink* sink, const PackTyped& typed, const PackAnswer& answer) {
    const double clamp = answer.pack.clamp / 2;
    for (std::size_t i = 0; i < answer.work.loaded.leaves.size(); ++i) {
        Points along;
        for (const Place& place : answer.work.loaded.leaves[i].stress_along)
            along.push_back({clamp + place.at, place.value});
        give_series(sink, "stress", capital(leaf_name(i)), FETTLE_LINE, along);
    }
    if (!typed.limit) return;
    give_series(sink, "stress", "Limit", FETTLE_DASHED,
                {{clamp, *typed.limit}, {clamp + answer.work.book.half_length, *typed.limit}});
}

void draw_pack(const fettle_sink* sink, const PackAnswer& answer) {
    const double curvature = drawn_curvature(answer);
    const double clamp = answer.pack.clamp / 2;
    const double length = answer.work.book.half_length;
    const auto edges = upper_edges(answer, answer.work.loaded, curvature);
    double flat = 0;
    for (std::size_t i = 0; i < edges.size(); ++i) {
        const Points half = thinned(edges[i], flat, clamp, length);
        const double thickness = answer.pack.leaves[i].thickness;
        give_series(sink, "pack", i == 0 ? "Under the load" : "", FETTLE_BODY,
                    outline(half, thickness));
        give_label(sink, "pack", half.back(), std::to_string(i + 1));
        flat -= thickness;
    }
    const auto unloaded = upper_edges(answer, answer.work.empty, curvature);
    const Points half = thinned(unloaded[0], 0, clamp, length);
    Points line_of_master;
    for (auto point = half.rbegin(); point != half.rend(); ++point)
        line_of_master.push_back({-point->x, point->y});
    line_of_master.insert(line_of_master.end(), half.begin(), half.end());
    give_series(sink, "pack", "Master, unloaded", FETTLE_DASHED, line_of_master);
    const Points dots = contacts(answer, edges);
    if (!dots.empty()) give_series(sink, "pack", "Leaves press here", FETTLE_DOTS, dots);
}

} // namespace fettle::spring
