// Outlines of threads and bolts, for the drawings of the plugins that speak of them.
#pragma once

#include "picture.hpp"
#include "screw_threads/threads.h"

#include <vector>

namespace fettle::screw {

using plugin::give_picture;
using plugin::Picture;
using plugin::PictureLabel;
using plugin::Trace;

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

} // namespace fettle::screw
