// Strength grades of bolts: proof stress, tensile strength and yield, each for its range of sizes.
// SI units. Published minimum values as printed, converted from psi where the standard is in psi.
#pragma once

#include "describe.hpp"
#include "torque/threads.h"

#include <array>
#include <string_view>

namespace fettle::torque {

struct Grade {
    const char* name;     // as typed: "SAE 5"
    const char* standard; // "SAE J429"
    Form form;            // the threads the standard speaks of
    double from;          // m, smallest diameter of this row
    double up_to;         // m, greatest
    double proof;         // Pa
    double tensile;       // Pa
    double yield;         // Pa, or the 0.2 % proof stress of ISO 898-1
};

inline constexpr std::array<const char*, 10> kGradeNames = {
    "SAE 1",   "SAE 2",   "SAE 5",    "SAE 8",    "ISO 4.6",
    "ISO 5.8", "ISO 8.8", "ISO 10.9", "ISO 12.9", "ASTM A574"};

// Refuses (field "grade") a name that is not listed and a size outside the grade's range.
plugin::Outcome<Grade> grade_for(std::string_view name, const Thread& thread);

} // namespace fettle::torque
