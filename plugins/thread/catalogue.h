// Every standard thread that an old vehicle may hold, with its series and where it is met.
//
// Built on the tables of screw_threads/series.h; pipe threads are added here, since no bolt has
// them. SI units; knows no host.
#pragma once

#include "screw_threads/threads.h"

#include <string>
#include <vector>

namespace fettle::thread {

struct Known {
    screw::Thread thread; // name as screw::read_thread takes it, pipe threads excepted
    const char* series;   // "BSF", "ISO coarse", "G (BSP)"
    std::string met;      // where it is met: British, American, cycle, metric, instruments, pipes
    bool fastens = true;  // false: a pipe thread
    double taper = 0;     // m, how far the outside of a tapered end may lie below the nominal
};

std::vector<Known> catalogue();

// "Whitworth fine, British vehicles to the 1950s"; the whole name and the use of a series.
const char* series_words(const std::string& series);

// 60° and 55° threads that differ in nothing else; twins, whose every measure is the same.
bool same_measures(const screw::Thread& a, const screw::Thread& b);
bool twins(const screw::Thread& a, const screw::Thread& b);

} // namespace fettle::thread
