// The sheet fit.press in words: checks what was typed, works pressure, force, stress and grip out
// at the least and the greatest interference. SI units; knows notes and refusals, but no host.
#pragma once

#include "fit/materials.h"

namespace fettle::fit {

struct PressTyped {
    std::optional<double> diameter;
    std::optional<double> hub_od;
    std::optional<double> shaft_bore; // blank: solid
    std::optional<double> length;
    std::optional<double> interference_min; // blank: the greatest alone
    std::optional<double> interference_max;
    MaterialTyped hub;
    MaterialTyped shaft;
    std::optional<double> friction; // blank: 0.12
    std::optional<double> hub_rz;   // blank: no loss by smoothing
    std::optional<double> shaft_rz;
    std::optional<double> warmer; // K above 20 °C in service; blank: 0
};

struct PressAnswer {
    double pressure_min; // never below 0
    double pressure_max;
    double push_force; // at the greatest interference
    double slip_force; // at the least
    double slip_torque;
    double hub_stress; // tension at the bore
    double hub_share;  // of its strength
    double shaft_stress;
    double shaft_share;
    double interference_allowed;    // that brings the weaker part to its strength
    double hub_growth;              // outside diameter
    std::optional<double> close_in; // hollow shafts
    std::optional<double> bore_after;
    Account account;
    Picture picture;
};

Outcome<PressAnswer> work_press(const PressTyped& typed);

} // namespace fettle::fit
