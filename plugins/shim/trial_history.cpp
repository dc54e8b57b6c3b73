#include "shim/trial_history.h"

#include <cmath>

namespace fettle::shim {
namespace {

using plugin::figure;
using plugin::line;
using plugin::Outcome;
using plugin::Refusal;

constexpr std::size_t kMostTrials = 200;
constexpr double kThickest = 0.05; // m
constexpr double kPinionStayed = 0.5 * kThou;
constexpr double kRingMoved = 2 * kThou;
constexpr double kEnoughMoved = 5 * kThou; // common practice, no source

std::optional<double> cell(double value) {
    if (!std::isfinite(value)) return std::nullopt;
    return value;
}

// A word's place in its list; blank counts as the first, "not looked at".
std::optional<int> word(double value) {
    if (!std::isfinite(value)) return 0;
    if (value < 0 || value > 3 || value != std::floor(value)) return std::nullopt;
    return static_cast<int>(value);
}

Outcome<Trial> trial_from(const double* cells, const std::string& where) {
    static constexpr const char* kLengths[] = {"pinion shim", "left shim", "right shim", "backlash",
                                               "variation"};
    for (std::size_t i = 0; i < std::size(kLengths); ++i) {
        if (cells[i] >= 0 && cells[i] <= kThickest) continue;
        return Refusal{"earlier", line("earlier: ", where, ", ", kLengths[i], ": ",
                                       std::isfinite(cells[i]) ? both(cells[i]) : "blank",
                                       "; accepted is ", both(0), " to ", both(kThickest), ".")};
    }
    Trial trial{cells[0], cells[1], cells[2], cells[3], cells[4], cell(cells[5]), cell(cells[6])};
    const auto drive_along = word(cells[7]);
    const auto drive_height = word(cells[8]);
    const auto coast_along = word(cells[9]);
    const auto coast_height = word(cells[10]);
    if (!drive_along || !drive_height || !coast_along || !coast_height) {
        return Refusal{"earlier", line("earlier: ", where,
                                       ", the contact pattern: accepted are "
                                       "not looked at, toe, centre, heel; and "
                                       "not looked at, face, centre, flank.")};
    }
    if (trial.runout.value_or(0) < 0 || trial.runout.value_or(0) > kThickest ||
        trial.torque.value_or(0) < 0 || trial.torque.value_or(0) > 1000) {
        return Refusal{"earlier",
                       line("earlier: ", where, ", run-out ", both(trial.runout.value_or(0)),
                            ", turning torque ", both_torque(trial.torque.value_or(0)),
                            "; accepted are 0 to ", both(kThickest), " and to ", both_torque(1000),
                            ".")};
    }
    trial.drive_along = static_cast<Along>(*drive_along);
    trial.drive_height = static_cast<Height>(*drive_height);
    trial.coast_along = static_cast<Along>(*coast_along);
    trial.coast_height = static_cast<Height>(*coast_height);
    return trial;
}

} // namespace

double depth(const Trial& trial, const Aims& aims) {
    return aims.pinion_sense * trial.pinion;
}

double away(const Trial& trial, const Aims& aims) {
    const double toward = (trial.left - trial.right) / 2;
    return aims.ring_on_right ? toward : -toward;
}

std::optional<int> need_by_height(const Trial& trial) {
    const Height height =
        trial.drive_height != Height::unseen ? trial.drive_height : trial.coast_height;
    if (height == Height::unseen) return std::nullopt;
    return height == Height::face ? 1 : height == Height::flank ? -1 : 0;
}

int need_by_crossing(const Trial& trial) {
    if (trial.drive_along == Along::toe && trial.coast_along == Along::heel) return -1;
    if (trial.drive_along == Along::heel && trial.coast_along == Along::toe) return 1;
    return 0;
}

std::optional<Observed> observed_factor(const std::vector<Trial>& trials, const Aims& aims) {
    double products = 0;
    double squares = 0;
    double moved = 0;
    for (std::size_t i = 1; i < trials.size(); ++i) {
        const double pinion = depth(trials[i], aims) - depth(trials[i - 1], aims);
        const double ring = away(trials[i], aims) - away(trials[i - 1], aims);
        if (std::fabs(pinion) > kPinionStayed || std::fabs(ring) < kRingMoved) continue;
        products += ring * (trials[i].backlash - trials[i - 1].backlash);
        squares += ring * ring;
        moved += std::fabs(ring);
    }
    if (moved < kEnoughMoved) return std::nullopt;
    return Observed{products / squares, moved};
}

Outcome<std::vector<Trial>> trials_from(const std::vector<double>& cells) {
    std::vector<Trial> trials;
    if (cells.size() % kTrialColumnCount != 0 || cells.size() / kTrialColumnCount > kMostTrials) {
        return Refusal{"earlier", line("earlier: ", std::to_string(cells.size()),
                                       " cells; accepted are up to ", std::to_string(kMostTrials),
                                       " rows of ", std::to_string(kTrialColumnCount), ".")};
    }
    for (std::size_t at = 0; at < cells.size(); at += kTrialColumnCount) {
        const auto trial = trial_from(&cells[at], "trial " + std::to_string(trials.size() + 1));
        if (const auto* no = std::get_if<Refusal>(&trial)) return *no;
        trials.push_back(std::get<Trial>(trial));
    }
    return trials;
}

std::array<double, kTrialColumnCount> row_of(const Trial& trial) {
    return {trial.pinion,
            trial.left,
            trial.right,
            trial.backlash,
            trial.variation,
            trial.runout.value_or(plugin::kOpen),
            trial.torque.value_or(plugin::kOpen),
            static_cast<double>(trial.drive_along),
            static_cast<double>(trial.drive_height),
            static_cast<double>(trial.coast_along),
            static_cast<double>(trial.coast_height)};
}

} // namespace fettle::shim
