// How the time a paint needs follows its temperature. Plain functions in SI (K, s, J/mol).
//
// Two rules: a step of temperature that halves the time (10 K: common practice, stated by makers of
// two-pack paints), or the Arrhenius equation through two points of a data sheet,
// t = t1 exp(E/R (1/T - 1/T1)).
#pragma once

#include <optional>

namespace fettle::coat {

inline constexpr double kGas = 8.314462618; // J/(mol K), CODATA 2018

struct CurePoint {
    double temperature; // K
    double time;        // s
};

struct CureRule {
    CurePoint known;
    double halving;    // K that halve the time; not used when energy is set
    double energy = 0; // J/mol, of the Arrhenius equation; 0: halving
};

// Energy of the line through two points. Precondition: their temperatures differ.
double activation_energy(const CurePoint& one, const CurePoint& other);

// The time of the data sheet, carried to this temperature. `time` takes the place of known.time.
double time_at(const CureRule& rule, double temperature, double time);
inline double cure_time(const CureRule& rule, double temperature) {
    return time_at(rule, temperature, rule.known.time);
}

// The temperature at which the paint is through in this time; nothing when none is hot enough.
std::optional<double> temperature_for_time(const CureRule& rule, double time);

} // namespace fettle::coat
