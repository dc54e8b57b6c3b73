// How much thread has to be screwed in: shear areas of mating threads and the length at which the
// bolt breaks before a thread strips. SI units, pure functions.
//
// FED-STD-H28/2 appendix B and ASME B1.1 appendix B, written there for 60° and here for any flank
// angle a (0.57735 is tan 30°). Crests and roots that are rounded are not counted, on the safe
// side.
#pragma once

#include "screw_threads/limits.h"

#include <array>
#include <optional>
#include <string_view>

namespace fettle::screw {

// Of the bolt's thread, cut off at the nut's minor diameter, m²:
// pi n Le Kn max [1/(2n) + tan a (Es min - Kn max)].
double bolt_strip_area(const Thread& thread, const ThreadLimits& limits, double length);

// Of the nut's thread, cut off at the bolt's major diameter, m²:
// pi n Le Ds min [1/(2n) + tan a (Ds min - En max)].
double nut_strip_area(const Thread& thread, const ThreadLimits& limits, double length);

struct Engagement {
    double by_bolt; // m, Le: the bolt's thread has twice the stress area in shear
    double ratio;   // J: shear area times tensile strength, bolt over part, at one length
    double needed;  // m, Le, or J Le when the part is the weaker
};

// Precondition: both strengths above 0.
Engagement needed_engagement(const Thread& thread, const ThreadLimits& limits, double bolt_tensile,
                             double part_tensile);

// The pull at which the weaker of both threads strips, N; strength in shear is half the tensile
// strength, as the factor 2 of H28 and BS 3580 take it.
double strip_load(const Thread& thread, const ThreadLimits& limits, double length,
                  double bolt_tensile, double part_tensile);

struct PartMaterial {
    const char* name;
    double tensile;  // Pa, least; 0 for a nut as strong as the bolt
    double pressure; // Pa, that a head may press on it
    double modulus;  // Pa
    const char* source;
};

// The weakest usual one of each name, as befits an old casting of unknown make. Strength and
// pressure: tables to VDI 2230 (seen). Modulus: Shigley table 8-8 and A-24.
inline constexpr std::array<PartMaterial, 4> kPartMaterials = {
    {{"full nut of its grade", 0, 490e6, 207e9, "nut as strong as its bolt, ISO 898-2 or SAE J995"},
     {"steel", 340e6, 490e6, 207e9, "S235: 340 MPa, pressure 490 MPa (VDI 2230)"},
     {"cast iron", 150e6, 600e6, 97e9, "grey iron GG 15: 150 MPa, pressure 600 MPa (VDI 2230)"},
     {"aluminium", 180e6, 220e6, 71e9, "cast AlSi9Cu3: 180 MPa, pressure 220 MPa (VDI 2230)"}}};

// Seen through a smaller list: what a head can bear on.
inline constexpr std::array<const char*, 3> kBearsOn = {"steel", "cast iron", "aluminium"};

std::optional<PartMaterial> part_material(std::string_view name);

} // namespace fettle::screw
