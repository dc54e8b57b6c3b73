// What the shim sheets say alike: lengths in inch and metric, lists, ranges, and the checks of
// typed readings. SI units; knows refusals and notes of the plugin contract, but no host.
#pragma once

#include "spoken.hpp"

#include <optional>
#include <string>
#include <vector>

namespace fettle::shim {

inline constexpr double kInch = 0.0254;             // m, by definition
inline constexpr double kThou = kInch / 1000;       // m
inline constexpr double kInchPound = 0.11298482902; // N.m a lbf.in, from the definitions of both

using plugin::degrees; // "75.0°"

std::string both(double metres);        // "0.0120 in (0.305 mm)": what a dial gauge reads
std::string both_fine(double metres);   // "0.01200 in (0.3048 mm)": what a micrometer reads
std::string both_torque(double torque); // "20.0 lbf·in (2.26 N·m)"

double mean(const std::vector<double>& readings);   // precondition: not empty
double spread(const std::vector<double>& readings); // greatest less least

// "0.0060 in (0.152 mm) + 0.0070 in (0.178 mm)"
std::string summed(const std::vector<double>& lengths);

struct Range {
    double low;
    double high;
    double middle() const { return (low + high) / 2; }
    bool holds(double value) const; // to within what rounding in the last place does
};
std::string both(Range range); // "0.0060 to 0.0080 in (0.152 to 0.203 mm)"

// One figure or lowest and highest, as typed into a list. Refuses more, or a highest below a
// lowest.
plugin::Outcome<Range> range_of(const char* field, const std::vector<double>& typed);

// Refuses a length that is missing or out of bounds, naming field and value.
std::optional<plugin::Refusal> unfit_length(const char* field, const std::optional<double>& length,
                                            double least, double greatest);

// Refuses a list with too few readings or one out of bounds.
std::optional<plugin::Refusal> unfit_readings(const char* field,
                                              const std::vector<double>& readings,
                                              std::size_t fewest, double least, double greatest);

} // namespace fettle::shim
