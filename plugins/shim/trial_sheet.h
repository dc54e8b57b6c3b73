// The sheet shim.trial in words: one trial of a differential being set up, judged beside the
// earlier ones; the next step, or which readings contradict each other and why there is none.
#pragma once

#include "shim/trial_step.h"

namespace fettle::shim {

struct TrialTyped {
    std::optional<double> pinion, left, right;
    std::vector<double> backlash; // m, as read at four or more teeth
    std::optional<double> runout, torque;
    std::string drive_along, drive_height, coast_along, coast_height;
    std::vector<double> wanted; // backlash: one figure, or lowest and highest
    std::optional<double> variation, runout_most;
    std::vector<double> torque_wanted; // N.m, lowest and highest, or none
    std::optional<double> first_step;
    std::string pinion_acts, ring_side;
    FactorTyped factor;
    std::vector<double> earlier; // cells, row by row
};

struct TrialAnswer {
    std::vector<Trial> trials; // the last is this one
    Aims aims;
    bool doubted = false;
    std::optional<Step> step; // none where readings contradict each other
    std::string next, verdict;
    plugin::Account account;
};

plugin::Outcome<TrialAnswer> work_trial(const TrialTyped& typed);

} // namespace fettle::shim
