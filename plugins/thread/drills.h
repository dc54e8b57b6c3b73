// Drills: the standard sizes, which one a thread is tapped from, and how much thread it leaves.
// SI units, pure functions.
#pragma once

#include "screw_threads/threads.h"

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace fettle::thread {

struct Drill {
    std::string name; // "6.8 mm", "letter Q", "no. 7", "5/16 in"
    double diameter;  // m
};

inline constexpr std::array<const char*, 3> kDrillSets = {"all", "metric", "inch"};

// Metric drills by ISO 235 (0.05 mm steps to 3, 0.1 to 14, 0.25 to 32, 0.5 above; from memory), and
// number, letter and 64ths drills by ASME B94.11M (from memory); ascending, to 64 mm.
std::vector<Drill> drills(std::string_view set);

// How much of the full thread a hole of this diameter leaves, 1 for all of it:
// (D - hole)/(k P), k = 1.299038 UN and metric, 1.280654 Whitworth, 1.2 BA, 1.0654 cycle.
double thread_share(const screw::Thread& thread, double hole);

// The share usually left: 75 % UN and BA (common practice, no source), 82 % Whitworth and cycle,
// the middle of the 77 to 87 % of BS 1157; metric d - P of ISO 2306 comes to 77 %.
double usual_share(screw::Form form);

double hole_for(const screw::Thread& thread, double share); // m

// The nearest of the set to the hole for this share. Blank share and a metric thread: d - P rounded
// to the tenth (twentieth below 3 mm), half to even, which are the drills of ISO 2306.
Drill tapping_drill(const screw::Thread& thread, std::string_view set,
                    std::optional<double> share = {});

// The smallest of the set that is not below `least` nor above `most`, nearest to `wanted`; the
// nearest of all where none lies between.
Drill drill_between(std::string_view set, double least, double wanted, double most);

} // namespace fettle::thread
