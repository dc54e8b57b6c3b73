// The sheet fit.shrink in words: how hot the hub, how cold the shaft, so that they slip together
// with some clearance. SI units; knows notes and refusals of the contract, but no host.
#pragma once

#include "fit/materials.h"

namespace fettle::fit {

struct ShrinkTyped {
    std::optional<double> diameter;
    std::optional<double> interference;
    std::optional<double> clearance; // blank: a thousandth of the diameter
    std::optional<double> room;
    MaterialTyped hub;
    MaterialTyped shaft;
    std::string cooling;                     // blank: not cooled
    std::optional<double> shaft_temperature; // with cooling "as typed"
    std::optional<double> heat_limit;        // blank: the material's
};

struct ShrinkAnswer {
    double opening;         // interference and clearance together
    double hub_temperature; // never below the room's
    double hub_rise;
    double shaft_temperature;
    double shaft_shrinks;
    double gap;        // clearance as they meet
    double heat_limit; // what the hub bears
    std::string method;
    Account account;
    Picture picture;
};

Outcome<ShrinkAnswer> work_shrink(const ShrinkTyped& typed);

} // namespace fettle::fit
