// Ranks the standard threads by how badly they fit what was measured on a worn one. SI units, pure
// functions.
//
// Each reading has a way it may honestly be off; the misfit of a reading counts how many times that
// it is off, and the misfit of a thread is the root of the sum of squares of the three. The outside
// of a bolt only wears away, so it may lie below its nominal by tolerance and wear but above it
// only by the doubt of the reading; with a hole it is the other way round.
#pragma once

#include "thread/catalogue.h"

#include <optional>
#include <string>
#include <vector>

namespace fettle::thread {

struct Readings {
    bool hole = false;
    double diameter = 0;         // m, outside of a bolt or bore of a tapped hole
    double pitch = 0;            // m
    std::optional<double> angle; // rad, between the flanks
    double wear = 0;             // m, on diameter
    double diameter_doubt = 0;   // m, either way
    double pitch_doubt = 0;      // share, either way
    std::string met;             // Known::met looked for first; "" for none
};

struct Match {
    Known known;
    double basic;        // m, what the diameter would be on an unworn thread of basic size
    double diameter_off; // m, measured less basic
    double pitch_off;    // share, measured less nominal
    double angle_off;    // rad, 0 when not measured
    double room;         // m, how far the diameter may honestly be off on the side where it is
    double by_diameter;  // misfit of each reading
    double by_pitch;
    double by_angle;
    double misfit;
};

// At the edge of what wear and gauges explain a single reading has misfit 1.
inline constexpr double kFits = 1.5;       // up to here a thread fits
inline constexpr double kTie = 0.1;        // misfits nearer than this are one
inline constexpr double kPossible = 2.5;   // up to here it may be a poor reading
inline constexpr double kAngleDoubt = 2.5; // degrees between the flanks, by gauge and eye

// All of the catalogue, least misfit first, and of equal ones the commoner series. When something
// fits, the first one met where the user looks comes to the front if it is as good but for a tie's
// breadth: tolerances differ a little between standards. Preconditions: diameter, pitch and doubts
// above 0.
std::vector<Match> rank(const Readings& readings);

} // namespace fettle::thread
