// What a chart holds before it is poured into the sink: traces and labels as plain values.
#pragma once

#include "describe.hpp"
#include "screw_threads/threads.h"

#include <string>
#include <vector>

namespace fettle::screw {

struct Trace {
    std::string name;   // "": not in the legend
    std::uint32_t look; // FETTLE_LINE, FETTLE_DASHED, FETTLE_DOTS, FETTLE_BODY
    std::vector<fettle_point> points;
};

struct PictureLabel {
    fettle_point at;
    std::string text;
};

struct Picture {
    const char* chart; // id
    std::vector<Trace> traces;
    std::vector<PictureLabel> labels;
};

struct BoltShape {
    Thread thread;
    double across; // m, of the head
    double head_height;
    double plain; // unthreaded shank under the head
    double tip;   // length under the head
};

// Edge of a thread from `from` to `to`, at its radius above the axis; a plain line where it would
// be a mere haze.
std::vector<fettle_point> thread_edge(const Thread& thread, double from, double to);

// A bolt to scale, its axis at y = `axis`: head left of x = 0, tip to the right, closed.
std::vector<fettle_point> bolt_outline(const BoltShape& bolt, double axis = 0);

inline void give_picture(const fettle_sink* sink, const Picture& picture) {
    for (const Trace& trace : picture.traces)
        plugin::give_series(sink, picture.chart, trace.name, trace.look, trace.points);
    for (const PictureLabel& label : picture.labels)
        plugin::give_label(sink, picture.chart, label.at, label.text);
}

} // namespace fettle::screw
