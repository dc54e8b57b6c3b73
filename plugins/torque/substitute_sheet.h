// The sheet torque.substitute in words: checks what was typed, has it compared, gives the verdict
// with its reasons. Knows the notes and refusals of the plugin contract, but no sink and no host.
#pragma once

#include "describe.hpp"
#include "screw_threads/picture.h"
#include "torque/substitute.h"
#include "torque/threads.h"

namespace fettle::torque {

struct FastenerTyped {
    std::string thread;
    std::string grade;
    std::string head;                  // blank: by grade
    std::optional<double> head_od;     // m, outside
    std::optional<double> head_height; // m
    std::optional<double> shank;
    std::optional<double> length;
};

struct SubstituteTyped {
    FastenerTyped original, offered;
    std::string duty;    // blank: clamps
    std::string mate;    // blank: its own nut goes with it
    std::string finish;  // blank: plain
    std::string locking; // blank: nothing
    std::string bears_on;
    std::string into;
    std::optional<double> into_strength;
    std::optional<double> grip;
    std::optional<double> head_room;
    std::optional<double> seat_hole;
    std::optional<double> seat_depth;
    std::string place;
};

struct SubstituteAnswer {
    std::string verdict; // "fit", "fit with conditions", "not fit"
    std::string because; // reasons in a line or two
    std::string worse;   // the measures in which it is worse, or "nothing"
    std::string thread;  // the offered thread's proper name, to be handed on
    std::string grade;
    Ratios ratios;
    std::vector<Finding> findings;
    plugin::Account account;
    Picture picture;
};

plugin::Outcome<SubstituteAnswer> work_substitute(const SubstituteTyped& typed);

} // namespace fettle::torque
