// The sheets of the plugin "shim", each described in a file of its own, and the inputs that several
// of them ask alike. Part of the adapter: the calculations know nothing of it.
#pragma once

#include "describe.hpp"
#include "shim/mesh.h"

namespace fettle::shim {

extern const fettle_sheet kStackSheet;
extern const fettle_sheet kBacklashSheet;
extern const fettle_sheet kPinionSheet;
extern const fettle_sheet kCarrierSheet;
extern const fettle_sheet kDragSheet;
extern const fettle_sheet kEndfloatSheet;
extern const fettle_sheet kTrialSheet;

// Where and how backlash is read, and what the gears are: the inputs behind a FactorTyped.
// `continues` is "same" on a sheet that is kept trial after trial.
struct FactorInputs {
    fettle_input read_how, pressure, pitch, ring_teeth, pinion_teeth, spiral, read_radius,
        pitch_radius, maker_figure, maker_says;
};

using plugin::choice_input;
using plugin::input;

constexpr fettle_input teeth_input(const char* id, const char* label, const char* continues) {
    return input(FETTLE_NUMBER,
                 {.id = id,
                  .label = label,
                  .help = "Count them, marking the first with chalk. Blank where the "
                          "pitch angle is typed.",
                  .quantity = "count",
                  .unit = "",
                  .preset = "",
                  .least = 3,
                  .greatest = 200,
                  .continues = continues});
}

constexpr fettle_input read_how_input(const char* continues) {
    return choice_input({.id = "read_how",
                         .label = "Where backlash is read",
                         .help =
                             "Where the stem of the dial gauge stands on the ring gear; it changes "
                             "what a shim does to the reading. With the maker's own figure, read "
                             "as he says.",
                         .preset = "square to the tooth",
                         .continues = continues},
                        kReadHow);
}

constexpr fettle_input pressure_input(const char* continues) {
    return input(FETTLE_NUMBER,
                 {.id = "pressure_angle",
                  .label = "Pressure angle",
                  .help = "Normal pressure angle of the teeth: 20° unless the maker "
                          "states another. Hypoid sets: the mean of both sides.",
                  .quantity = "angle",
                  .unit = "°",
                  .preset = "20",
                  .least = kDegree,
                  .greatest = 45 * kDegree,
                  .when = "read_how=square to the tooth|along the circumference|at another radius",
                  .continues = continues});
}

constexpr fettle_input pitch_input(const char* continues) {
    return input(FETTLE_NUMBER,
                 {.id = "pitch_angle",
                  .label = "Pitch angle of the ring gear",
                  .help = "Blank where the teeth are counted: they give it. Blank for "
                          "both takes 75°, usual for road vehicles.",
                  .quantity = "angle",
                  .unit = "°",
                  .preset = "",
                  .least = kDegree,
                  .greatest = 89 * kDegree,
                  .continues = continues});
}

constexpr fettle_input spiral_input(const char* continues) {
    return input(FETTLE_NUMBER,
                 {.id = "spiral_angle",
                  .label = "Spiral angle of the ring gear",
                  .help = "Between the tooth and a line to the centre, half way along "
                          "the tooth. Blank for straight teeth.",
                  .quantity = "angle",
                  .unit = "°",
                  .preset = "35",
                  .least = 0,
                  .greatest = 60 * kDegree,
                  .when = "read_how=along the circumference|at another radius",
                  .continues = continues});
}

constexpr fettle_input read_radius_input(const char* continues) {
    return input(FETTLE_NUMBER,
                 {.id = "read_radius",
                  .label = "Radius where it is read",
                  .help = "From the middle of the ring gear to the stem of the gauge.",
                  .quantity = "length",
                  .unit = "in",
                  .preset = "4.5",
                  .least = 0.005,
                  .greatest = 1,
                  .when = "read_how=at another radius",
                  .continues = continues});
}

constexpr fettle_input pitch_radius_input(const char* continues) {
    return input(FETTLE_NUMBER, {.id = "pitch_radius",
                                 .label = "Pitch radius of the ring gear",
                                 .help = "Where the pitch diameter is not known: half the outside "
                                         "diameter of the ring gear, less about one tooth's depth.",
                                 .quantity = "length",
                                 .unit = "in",
                                 .preset = "5.25",
                                 .least = 0.005,
                                 .greatest = 1,
                                 .when = "read_how=at another radius",
                                 .continues = continues});
}

constexpr fettle_input maker_figure_input(const char* continues) {
    return input(FETTLE_NUMBER,
                 {.id = "maker_figure",
                  .label = "Maker's figure",
                  .help = "As printed in the maker's manual, such as 1.4, 0.7 or 0.53; "
                          "say beside it which way round it is meant.",
                  .quantity = "number",
                  .unit = "",
                  .preset = "1.4",
                  .least = 0.01,
                  .greatest = 100,
                  .when = "read_how=as the maker states",
                  .continues = continues});
}

constexpr fettle_input maker_says_input(const char* continues) {
    return choice_input({.id = "maker_says",
                         .label = "The maker means",
                         .help =
                             "Whether his figure makes a shim out of backlash or backlash out of a "
                             "shim: 1.4 is the first, 0.7 the second, and they are the same.",
                         .preset = "shim = figure x backlash",
                         .when = "read_how=as the maker states",
                         .continues = continues},
                        kMakerSays);
}

constexpr FactorInputs factor_inputs(const char* continues) {
    return {read_how_input(continues),
            pressure_input(continues),
            pitch_input(continues),
            teeth_input("ring_teeth", "Teeth of the ring gear", continues),
            teeth_input("pinion_teeth", "Teeth of the pinion", continues),
            spiral_input(continues),
            read_radius_input(continues),
            pitch_radius_input(continues),
            maker_figure_input(continues),
            maker_says_input(continues)};
}

// The values of the inputs from factor_inputs, in its order.
inline FactorTyped factor_typed(const fettle_value* const* values) {
    return {plugin::text(values[0]),   plugin::number(values[1]), plugin::number(values[2]),
            plugin::number(values[3]), plugin::number(values[4]), plugin::number(values[5]),
            plugin::number(values[6]), plugin::number(values[7]), plugin::number(values[8]),
            plugin::text(values[9])};
}

inline constexpr const char* kMeshSource =
    "2 tan(pressure angle) sin(pitch angle): derived from the geometry of bevel gears";

} // namespace fettle::shim
