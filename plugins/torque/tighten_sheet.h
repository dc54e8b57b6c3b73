// The sheet torque.tighten in words: checks what was typed, calls the arithmetic, writes the
// working. Knows the notes and refusals of the plugin contract, but no sink and no host. SI units.
#pragma once

#include "describe.hpp"
#include "screw_threads/picture.h"
#include "torque/threads.h"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace fettle::torque {

// Words of the sheet's choices; the form offers them, the sheet tells them apart.
inline constexpr const char* kByProof = "proof";
inline constexpr const char* kByYield = "yield";
inline constexpr const char* kByShare = "share either way";
inline constexpr const char* kByFactor = "tightening factor";
inline constexpr const char* kByReadings = "own readings";
inline constexpr const char* kNoLoad = "none beyond the preload";
inline constexpr const char* kPull = "pull along the bolt";

struct TightenTyped {
    std::string thread;
    std::string grade;
    std::optional<double> proof_stress; // these three for a typed strength only
    std::optional<double> tensile_strength;
    std::optional<double> yield_stress;
    std::string surface;             // "": none chosen
    std::optional<double> mu_thread; // typed friction goes before the surface
    std::optional<double> mu_head;
    std::optional<double> prevailing;
    std::string basis;             // "proof" (also when blank) or "yield"
    std::optional<double> use;     // share; blank: 0.75 of proof, 0.9 of yield
    std::string scatter_by;        // blank: a share either way
    std::optional<double> scatter; // share of the preload either way; blank: 0.25
    std::optional<double> tightening_factor;
    std::vector<double> readings;
    std::string head;                 // blank: by grade
    std::optional<double> bearing_od; // blank: by size
    std::optional<double> hole;
    std::string bears_on; // blank: steel
    std::string into;     // blank: a full nut of its grade
    std::optional<double> into_strength;
    std::optional<double> engagement_have;
    std::optional<double> grip;
    std::string load; // blank: none
    std::optional<double> external_load;
    std::optional<double> shank;
    std::optional<double> bolt_stiffness;
    std::optional<double> joint_stiffness;
    std::optional<double> adapter;
    std::optional<double> adapter_angle; // rad; blank: in line
    std::optional<double> wrench;
    std::string place; // blank: anywhere
};

struct TightenAnswer {
    double stress_area;
    double proof_load;
    double preload;
    double preload_min;
    double preload_max;
    double proof_share; // preload over proof load
    double torque;      // prevailing torque included
    double torque_min;  // for the same preload, over the friction range of the surface
    double torque_max;
    double wrench_setting;
    double head_pressure;
    double engagement; // needed
    std::optional<double> strip_load;
    std::optional<double> load_share; // these three with an outer load only
    std::optional<double> service_stress;
    std::optional<double> separation_load;
    plugin::Account account;
    std::vector<Picture> pictures;
};

plugin::Outcome<TightenAnswer> work_tighten(const TightenTyped& typed);

} // namespace fettle::torque
