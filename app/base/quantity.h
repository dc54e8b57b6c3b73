// Quantities as workshop people type them, and as they read them back.
//
// `5/16`, `1 3/4 in`, `12 thou`, `18 lbf.ft`, `25 N·m`, `10 °C`: our own parser reads the number
// and looks the unit up in a closed list of spellings for the kind of quantity at hand; UDUNITS-2
// does the conversion only. What UDUNITS would read silently wrong (lb-ft as mass times length, oz
// as a volume, F as farad, 1 1/2 as 0.5) never reaches it. What could mean two things is asked
// back.
//
// Kinds by name (the plugin contract uses the same): number, count, ratio, length, area, volume,
// angle, mass, force, torque, pressure, spring_rate, temperature, temperature_difference, time,
// frequency, speed, density, expansion. Their SI units stand in plugins/sdk/fettle_plugin.h.
// Any thread.
#pragma once

#include "base/result.h"

#include <string>
#include <string_view>
#include <vector>

namespace fettle {

struct Measured {
    double si = 0;    // in the SI unit of its kind
    std::string unit; // canonical spelling of the unit it was typed in: "in", "lbf.ft", "°C"
    // Half the worth of the last decimal typed, in SI: 0.31 in says that it lies within 0.005 in.
    // Whole numbers and fractions are taken as they are: 0.
    double half_step = 0;
};

bool is_quantity_kind(std::string_view kind);

// A number alone: 3, -0.25, 1e3, 1,5 (decimal comma), 5/16, 1 3/4, 1-3/4, 1¾, ½. Thousands marks
// that could be a decimal comma (1,234) are refused with both readings named.
Result<double> parse_number(std::string_view text);

// A number with a unit of this kind, or a bare number taken in `bare_unit`. Feet and inches may be
// mixed (3' 4 1/2", given back in inches), and so may 12° 30′, 8 lb 4 oz and 1 h 20 min (in
// degrees, pounds, hours). Temperatures carry their offset, temperature differences do not. A count
// is a whole number. Precondition: is_quantity_kind(kind), and bare_unit is a spelling of that kind
// ("" for kinds that may stand without: number, count, ratio).
Result<Measured> parse_quantity(std::string_view text, std::string_view kind,
                                std::string_view bare_unit);

// Conversions to and from any spelling of the kind. Fail with invalid for a foreign unit.
Result<double> to_unit(double si, std::string_view kind, std::string_view unit);
Result<double> from_unit(double value, std::string_view kind, std::string_view unit);

// How the unit is written on screen: "lbf.ft" -> "lbf·ft", "N.m" -> "N·m", "in" -> "in".
std::string unit_label(std::string_view kind, std::string_view unit);

// "18.0 lbf·ft" with so many significant digits, without exponent from 0.0001 up to 10 million;
// never -0. Counts are shown whole.
// Precondition as for to_unit; an unknown unit is shown in SI.
std::string format_quantity(double si, std::string_view kind, std::string_view unit, int digits);

// The number alone, as above without the unit.
std::string format_number(double value, int digits);

// The accepted spellings of a kind: one label for each unit, the usual ones first, then the others;
// for help texts.
std::vector<std::string> unit_spellings(std::string_view kind);

} // namespace fettle
