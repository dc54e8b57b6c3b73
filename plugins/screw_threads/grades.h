// Strength grades of bolts: proof stress, tensile strength and yield, each for its range of sizes.
// SI units. Published minimum values as printed, converted where the standard is in psi or
// tonf/in².
#pragma once

#include "describe.hpp"
#include "screw_threads/threads.h"

#include <array>
#include <string>
#include <string_view>

namespace fettle::screw {

struct Grade {
    const char* name;     // as typed: "SAE 5"
    const char* standard; // "SAE J429"
    double from;          // m, smallest diameter of this row
    double up_to;         // m, greatest
    double proof;         // Pa
    double tensile;       // Pa
    double yield;         // Pa, or the 0.2 % proof stress of ISO 898-1
    double stretch;       // least elongation after fracture, share; 0 where none is held
};

inline constexpr const char* kTypedStrength = "strength typed";

inline constexpr std::array<const char*, 23> kGradeNames = {
    "SAE 1",       "SAE 2",       "SAE 4",       "SAE 5",       "SAE 5.2",     "SAE 8",
    "SAE 8.2",     "ISO 4.6",     "ISO 4.8",     "ISO 5.6",     "ISO 5.8",     "ISO 6.8",
    "ISO 8.8",     "ISO 9.8",     "ISO 10.9",    "ISO 12.9",    "ASTM A574",   "BS letter R",
    "BS letter S", "BS letter T", "BS letter V", "BS letter X", kTypedStrength};

// Refuses (field `field`) a name that is not listed and a size outside the grade's range; a typed
// strength is made by typed_grade().
plugin::Outcome<Grade> grade_for(std::string_view name, const Thread& thread,
                                 const char* field = "grade");

// A strength of the user's own; blank yield (0) is taken as the proof stress, on the safe side.
Grade typed_grade(double proof, double tensile, double yield);

std::string grade_words(const Grade& grade); // "SAE 5 of SAE J429"

// Whether the grade's standard speaks of threads of this form.
bool speaks_of(const Grade& grade, Form form);

// Hard enough that hydrogen from electroplating may crack it: above about 39 HRC or 390 HV,
// which ISO 4042 and ASTM F1941 warn of; here a least tensile strength of 1165 MPa.
bool hydrogen_brittle(const Grade& grade);

} // namespace fettle::screw
