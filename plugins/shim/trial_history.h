// The trials of one differential being set up, and what was asked of it. SI units; pure.
//
// Two positions tell how the gears stand, whatever shim is thicker on which side: `depth` grows as
// the pinion comes nearer the ring gear, `away` as the ring gear goes away from the pinion. Only
// their differences between trials mean anything.
#pragma once

#include "shim/backlash_sheet.h"
#include "shim/pinion_sheet.h"

namespace fettle::shim {

enum class Along { unseen, toe, centre, heel };    // along the tooth of the ring gear
enum class Height { unseen, face, centre, flank }; // face: the tooth's top; flank: its root

inline constexpr std::array<const char*, 4> kAlong = {"not looked at", "toe", "centre", "heel"};
inline constexpr std::array<const char*, 4> kHeights = {"not looked at", "face", "centre", "flank"};

struct Trial {
    double pinion, left, right;   // m, stacks that are in
    double backlash;              // m, mean over the teeth as read
    double variation;             // m, over the teeth
    std::optional<double> runout; // m, of the ring gear's back
    std::optional<double> torque; // N.m
    Along drive_along = Along::unseen;
    Height drive_height = Height::unseen;
    Along coast_along = Along::unseen;
    Height coast_height = Height::unseen;

    double total() const { return left + right; } // of the carrier
};

struct Aims {
    Range backlash;
    double variation;            // permitted over the teeth
    double runout;               // permitted
    std::optional<Range> torque; // N.m
    double first_step;           // of the pinion shim
    double pinion_sense;         // 1: a thicker shim brings the pinion nearer; -1: away
    bool ring_on_right;
    Factor factor; // by geometry or the maker's
};

double depth(const Trial& trial, const Aims& aims);
double away(const Trial& trial, const Aims& aims);

// 1: the pattern asks the pinion nearer (face), -1: away (flank), 0: centred; blank: not looked at.
// Keyed on the pinion's direction: drive side high, pinion toward the ring gear; low, away (maker's
// maintenance manual p. 61, seen). The coast side is asked where the drive side was not looked at.
std::optional<int> need_by_height(const Trial& trial);

// The same from where the two sides bear along the tooth: nearer the ring gear, the drive side
// moves to the toe and the coast side to the heel (gear-setting guide on the web, seen). 0: not
// crossed.
int need_by_crossing(const Trial& trial);

// Backlash a move of the ring gear as the trials show it: over neighbours between which the pinion
// stayed and the ring gear moved. Blank where it moved too little to tell.
struct Observed {
    double factor;
    double moved; // m, altogether
};
std::optional<Observed> observed_factor(const std::vector<Trial>& trials, const Aims& aims);

// The table of earlier trials, a row a trial: see kTrialColumns in trial_described.cpp.
inline constexpr std::size_t kTrialColumnCount = 11;
plugin::Outcome<std::vector<Trial>> trials_from(const std::vector<double>& cells);
std::array<double, kTrialColumnCount> row_of(const Trial& trial); // NAN where blank

} // namespace fettle::shim
