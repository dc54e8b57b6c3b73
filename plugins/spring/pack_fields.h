// What spring.pack asks for. Within this plugin only.
#pragma once

#include "describe.hpp"

namespace fettle::spring::pack_fields {

using namespace fettle::plugin;

inline constexpr double kGPa = 1e9;
inline constexpr double kDefaultModulus = 207 * kGPa; // spring steel: Bhandari ch. 10

inline constexpr fettle_column kLeafTyped[] = {
    column("length", "Length", "length", "in", true, 4),
    column("thickness", "Thickness", "length", "in", true, 3),
    column("radius", "Free radius", "length", "in", false, 3),
    column("rise", "or free rise", "length", "in", false, 3),
    column("narrowed", "Ends narrow over", "length", "in", false, 3)};
inline constexpr auto kLeafTypedList = pointers(kLeafTyped);

inline constexpr std::array<const char*, 2> kClampTaken = {"whole", "two thirds"};
inline constexpr std::array<const char*, 2> kCounting = {"master is full length",
                                                         "master is graduated"};

enum Input : std::size_t {
    kLeaves,
    kWidth,
    kTipWidth,
    kClamp,
    kClampTakenAs,
    kLoad,
    kFreeArch,
    kClips,
    kClipPlay,
    kModulus,
    kFriction,
    kLimit,
    kCountingAs
};

inline constexpr fettle_input kInputs[] = {
    table_input({.id = "leaves",
                 .label = "Leaves, longest first",
                 .help = "One row a leaf: length along the leaf (of the master from eye centre to "
                         "eye centre), thickness with rust and scale off; if you have them, the "
                         "free radius of the hollow face or its rise over the whole length, and "
                         "how far each end narrows. No radius: the leaf fits the one above. A flat "
                         "leaf rises 0.",
                 .preset = "36.25 0.276 45.5; 31.6 0.276 44.5; 26.9 0.276 43.5; 22.3 0.276 42.5; "
                           "17.6 0.276 41.5; 13 0.276 40.5; 8.35 0.276 39.5",
                 .required = true},
                kLeafTypedList),
    input(FETTLE_NUMBER, {.id = "width",
                          .label = "Width of the leaves",
                          .help = "Across the leaf, by calliper.",
                          .quantity = "length",
                          .unit = "in",
                          .preset = "1.75",
                          .least = 0.001,
                          .greatest = 0.5,
                          .required = true}),
    input(FETTLE_NUMBER,
          {.id = "tip_width",
           .label = "Width at narrowed tips",
           .help = "Only where ends narrow: the width left at the very tip, 0 for a point. Blank "
                   "takes half of the width.",
           .quantity = "length",
           .unit = "in",
           .preset = "",
           .least = 0,
           .greatest = 0.5}),
    input(FETTLE_NUMBER,
          {.id = "clamp",
           .label = "Length held by the clamp",
           .help = "What cannot bend at the axle: band width, or U-bolt spacing over "
                   "the outsides.",
           .quantity = "length",
           .unit = "in",
           .preset = "3.5",
           .least = 0,
           .greatest = 2}),
    choice_input({.id = "clamp_taken",
                  .label = "How much of the clamp is inactive",
                  .help =
                      "A rigid band or plate: whole. Some books count two thirds of the spacing "
                      "of U-bolts. Blank takes it whole.",
                  .preset = "whole"},
                 kClampTaken),
    input(FETTLE_NUMBER, {.id = "load",
                          .label = "Load on this spring",
                          .help = "What the middle of the spring carries: the weight on the wheel "
                                  "less wheel, brake and half the axle.",
                          .quantity = "force",
                          .unit = "lbf",
                          .preset = "820",
                          .least = 1,
                          .greatest = 1e6,
                          .required = true}),
    input(FETTLE_NUMBER,
          {.id = "free_arch",
           .label = "Free arch of the pack",
           .help = "Of the whole pack, bolted and clipped, without load (not of the master leaf "
                   "alone): from a line between the eye centres to the top of the master leaf at "
                   "the middle. Blank takes it from the radii.",
           .quantity = "length",
           .unit = "in",
           .preset = "4.1",
           .least = -1,
           .greatest = 2}),
    input(FETTLE_LIST,
          {.id = "clips",
           .label = "Clips",
           .help = "How far each rebound clip sits from the middle of the spring, on one half; "
                   "both halves are taken alike. Each goes round all leaves that reach it.",
           .quantity = "length",
           .unit = "in",
           .preset = "8; 13",
           .least = 0,
           .greatest = 5}),
    input(FETTLE_NUMBER,
          {.id = "clip_play",
           .label = "Play in the clips",
           .help = "By how much the leaves in a clip can stand apart, all gaps together, by feeler "
                   "gauge. Blank or less than 0.1 mm counts as drawn up snug: 0.1 mm.",
           .quantity = "length",
           .unit = "mm",
           .preset = "0.5",
           .least = 0,
           .greatest = 0.1}),
    input(FETTLE_NUMBER, {.id = "modulus",
                          .label = "Modulus of elasticity",
                          .help = "Of the steel; 200 to 210 GPa for any spring steel. Blank takes "
                                  "207 GPa.",
                          .quantity = "pressure",
                          .unit = "GPa",
                          .preset = "207",
                          .least = 10 * kGPa,
                          .greatest = 500 * kGPa}),
    input(FETTLE_NUMBER,
          {.id = "friction",
           .label = "Friction between the leaves",
           .help = "Coefficient of friction: about 0.1 greased or graphited, 0.2 dry and clean, "
                   "0.4 rusty (common practice, no source). Blank or 0 for none.",
           .quantity = "number",
           .preset = "0.15",
           .least = 0,
           .greatest = 0.8}),
    input(FETTLE_NUMBER, {.id = "limit",
                          .label = "Limit for the stress",
                          .help = "The allowable stress, or the yield the spring maker states for "
                                  "the steel. A greater stress is marked: do not use.",
                          .quantity = "pressure",
                          .unit = "MPa",
                          .preset = "",
                          .least = 1e6,
                          .greatest = 3e9}),
    choice_input({.id = "counting",
                  .label = "Textbook counts the master",
                  .help =
                      "Books differ: with the leaves of full length, or with the graduated ones "
                      "so that only extra leaves of full length count as such. Only the "
                      "textbook's figures follow this.",
                  .preset = "master is full length"},
                 kCounting)};
inline constexpr auto kInputList = pointers(kInputs);

} // namespace fettle::spring::pack_fields
