// What heat does: how far parts open or close against each other, the colours bright steel runs
// through, and what may stand in the way of a flame. SI units; constant data and plain functions.
//
// Sources: colours: I. R. Butt, The Tinman's Manual and Builder's and Mechanic's Handbook, table of
// tempering
// (read); dry ice and liquid nitrogen boil at -78 and -196 °C (tables of physics).
#pragma once

#include "fit/words.h"

namespace fettle::fit {

// Temperature the outer part needs so that the fit opens by `needed` on the diameter, when the
// inner part lies at `inner` and both were at `room`.
inline double outer_temperature(double needed, double diameter, double outer_expansion,
                                double inner_expansion, double room, double inner) {
    return room + (needed / diameter + inner_expansion * (inner - room)) / outer_expansion;
}

// Diametral opening when the outer part is warmed by `rise` and the inner by `share` of it.
inline double opening(double rise, double share, double diameter, double outer_expansion,
                      double inner_expansion) {
    return diameter * rise * (outer_expansion - share * inner_expansion);
}

struct TemperColour {
    double from; // °F, bright carbon steel, held for minutes
    const char* name;
};
inline constexpr std::array<TemperColour, 10> kTemperColours = {{{430, "very pale straw"},
                                                                 {450, "straw"},
                                                                 {470, "darker straw"},
                                                                 {490, "yellow"},
                                                                 {500, "brown yellow"},
                                                                 {520, "slightly tinged purple"},
                                                                 {530, "purple"},
                                                                 {550, "dark purple"},
                                                                 {570, "blue"},
                                                                 {600, "dark blue"}}};

// The colour last passed on the way up; "no colour yet" below the first.
inline const char* temper_colour(double kelvin) {
    const double fahrenheit = (kelvin - kFreezing) * 1.8 + 32;
    const char* name = "no colour yet";
    for (const TemperColour& colour : kTemperColours) {
        if (fahrenheit >= colour.from - 1e-6) name = colour.name;
    }
    return fahrenheit > 650 ? "past the colours: grey, then a red seen in the dark" : name;
}

struct Cooling {
    const char* name;
    double temperature; // K; 0: not cooled, -1: as typed
};
inline constexpr std::array<Cooling, 5> kCoolings = {{{"not cooled", 0},
                                                      {"freezer", kFreezing - 18},
                                                      {"dry ice", kFreezing - 78},
                                                      {"liquid nitrogen", kFreezing - 196},
                                                      {"as typed", -1}}};
inline constexpr auto kCoolingNames = named(kCoolings);

} // namespace fettle::fit
