// The sheet thread.identify in words: checks what was measured, ranks the standard threads, says
// why the first is the first, what looks like it, and how the two are told apart.
//
// SI units; empty text or no value: left blank. Calculation alone: knows no sink and no host.
#pragma once

#include "describe.hpp"
#include "screw_threads/picture.h"
#include "thread/identify.h"

#include <array>

namespace fettle::thread {

inline constexpr const char* kBolt = "bolt or stud";
inline constexpr const char* kHole = "nut or tapped hole";
inline constexpr std::array<const char*, 2> kKinds = {kBolt, kHole};
inline constexpr const char* kAngleUnknown = "not known";
inline constexpr std::array<const char*, 4> kAngles = {kAngleUnknown, "60", "55", "47.5"};
inline constexpr const char* kAnywhere = "anywhere";
inline constexpr std::array<const char*, 7> kMetAt = {
    kAnywhere, "British", "American", "metric", "cycle", "instruments", "pipes"};

struct IdentifyTyped {
    std::string kind;
    std::optional<double> major; // m
    std::optional<double> minor; // m
    std::optional<double> tpi;   // threads to the inch
    std::optional<double> pitch; // m, over `pitches`
    std::optional<double> pitches;
    std::string angle;
    std::optional<double> wear;           // m
    std::optional<double> diameter_doubt; // m
    std::optional<double> pitch_doubt;    // share
    std::string met;
    std::string drills;
};

struct RankedRow {
    std::string thread, verdict;
    double angle, diameter, pitch, tpi;     // of the standard; rad and m
    double diameter_off, pitch_off, misfit; // m, share, number
};

struct IdentifyAnswer {
    std::string thread; // "" when nothing fits
    std::string why, look_alike, told_apart, drill_name;
    double misfit = 0;
    std::optional<double> major, pitch, tapping_drill; // m, of the thread found
    std::vector<RankedRow> ranked;
    screw::Picture profile{"profile", {}, {}};
    screw::Picture field{"field", {}, {}};
    plugin::Account account;
};

plugin::Outcome<IdentifyAnswer> work_identify(const IdentifyTyped& typed);

// How two threads are told apart, with the figures put in.
std::string told_apart(const screw::Thread& a, const screw::Thread& b);

} // namespace fettle::thread
