// Two springs of one axle measured free and loaded: how stiff they show themselves, how much arch
// is wanting, and what that asks for. SI units. Knows no words and no host.
#pragma once

#include <array>
#include <optional>

namespace fettle::spring {

struct Side {
    double free; // m, arch without load
    std::optional<double> loaded;
    std::optional<double> load; // N, when the loaded arch was read
};

struct SagTyped {
    std::array<Side, 2> sides; // left, right
    std::optional<double> wanted_free;
    std::optional<double> wanted_loaded;
    std::optional<double> rate;   // N/m, calculated
    std::optional<double> length; // m, of the master, eye to eye
    double tolerance;             // m, what may differ
    double most_packing;          // m
};

enum class Deed { leave, pack, rearch, lower, look };

struct SideFound {
    std::optional<double> deflection;
    std::optional<double> rate;      // N/m, load over deflection
    std::optional<double> frequency; // Hz, of that load on that rate
    double wanting;                  // m of arch; negative: too high
    Deed deed;
    double rearch;                // m to add to the free arch; negative: to take off
    double packing;               // m
    std::optional<double> radius; // m, of the master's hollow face at the arch it is to have
};

struct SagFound {
    std::array<SideFound, 2> sides;
    double difference_free; // left less right
    std::optional<double> difference_loaded;
    std::optional<double> softer; // share by which the bounce is slower than the calculated rate's
};

// A rate read from two arches is not sure to better than this: friction between the leaves holds
// the arch anywhere within its band (common practice, no source).
inline constexpr double kRateWithin = 0.15;

// What is wanting is judged by the loaded arch wanted, else the free one, else by the other side.
// Preconditions: loaded arches less than the free ones, loads and rate greater than nothing.
SagFound judge_sag(const SagTyped& typed);

} // namespace fettle::spring
