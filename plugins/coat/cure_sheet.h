// The sheet coat.cure in words: how long the paint needs in this cold, and what warming the part
// would give. SI units (K, s). Knows refusals and notes of the plugin contract, but no host.
#pragma once

#include "coat/bounds.h"
#include "coat/cure.h"
#include "picture.hpp"

#include <array>
#include <optional>
#include <string>

namespace fettle::coat {

inline constexpr std::array<const char*, 2> kRules = {"halves for each step of temperature",
                                                      "two points of the data sheet"};
inline constexpr std::array<const char*, 4> kPaints = {"oil or alkyd enamel", "two-pack epoxy",
                                                       "two-pack with isocyanate", "other"};

inline constexpr double kUsualHalving = 10; // K, common practice
inline constexpr Bounds kHalvingBounds = {3, 40};

// What the Arrhenius equation is taken for: two points outside it were misread or are not of one
// process. Paints lie near 40 to 90 kJ/mol (common practice, no source).
inline constexpr Bounds kEnergyBounds = {10e3, 250e3}; // J/mol

struct CureTyped {
    std::string paint;                 // one of kPaints, "" for the first
    std::optional<double> temperature; // of the steel where it cures
    std::string rule;                  // one of kRules, "" for the first
    std::optional<double> known_time, known_temperature;
    std::optional<double> halving;
    std::optional<double> second_time, second_temperature;
    std::optional<double> least, greatest;
    std::optional<double> warmed;
    std::optional<double> hours;
    std::optional<double> recoat_least, recoat_most; // at known_temperature
    std::optional<double> since;
};

struct CureAnswer {
    std::string verdict;
    std::optional<double> time_here;   // s; nothing where the paint does not cure
    std::optional<double> time_warmed; // s
    std::optional<double> temperature_needed;
    std::optional<double> recoat_from, recoat_until; // s, after laying on
    std::optional<double> cured;                     // of the cure that is through
    plugin::Account account;
    plugin::Picture picture;
};

plugin::Outcome<CureAnswer> work_cure(const CureTyped& typed);

} // namespace fettle::coat
