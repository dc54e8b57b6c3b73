// The sheet torque.tighten in words: checks what was typed, calls the arithmetic, writes the
// working. Knows the notes and refusals of the plugin contract, but no sink and no host. SI units.
#pragma once

#include "describe.hpp"
#include "torque/seats.h"

#include <optional>
#include <string>

namespace fettle::torque {

struct TightenTyped {
    std::string thread;
    std::string grade;
    std::string surface;             // "": none chosen
    std::optional<double> mu_thread; // typed friction goes before the surface
    std::optional<double> mu_head;
    std::string basis;                // "proof" (also when blank) or "yield"
    std::optional<double> use;        // share; blank: 0.75 of proof, 0.9 of yield
    std::optional<double> scatter;    // share of the preload either way; blank: 0.25
    std::optional<double> bearing_od; // blank: by size
    std::optional<double> hole;
    std::optional<double> adapter;
    std::optional<double> adapter_angle; // rad; blank: in line
    std::optional<double> wrench;
};

struct TightenAnswer {
    double stress_area;
    double proof_load;
    double preload;
    double preload_min;
    double preload_max;
    double torque;
    double wrench_setting;
    plugin::Account account;
};

plugin::Outcome<TightenAnswer> work_tighten(const TightenTyped& typed);

} // namespace fettle::torque
