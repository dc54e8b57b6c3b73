// Readings of one round feature at several places: size, ovality, taper, uncertainty, and what is
// proven about a limit. Plain functions over plain values, SI units; no contract in sight.
//
// Sources: uncertainty by root of squares with k = 2, JCGM 100 (GUM); what is proven against a
// limit, ISO 14253-1; limits of error of instruments ISO 3611 and ISO 13385-1, from memory, and for
// transfer gauges common practice.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace fettle::fit {

struct Reading {
    double station;                  // number along the axis
    double size;                     // m
    std::optional<double> direction; // rad; nothing where it was not noted
};

struct Measured {
    std::vector<Reading> places; // readings repeated at one place put together to their mean
    double mean;
    double least;
    double greatest;
    std::optional<double> ovality; // greatest difference of directions at one station
    std::optional<double> taper;   // greatest difference of the means of stations
    std::optional<double> repeat;  // standard deviation of readings repeated at a place
};

Measured measured(const std::vector<Reading>& readings); // precondition: not empty

struct Instrument {
    const char* name;
    double error; // m: limit of error
    double step;  // m: smallest step that is read; 0 for "as typed"
};
inline constexpr std::array<Instrument, 7> kInstruments = {
    {{"micrometer, to 0.01 mm or 0.001 in", 5e-6, 10e-6},
     {"micrometer, to 0.001 mm or 0.0001 in", 3e-6, 2e-6},
     {"inside micrometer", 8e-6, 10e-6},
     {"bore gauge set by micrometer", 6e-6, 5e-6},
     {"telescopic gauge and micrometer", 15e-6, 10e-6},
     {"caliper", 30e-6, 20e-6},
     {"as typed", 0, 0}}};

// Expanded uncertainty (k = 2) of one size: limits of error taken as even spreads.
struct UncertaintyParts {
    double error;
    double step;
    double apart;  // m: growth for the degrees that part and instrument may differ
    double repeat; // m: standard deviation
};
double expanded(const UncertaintyParts& parts);

enum class Standing { inside, doubtful, outside };

// `margin` is how far the value lies within its limit; negative beyond it.
Standing standing(double margin, double uncertainty);

} // namespace fettle::fit
