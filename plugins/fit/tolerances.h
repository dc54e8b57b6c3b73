// The ISO code system for limits of size: tolerance classes such as H7 and p6, up to 500 mm.
// Standard tolerances IT4 to IT13 and fundamental deviations a to zc are the printed tables of ISO
// 286-1, not its formulae: those miss the standard's own rounding at small sizes. Lengths in
// metres. No state, any thread.
//
// Sources: ISO 286-1 and ISO 286-2; read in reprints: Narayana, Kannaiah and Reddy, Machine
// Drawing, tables 15.2 and 15.3 (shafts a to k above 180 mm, m to zc up to 180 mm; holes A to N
// above 120 mm, P to ZC above 180 mm, with their deltas) and a maker's table of h4 to h9. From
// memory: IT10 to IT13, d to h and k up to 180 mm and a and b up to 120 mm, all held to the
// formulae of the standard by test; c and j up to 120 mm, which have none that fits. js is exactly
// half of IT either way; the standard lets odd values be rounded down.
#pragma once

#include "describe.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace fettle::fit {

inline constexpr double kGreatestIsoSize = 0.5; // m

struct Zone { // deviations from the nominal size
    double lower;
    double upper;
};

struct ToleranceClass {
    bool hole;          // capitals
    std::string letter; // in small letters: "h", "js", "zc"
    int grade;          // 7 for IT7
};

// "H7" or "p6". Refuses what is none, naming `field` and what is accepted there.
plugin::Outcome<ToleranceClass> read_class(std::string_view typed, const char* field, bool hole);

// IT of a grade from 4 to 13; nothing beyond the table or for a size outside (0, 500 mm].
std::optional<double> standard_tolerance(int grade, double size);

// The fundamental deviation of a shaft: upper for a to h, lower for j to zc. Nothing where the
// standard gives none (t up to 24 mm, v up to 14 mm, y up to 18 mm, j beyond IT7). Not for js.
std::optional<double> shaft_deviation(std::string_view letter, int grade, double size);

// What is added to the fundamental deviation of holes K, M, N up to IT8 and P to ZC up to IT7: the
// difference between the grade and the next finer one (ISO 286-1, delta); 0 up to 3 mm.
double delta(int grade, double size);

// Both limits of the class at that size; nothing where the standard gives none.
std::optional<Zone> zone(const ToleranceClass& wanted, double size);

} // namespace fettle::fit
