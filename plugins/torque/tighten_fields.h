// The fields of torque.tighten: what the form asks, and the order compute gets it in. Included by
// tighten_form.cpp alone.
#pragma once

#include "describe.hpp"
#include "screw_threads/engagement.h"
#include "screw_threads/grades.h"
#include "screw_threads/words.h"
#include "torque/forms.h"
#include "torque/places.h"
#include "torque/seats.h"
#include "torque/surfaces.h"
#include "torque/threads.h"
#include "torque/tighten_sheet.h"

#include <numbers>

namespace fettle::torque::tighten {

using plugin::choice_input;
using plugin::input;
using plugin::pointers;

inline constexpr auto kSurfaceNames = named(kSurfaces);
inline constexpr auto kIntoNames = named(kPartMaterials);
inline constexpr std::array<const char*, 2> kBases = {kByProof, kByYield};
inline constexpr std::array<const char*, 3> kScatters = {kByShare, kByFactor, kByReadings};
inline constexpr std::array<const char*, 2> kLoads = {kNoLoad, kPull};
inline constexpr auto kPlaceNames = named(kPlaces);

enum Input : std::size_t {
    kThread,
    kGrade,
    kProofStress,
    kTensileStrength,
    kYieldStress,
    kSurface,
    kMuThread,
    kMuHead,
    kPrevailing,
    kBasis,
    kUse,
    kScatterBy,
    kScatter,
    kTighteningFactor,
    kReadings,
    kHead,
    kBearingOd,
    kHole,
    kBearsOnWhat,
    kInto,
    kIntoStrength,
    kEngagementHave,
    kGrip,
    kLoad,
    kExternalLoad,
    kShank,
    kBoltStiffness,
    kJointStiffness,
    kAdapter,
    kAdapterAngle,
    kWrench,
    kPlace
};

inline constexpr fettle_input kInputs[] = {
    input(FETTLE_TEXT,
          {.id = "thread",
           .label = "Thread",
           .help = "Size and pitch as it is called: 5/16-24 UNF, 3/8-20 BSF, 1/2-12 BSW, 1 1/8-8 "
                   "UN, 1/4-26 BSC, 2BA, M10x1.5. M8 alone is the coarse pitch. Measure the pitch, "
                   "do not guess it.",
           .preset = "5/16-24 UNF",
           .required = true}),
    choice_input({.id = "grade",
                  .label = "Grade",
                  .help = "By the marks on the head: SAE J429 radial lines (5: three, 8: six), ISO "
                          "898-1 figures, A574 for inch socket screws, a British letter R to X. No "
                          "mark: SAE 1 or ISO 4.6.",
                  .preset = "SAE 5",
                  .required = true},
                 kGradeNames),
    input(FETTLE_NUMBER, {.id = "proof_stress",
                          .label = "Proof stress",
                          .help = "Of the bolt's steel, from its maker's paper or a test; 0.85 of "
                                  "the yield where only that is known.",
                          .quantity = "pressure",
                          .unit = "MPa",
                          .least = 50e6,
                          .greatest = 2000e6,
                          .when = "grade=strength typed"}),
    input(FETTLE_NUMBER, {.id = "tensile_strength",
                          .label = "Tensile strength",
                          .help = "Least tensile strength of the bolt's steel. From a hardness "
                                  "reading take the low end of the conversion table.",
                          .quantity = "pressure",
                          .unit = "MPa",
                          .least = 50e6,
                          .greatest = 2500e6,
                          .when = "grade=strength typed"}),
    input(FETTLE_NUMBER,
          {.id = "yield_stress",
           .label = "Yield",
           .help = "Yield or 0.2 % proof stress of the bolt's steel. Blank takes the "
                   "proof stress, on the safe side.",
           .quantity = "pressure",
           .unit = "MPa",
           .least = 50e6,
           .greatest = 2000e6,
           .when = "grade=strength typed"}),
    choice_input({.id = "surface",
                  .label = "Surface",
                  .help =
                      "The state of thread and head as they go together. Friction is the middle "
                      "of its range, unless it is typed below.",
                  .preset = "oiled"},
                 kSurfaceNames),
    input(FETTLE_NUMBER, {.id = "mu_thread",
                          .label = "Friction in the thread",
                          .help = "Coefficient, if you know it better than the surface tells.",
                          .quantity = "number",
                          .least = 0.01,
                          .greatest = 1}),
    input(FETTLE_NUMBER, {.id = "mu_head",
                          .label = "Friction under the head",
                          .help = "Coefficient under whatever is turned, head or nut.",
                          .quantity = "number",
                          .least = 0.01,
                          .greatest = 1}),
    input(FETTLE_NUMBER, {.id = "prevailing",
                          .label = "Prevailing torque",
                          .help = "What a locking nut takes to run down before it seats: read it "
                                  "off a dial wrench on the free thread. Blank for a plain nut.",
                          .quantity = "torque",
                          .unit = "N.m",
                          .least = 0,
                          .greatest = 500}),
    choice_input({.id = "basis",
                  .label = "Share of what",
                  .help = "proof: a share of the proof load. yield: a share of the yield, with the "
                          "torsion of tightening counted (VDI 2230).",
                  .preset = kByProof},
                 kBases),
    input(FETTLE_NUMBER, {.id = "use",
                          .label = "Share used",
                          .help = "0.75 or 75 %. Blank takes 0.75 of proof or 0.9 of yield.",
                          .quantity = "ratio",
                          .unit = "1",
                          .least = 0.05,
                          .greatest = 1.5}),
    choice_input({.id = "scatter_by",
                  .label = "Scatter by",
                  .help =
                      "share either way: of the wrench. tightening factor: alpha_A of VDI 2230, "
                      "greatest over least. own readings: preloads you measured.",
                  .preset = kByShare},
                 kScatters),
    input(FETTLE_NUMBER, {.id = "scatter",
                          .label = "Scatter of the preload",
                          .help = "Either way: 25 % for a torque wrench, 35 % by feel (Machinery's "
                                  "Handbook). Blank takes 25 %.",
                          .quantity = "ratio",
                          .unit = "1",
                          .preset = "25 %",
                          .least = 0,
                          .greatest = 0.9,
                          .when = "scatter_by=share either way"}),
    input(FETTLE_NUMBER,
          {.id = "tightening_factor",
           .label = "Tightening factor",
           .help = "1.6 to 2 for a good torque wrench with friction estimated, 2.5 to "
                   "4 by impact, 1.2 to yield (VDI 2230). Blank takes 1.8.",
           .quantity = "number",
           .least = 1,
           .greatest = 10,
           .when = "scatter_by=tightening factor"}),
    input(FETTLE_LIST, {.id = "readings",
                        .label = "Preloads measured",
                        .help = "Of at least three bolts tightened alike, by stretch or load cell. "
                                "Least and greatest are two standard deviations off.",
                        .quantity = "force",
                        .unit = "kN",
                        .least = 1,
                        .greatest = 1e7,
                        .when = "scatter_by=own readings"}),
    choice_input({.id = "head",
                  .label = "Head",
                  .help = "hexagon or socket cap. Blank: socket for A574, else a hexagon.",
                  .preset = ""},
                 kHeadNames),
    input(FETTLE_NUMBER,
          {.id = "bearing_od",
           .label = "Bearing diameter",
           .help = "Outside of the ring that rubs under head or nut. Blank takes the "
                   "usual head of the size.",
           .quantity = "length",
           .unit = "in",
           .least = 0.001,
           .greatest = 0.3}),
    input(FETTLE_NUMBER, {.id = "hole",
                          .label = "Hole under the head",
                          .help = "Inside of that ring: clearance hole or washer bore. Blank takes "
                                  "the usual hole of the size.",
                          .quantity = "length",
                          .unit = "in",
                          .least = 0.001,
                          .greatest = 0.3}),
    choice_input({.id = "bears_on",
                  .label = "Head bears on",
                  .help = "What lies under head or nut and is clamped: for the pressure on it, and "
                          "for its stiffness under an outer load.",
                  .preset = "steel"},
                 kBearsOn),
    choice_input({.id = "into",
                  .label = "Screwed into",
                  .help = "A full nut of the bolt's grade, or a tapped hole in steel, iron or "
                          "aluminium of the weakest usual sort.",
                  .preset = kPartMaterials[0].name},
                 kIntoNames),
    input(FETTLE_NUMBER, {.id = "into_strength",
                          .label = "Its tensile strength",
                          .help = "Of the nut or the tapped part, if you know it. Blank takes the "
                                  "weakest usual one.",
                          .quantity = "pressure",
                          .unit = "MPa",
                          .least = 20e6,
                          .greatest = 2500e6}),
    input(FETTLE_NUMBER,
          {.id = "engagement_have",
           .label = "Thread engaged",
           .help = "Length of full thread that is truly screwed in: count turns times "
                   "pitch, leave out chamfers and torn threads.",
           .quantity = "length",
           .unit = "in",
           .least = 1e-4,
           .greatest = 0.5}),
    input(FETTLE_NUMBER, {.id = "grip",
                          .label = "Clamped thickness",
                          .help = "All that is clamped between head and nut, washers too. For the "
                                  "drawing, and needed with an outer load.",
                          .quantity = "length",
                          .unit = "in",
                          .least = 1e-4,
                          .greatest = 2}),
    choice_input({.id = "load",
                  .label = "Outer load",
                  .help = "Whether something pulls the clamped parts apart along the bolt once it "
                          "is tight.",
                  .preset = kNoLoad},
                 kLoads),
    input(FETTLE_NUMBER, {.id = "external_load",
                          .label = "Pull on one bolt",
                          .help = "The greatest outer pull along one bolt, shared out among all.",
                          .quantity = "force",
                          .unit = "lbf",
                          .least = 0,
                          .greatest = 1e7,
                          .when = "load=pull along the bolt"}),
    input(FETTLE_NUMBER, {.id = "shank",
                          .label = "Plain shank clamped",
                          .help = "How much of the clamped thickness is unthreaded shank. Blank "
                                  "takes a bolt threaded to the head.",
                          .quantity = "length",
                          .unit = "in",
                          .least = 0,
                          .greatest = 2,
                          .when = "load=pull along the bolt"}),
    input(FETTLE_NUMBER, {.id = "bolt_stiffness",
                          .label = "Stiffness of the bolt",
                          .help = "Pull over stretch, if you know it. Blank reckons it from grip "
                                  "and shank.",
                          .quantity = "spring_rate",
                          .unit = "N/mm",
                          .least = 1e3,
                          .greatest = 1e12,
                          .when = "load=pull along the bolt"}),
    input(FETTLE_NUMBER, {.id = "joint_stiffness",
                          .label = "Stiffness of the parts",
                          .help = "Squeeze over shortening, if you know it. Blank reckons a cone "
                                  "under the head; a gasket is far softer, then type it.",
                          .quantity = "spring_rate",
                          .unit = "N/mm",
                          .least = 1e3,
                          .greatest = 1e12,
                          .when = "load=pull along the bolt"}),
    input(FETTLE_NUMBER,
          {.id = "adapter",
           .label = "Adapter length",
           .help = "Drive square to bolt centre of a crowfoot or extension bar across the wrench. "
                   "Blank for none.",
           .quantity = "length",
           .unit = "in",
           .least = 0,
           .greatest = 2}),
    input(FETTLE_NUMBER,
          {.id = "adapter_angle",
           .label = "Angle of the adapter",
           .help = "0 in line and lengthening the wrench, 90 square to it (no change), 180 folded "
                   "back. Blank takes 0.",
           .quantity = "angle",
           .unit = "°",
           .least = 0,
           .greatest = std::numbers::pi}),
    input(FETTLE_NUMBER, {.id = "wrench",
                          .label = "Wrench length",
                          .help = "Drive square to the middle of the hand. Needed with an adapter.",
                          .quantity = "length",
                          .unit = "in",
                          .least = 0.01,
                          .greatest = 5}),
    choice_input({.id = "place",
                  .label = "Where it sits",
                  .help = "Some places have their own rules; the caution for them comes with the "
                          "result.",
                  .preset = "elsewhere"},
                 kPlaceNames)};
inline constexpr auto kInputList = pointers(kInputs);

} // namespace fettle::torque::tighten
