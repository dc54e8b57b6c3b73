#include "spring/pack_contact.h"

#include <algorithm>
#include <cmath>

namespace fettle::spring {
namespace {

constexpr double kSpacing = 1.0 / 24; // of the working length, between stations
constexpr double kLeastSpacing =
    1.0 / 32;                       // of it, and no less than the thickness, between contacts
constexpr double kMerged = 2e-4;    // of it: nearer stations are one
constexpr double kTolerance = 1e-9; // of the greatest gap or deflection there is
constexpr int kTogether = 20;       // rounds in which every pair of leaves may take a contact
constexpr int kMostRounds = 1000;
constexpr int kMostRoundsWithFriction = 150;

double sign_of(Branch branch) {
    return branch == Branch::frictionless ? 0 : branch == Branch::loading ? 1 : -1;
}

} // namespace

PackSolver::PackSolver(const Pack& pack) : pack_(pack), nips_(nips(pack)) {
    place_stations();
    build_beams();
    list_candidates();
    const std::size_t room = pack_.leaves.size() * stations_.size();
    forces_.resize(room);
    couples_.resize(room);
    deflections_.resize(room);
}

void PackSolver::place_stations() {
    const double length = working_length(pack_, pack_.leaves.front());
    std::vector<double> marks = {length};
    for (const Leaf& leaf : pack_.leaves) {
        const double tip = working_length(pack_, leaf);
        marks.push_back(std::min(tip, length));
        if (leaf.narrowed > kMerged * length && leaf.narrowed < tip) {
            marks.push_back(tip - leaf.narrowed);
        }
    }
    for (const double clip : pack_.clips)
        marks.push_back(clip - pack_.clamp / 2);
    for (double& mark : marks) {
        if (length - mark < kMerged * length) mark = length;
    }
    std::sort(marks.begin(), marks.end());
    double from = 0;
    for (const double mark : marks) {
        if (mark - from < kMerged * length) continue;
        const double pieces = std::ceil((mark - from) / (kSpacing * length) - 0.25);
        for (int piece = 1; piece < pieces; ++piece)
            stations_.push_back(from + (mark - from) * piece / pieces);
        stations_.push_back(mark);
        from = mark;
    }
}

std::vector<Stretch> PackSolver::stretches_of(const Leaf& leaf) const {
    const double slack = kMerged * stations_.back();
    const double tip = working_length(pack_, leaf);
    std::vector<Stretch> stretches;
    double from = 0;
    for (const double station : stations_) {
        if (station > tip + slack) break;
        stretches.push_back({station - from, bending_stiffness(pack_, leaf, from),
                             bending_stiffness(pack_, leaf, station)});
        from = station;
    }
    return stretches;
}

void PackSolver::build_beams() {
    for (const Leaf& leaf : pack_.leaves) {
        beams_.emplace_back(stretches_of(leaf));
        reaches_.push_back(beams_.back().stations());
    }
}

// Every tip and clip may touch, and points between that stand no closer than a leaf is thick: beam
// theory sees nothing finer.
void PackSolver::list_candidates() {
    std::vector<bool> clipped(stations_.size(), false);
    for (const double clip : pack_.clips) {
        const double at = clip - pack_.clamp / 2;
        const auto nearest =
            std::min_element(stations_.begin(), stations_.end(), [at](double a, double b) {
                return std::fabs(a - at) < std::fabs(b - at);
            });
        clipped[static_cast<std::size_t>(nearest - stations_.begin())] = true;
    }
    for (std::size_t upper = 0; upper + 1 < pack_.leaves.size(); ++upper) {
        const std::size_t shared = std::min(reaches_[upper], reaches_[upper + 1]);
        const double least =
            std::max({kLeastSpacing * stations_.back(), pack_.leaves[upper].thickness,
                      pack_.leaves[upper + 1].thickness});
        const std::size_t first = candidates_.size();
        double last = 2 * stations_.back();
        for (std::size_t station = shared; station-- > 0;) {
            const bool tip = station + 1 == shared;
            if (!tip && !clipped[station] && last - stations_[station] < least) continue;
            if (!clipped[station]) last = stations_[station];
            candidates_.push_back({upper, station, clipped[station], clipped[station] || tip});
        }
        std::reverse(candidates_.begin() + static_cast<std::ptrdiff_t>(first), candidates_.end());
    }
}

// What 1 N between two leaves at `of` does to the gap at `on`.
double PackSolver::effect(const Candidate& on, const Candidate& of, double friction) const {
    const double mu = of.tied && !of.pressing ? 0 : friction;
    const auto bends = [&](std::size_t leaf, double force) {
        const double arm = pack_.leaves[leaf].thickness / 2;
        return force * beams_[leaf].sag(on.station, of.station) +
               (mu == 0 ? 0 : mu * arm * beams_[leaf].sag_by_couple(on.station, of.station));
    };
    if (on.upper == of.upper) return bends(on.upper, 1) - bends(on.upper + 1, -1);
    return on.upper > of.upper ? bends(on.upper, -1) : -bends(of.upper, 1);
}

// The gap where no leaf pressed on another.
double PackSolver::own_gap(const Candidate& on, double half_load) const {
    const double at = stations_[on.station];
    const double free = -nips_[on.upper] * at * at / 2;
    return on.upper > 0 ? free
                        : free - half_load * beams_[0].sag(on.station, beams_[0].stations() - 1);
}

bool PackSolver::solve_active(double half_load, double friction) {
    actives_.clear();
    for (std::size_t i = 0; i < candidates_.size(); ++i) {
        candidates_[i].wanted = candidates_[i].slope = 0;
        if (candidates_[i].active) actives_.push_back(i);
    }
    const std::size_t size = actives_.size();
    const auto upper_of = [&](std::size_t row) { return candidates_[actives_[row]].upper; };
    std::size_t reach = 0;
    std::size_t first = 0; // of the actives on this interface or the one above
    for (std::size_t row = 0; row < size; ++row) {
        while (upper_of(first) + 1 < upper_of(row))
            ++first;
        reach = std::max(reach, row - first);
    }
    matrix_.begin(size, reach);
    side_.resize(size);
    std::vector<double> slopes(size);
    for (std::size_t row = 0; row < size; ++row) {
        const Candidate& on = candidates_[actives_[row]];
        const std::size_t end = std::min(size, row + reach + 1);
        for (std::size_t column = row > reach ? row - reach : 0; column < end; ++column) {
            const Candidate& of = candidates_[actives_[column]];
            const bool near = of.upper + 1 >= on.upper && of.upper <= on.upper + 1;
            if (near) matrix_.at(row, column) = effect(on, of, friction);
        }
        side_[row] = -own_gap(on, half_load);
        slopes[row] = own_gap(on, 0) - own_gap(on, 1);
    }
    if (!matrix_.factor()) return false;
    matrix_.solve(side_);
    matrix_.solve(slopes);
    for (std::size_t row = 0; row < size; ++row) {
        candidates_[actives_[row]].wanted = side_[row];
        candidates_[actives_[row]].slope = slopes[row];
    }
    return true;
}

// Forces or their slopes laid on the leaves, and how those bend under them.
void PackSolver::spread(double half_load, double friction, bool slopes) {
    const std::size_t count = stations_.size();
    std::fill(forces_.begin(), forces_.end(), 0.0);
    std::fill(couples_.begin(), couples_.end(), 0.0);
    forces_[beams_[0].stations() - 1] = slopes ? -1 : -half_load;
    for (const std::size_t index : actives_) {
        const Candidate& of = candidates_[index];
        const double force = slopes ? of.slope : of.force;
        const double mu = of.tied && !of.pressing ? 0 : friction;
        for (const std::size_t leaf : {of.upper, of.upper + 1}) {
            const std::size_t place = leaf * count + of.station;
            forces_[place] += leaf == of.upper ? force : -force;
            couples_[place] += mu * force * pack_.leaves[leaf].thickness / 2;
        }
    }
    for (std::size_t leaf = 0; leaf < beams_.size(); ++leaf) {
        beams_[leaf].bend(&forces_[leaf * count], &couples_[leaf * count],
                          &deflections_[leaf * count]);
    }
}

double PackSolver::gap(std::size_t upper, std::size_t station) const {
    const double at = stations_[station];
    const std::size_t place = upper * stations_.size() + station;
    return deflections_[place] - deflections_[place + stations_.size()] -
           nips_[upper] * at * at / 2;
}

// The greatest gap or deflection there is: what counts as nothing is judged by it.
double PackSolver::scale(double half_load) const {
    const std::size_t eye = beams_[0].stations() - 1;
    double greatest = half_load * beams_[0].sag(eye, eye);
    for (std::size_t upper = 0; upper < nips_.size(); ++upper) {
        const std::size_t shared = std::min(reaches_[upper], reaches_[upper + 1]);
        const double tip = shared == 0 ? 0 : stations_[shared - 1];
        greatest = std::max(greatest, std::fabs(nips_[upper]) * tip * tip / 2);
    }
    return greatest;
}

// Friction acts under a clip while the leaves press there. Whether any changed sides.
bool PackSolver::turn_friction() {
    bool turned = false;
    for (const std::size_t index : actives_) {
        Candidate& each = candidates_[index];
        if (!each.tied || each.pressing == (each.force > 0)) continue;
        each.pressing = each.force > 0;
        turned = true;
    }
    return turned;
}

// From the forces held, towards those the active contacts ask for, as far as none would pull; those
// that stop the way are let go, until all may press. False when the equations have no answer.
bool PackSolver::press_actives(double half_load, double friction) {
    for (std::size_t round = 0; round <= candidates_.size(); ++round) {
        if (!solve_active(half_load, friction)) return false;
        double way = 1;
        for (const std::size_t index : actives_) {
            const Candidate& each = candidates_[index];
            if (each.tied || each.wanted >= 0) continue;
            way = std::min(way, each.force / (each.force - each.wanted));
        }
        bool let_go = false;
        for (const std::size_t index : actives_) {
            Candidate& each = candidates_[index];
            const bool pulls = !each.tied && each.wanted < 0;
            each.force += way * (each.wanted - each.force);
            if (!pulls || each.force > way * 1e-12 * -each.wanted) continue;
            each.force = 0;
            each.active = false;
            let_go = true;
        }
        if (!let_go) return true;
    }
    return false;
}

// Where leaves would overlap, a contact is made: the worst of each pair of leaves, or the worst of
// all alone.
bool PackSolver::take_up(double slack, bool alone) {
    Candidate* worst = nullptr;
    double depth = slack;
    bool taken = false;
    for (std::size_t i = 0; i < candidates_.size(); ++i) {
        Candidate& each = candidates_[i];
        const double overlap = each.active ? 0 : -gap(each.upper, each.station);
        if (overlap > depth) {
            depth = overlap;
            worst = &each;
        }
        const bool last = i + 1 == candidates_.size() || candidates_[i + 1].upper != each.upper;
        if (worst == nullptr || !last || (alone && i + 1 < candidates_.size())) continue;
        worst->active = taken = true;
        worst = nullptr;
        depth = slack;
    }
    return taken;
}

bool PackSolver::settle(double half_load, double friction) {
    const double slack = kTolerance * scale(half_load);
    for (Candidate& each : candidates_)
        each.force = 0;
    if (!solve_active(half_load, friction)) return false;
    for (Candidate& each : candidates_)
        each.force = each.active ? (each.tied ? each.wanted : std::max(0.0, each.wanted)) : 0;
    int turns = 0;
    const int most = friction == 0 ? kMostRounds : kMostRoundsWithFriction;
    for (int round = 0; round < most; ++round) {
        if (!press_actives(half_load, friction)) return false;
        spread(half_load, friction, false);
        if (take_up(slack, round > kTogether)) continue;
        // A clip that neither presses nor pulls may turn for ever; either side is then right.
        if (friction == 0 || turns++ > 8 || !turn_friction()) return true;
    }
    return false;
}

std::optional<EyeState> PackSolver::eye(double load, Branch branch) {
    const double friction = sign_of(branch) * pack_.friction;
    if (!settle(load / 2, friction)) return std::nullopt;
    const std::size_t tip = beams_[0].stations() - 1;
    const double drop = -deflections_[tip];
    spread(load / 2, friction, true);
    const double give = -deflections_[tip];
    if (!std::isfinite(drop) || !(give > 0)) return std::nullopt;
    return EyeState{drop, 2 / give};
}

LeafState PackSolver::leaf_state(std::size_t leaf) const {
    LeafState state{};
    const LeafBeam& beam = beams_[leaf];
    const std::size_t row = leaf * stations_.size();
    std::vector<double> moments(beam.stations() + 1);
    beam.moments(&forces_[row], &couples_[row], moments.data());
    const double half = pack_.leaves[leaf].thickness / 2;
    const auto note = [&](double at, double moment) {
        // Upward bending curves a leaf more: its hollow face is pressed, so flatter is positive.
        const double inertia = bending_stiffness(pack_, pack_.leaves[leaf], at) / pack_.modulus;
        const double stress = moment == 0 ? 0 : -moment * half / inertia;
        state.stress_along.push_back({at, stress});
        if (std::fabs(stress) > std::fabs(state.stress)) {
            state.stress = stress;
            state.stress_at = at;
        }
    };
    note(0, moments.back());
    for (std::size_t s = 0; s < beam.stations(); ++s) {
        note(stations_[s], moments[s]);
        if (couples_[row + s] != 0) note(stations_[s], moments[s] - couples_[row + s]);
    }
    state.clamp_moment = -moments.back();
    for (const Candidate& each : candidates_) {
        if (each.upper + 1 != leaf) continue;
        state.press += std::max(0.0, each.force);
    }
    const std::size_t shared = leaf == 0 ? 0 : std::min(reaches_[leaf - 1], reaches_[leaf]);
    for (std::size_t station = 0; station < shared; ++station)
        state.gap.push_back({stations_[station], gap(leaf - 1, station)});
    return state;
}

// One clip goes round all leaves that reach it: it pulls as hard as the worst pair asks for.
std::vector<double> PackSolver::clip_pulls() const {
    std::vector<double> pulls;
    for (const double clip : pack_.clips) {
        const double at = clip - pack_.clamp / 2;
        double pull = 0;
        for (const Candidate& each : candidates_) {
            const bool here =
                each.tied && std::fabs(stations_[each.station] - at) < kMerged * stations_.back();
            if (here) pull = std::max(pull, -each.force);
        }
        pulls.push_back(pull);
    }
    return pulls;
}

std::optional<PackState> PackSolver::state(double load, Branch branch) {
    const auto shown = eye(load, branch);
    if (!shown) return std::nullopt;
    spread(load / 2, sign_of(branch) * pack_.friction, false);
    PackState state{*shown, {}, {}, {}, clip_pulls()};
    for (const Candidate& each : candidates_) {
        const bool held = each.tied ? each.force != 0 : each.force > 0;
        if (each.active && held) {
            state.touches.push_back({each.upper, stations_[each.station], each.force, each.tied});
        }
    }
    for (std::size_t leaf = 0; leaf < beams_.size(); ++leaf)
        state.leaves.push_back(leaf_state(leaf));
    for (std::size_t s = 0; s < beams_[0].stations(); ++s)
        state.master.push_back({stations_[s], -deflections_[s]});
    return state;
}

std::optional<PackState> solve_pack(const Pack& pack, double load, Branch branch) {
    return PackSolver(pack).state(load, branch);
}

} // namespace fettle::spring
