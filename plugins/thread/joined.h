// What is joined: the bolt's strength and that of the part it screws into, as both sheets about
// strength ask for them. SI units.
#pragma once

#include "describe.hpp"
#include "screw_threads/engagement.h"
#include "screw_threads/grades.h"

#include <optional>
#include <string>
#include <string_view>

namespace fettle::thread {

struct JoinedTyped {
    std::string thread;
    std::string grade;
    std::optional<double> tensile_strength; // Pa, for the grade "strength typed"
    std::string into;
    std::optional<double> into_strength; // Pa
};

struct Joined {
    screw::Thread thread;
    std::string grade; // in words
    double bolt_tensile;
    screw::PartMaterial into;
    double into_tensile;
    bool into_typed;
};

// Refuses by the fields thread, grade, tensile_strength and into.
plugin::Outcome<Joined> read_joined(const JoinedTyped& typed);

double breaking_load(const screw::Thread& thread, double tensile); // N, of the stress area

void account_for(const Joined& joined, plugin::Account& account); // lines of working

// The fields, alike in both sheets; fettle_input needs them as constants.
inline constexpr plugin::Field kThreadField = {
    .id = "thread",
    .label = "Thread",
    .help = "Size and pitch as it is called: 3/8-16 BSW, 5/16-24 UNF, M10x1.5, 2BA. Not sure? Find "
            "it with the sheet thread.identify.",
    .preset = "3/8-16 BSW",
    .required = true};
inline constexpr plugin::Field kGradeField = {
    .id = "grade",
    .label = "Grade of the bolt",
    .help = "By the marks on the head. An unmarked British bolt of the time is BS letter R at "
            "best; no mark on others: SAE 1 or ISO 4.6.",
    .preset = "BS letter R",
    .required = true};
inline constexpr plugin::Field kTensileField = {
    .id = "tensile_strength",
    .label = "Tensile strength of the bolt",
    .help = "Least tensile strength of the bolt's steel, from its maker's paper or the low end of "
            "what a hardness reading converts to.",
    .quantity = "pressure",
    .unit = "MPa",
    .least = 50e6,
    .greatest = 2500e6,
    .when = "grade=strength typed"};
inline constexpr plugin::Field kIntoStrengthField = {
    .id = "into_strength",
    .label = "Its tensile strength",
    .help = "Of the part the bolt screws into, where it is known. Blank takes the weakest usual "
            "sort: steel 340, grey iron 150, cast aluminium 180 MPa.",
    .quantity = "pressure",
    .unit = "MPa",
    .least = 20e6,
    .greatest = 2500e6};

} // namespace fettle::thread
