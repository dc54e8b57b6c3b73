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
constexpr double kNothing = 1e-12;  // of a force: none
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
    list_contacts();
    list_clips();
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

// Every tip may touch, and points between that stand no closer than a leaf is thick: beam theory
// sees nothing finer.
void PackSolver::list_contacts() {
    for (std::size_t upper = 0; upper + 1 < pack_.leaves.size(); ++upper) {
        const std::size_t shared = std::min(reaches_[upper], reaches_[upper + 1]);
        const double least =
            std::max({kLeastSpacing * stations_.back(), pack_.leaves[upper].thickness,
                      pack_.leaves[upper + 1].thickness});
        const std::size_t first = candidates_.size();
        double last = 2 * stations_.back();
        for (std::size_t station = shared; station-- > 0;) {
            const double at = stations_[station];
            if (station + 1 < shared && last - at < least) continue;
            last = at;
            candidates_.push_back(
                {upper, upper + 1, station, 1, -nips_[upper] * at * at / 2, station + 1 == shared});
        }
        std::reverse(candidates_.begin() + static_cast<std::ptrdiff_t>(first), candidates_.end());
    }
}

void PackSolver::list_clips() {
    for (const double clip : pack_.clips) {
        const double wanted = clip - pack_.clamp / 2;
        const auto nearest =
            std::min_element(stations_.begin(), stations_.end(), [wanted](double a, double b) {
                return std::fabs(a - wanted) < std::fabs(b - wanted);
            });
        const auto station = static_cast<std::size_t>(nearest - stations_.begin());
        Candidate round{0, 0, station, -1, pack_.clip_play, false};
        for (std::size_t leaf = 1; leaf < reaches_.size() && reaches_[leaf] > station; ++leaf) {
            round.lower = leaf;
            round.free += nips_[leaf - 1] * *nearest * *nearest / 2;
        }
        candidates_.push_back(round);
    }
}

// The couple of friction on a leaf by 1 N of a contact.
double PackSolver::stiffening(const Candidate& of, std::size_t leaf, double friction) const {
    return of.clip() ? 0 : friction * pack_.leaves[leaf].thickness / 2;
}

// What 1 N of `of` does to the gap at `on`.
double PackSolver::effect(const Candidate& on, const Candidate& of, double friction) const {
    if (of.upper > on.lower || of.lower < on.upper) return 0; // they share no leaf
    double change = 0;
    const auto bend = [&](std::size_t leaf, double moves, double force) {
        change += moves * force * beams_[leaf].sag(on.station, of.station);
        const double couple = stiffening(of, leaf, friction);
        if (couple != 0)
            change += moves * couple * beams_[leaf].sag_by_couple(on.station, of.station);
    };
    if (of.upper == on.upper) bend(of.upper, on.sign, of.sign);
    if (of.upper == on.lower) bend(of.upper, -on.sign, of.sign);
    if (of.lower == on.upper) bend(of.lower, on.sign, -of.sign);
    if (of.lower == on.lower) bend(of.lower, -on.sign, -of.sign);
    return change;
}

// The gap where no leaf pressed on another.
double PackSolver::own_gap(const Candidate& on, double half_load) const {
    if (on.upper > 0 || on.lower == 0) return on.free;
    return on.free - on.sign * half_load * beams_[0].sag(on.station, beams_[0].stations() - 1);
}

bool PackSolver::solve_active(double half_load, double friction) {
    actives_.clear();
    for (std::size_t i = 0; i < candidates_.size(); ++i) {
        candidates_[i].wanted = candidates_[i].slope = 0;
        if (candidates_[i].active) actives_.push_back(i);
    }
    const std::size_t size = actives_.size();
    // Contacts meet only their neighbours' contacts; a clip meets any.
    const bool clipped = size > 0 && candidates_[actives_.back()].clip();
    std::size_t reach = clipped ? size - 1 : 0;
    std::size_t first = 0; // of the actives on this interface or the one above
    for (std::size_t row = 0; row < size && !clipped; ++row) {
        while (candidates_[actives_[first]].lower < candidates_[actives_[row]].upper)
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
            matrix_.at(row, column) = effect(on, candidates_[actives_[column]], friction);
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
        for (const std::size_t leaf : {of.upper, of.lower}) {
            const std::size_t place = leaf * count + of.station;
            forces_[place] += (leaf == of.upper ? of.sign : -of.sign) * force;
            couples_[place] += force * stiffening(of, leaf, friction);
        }
    }
    for (std::size_t leaf = 0; leaf < beams_.size(); ++leaf) {
        beams_[leaf].bend(&forces_[leaf * count], &couples_[leaf * count],
                          &deflections_[leaf * count]);
    }
}

double PackSolver::gap(const Candidate& each) const {
    const double upper = deflections_[each.upper * stations_.size() + each.station];
    const double lower = deflections_[each.lower * stations_.size() + each.station];
    return each.free + each.sign * (upper - lower);
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

// Energy of the leaves and of what presses on them, up to a constant. Bends the leaves.
double PackSolver::energy(double half_load, double friction) {
    spread(half_load, friction, false);
    double sum = 0;
    for (const std::size_t index : actives_) {
        const Candidate& each = candidates_[index];
        sum += each.force * (gap(each) + own_gap(each, half_load)) / 2;
    }
    return sum;
}

// From the forces held to those wanted, pulling ones cut to nothing; false, and back, when that
// does not lower the energy.
bool PackSolver::leap(double half_load, double friction) {
    const double before = energy(half_load, friction);
    held_.clear();
    for (const std::size_t index : actives_) {
        held_.push_back(candidates_[index].force);
        candidates_[index].force = std::max(0.0, candidates_[index].wanted);
    }
    const bool lower = energy(half_load, friction) < before;
    for (std::size_t i = 0; i < actives_.size(); ++i) {
        Candidate& each = candidates_[actives_[i]];
        if (!lower) each.force = held_[i];
        if (lower && each.wanted < 0) each.active = false;
    }
    return lower;
}

// From the forces held, towards those the active contacts want, as far as none would pull; those
// that stop the way are let go.
void PackSolver::step() {
    double way = 1;
    for (const std::size_t index : actives_) {
        const Candidate& each = candidates_[index];
        if (each.wanted < 0) way = std::min(way, each.force / (each.force - each.wanted));
    }
    for (const std::size_t index : actives_) {
        Candidate& each = candidates_[index];
        each.force += way * (each.wanted - each.force);
        if (each.wanted >= 0 || each.force > way * kNothing * -each.wanted) continue;
        each.force = 0;
        each.active = false;
    }
}

// Lets contacts go until all active ones press. False when the equations have no answer.
bool PackSolver::press_actives(double half_load, double friction) {
    for (std::size_t round = 0; round <= candidates_.size(); ++round) {
        if (!solve_active(half_load, friction)) return false;
        bool pulls = false;
        for (const std::size_t index : actives_)
            pulls = pulls || candidates_[index].wanted < 0;
        if (!pulls) {
            for (const std::size_t index : actives_)
                candidates_[index].force = candidates_[index].wanted;
            return true;
        }
        if (!leap(half_load, friction)) step();
    }
    return false;
}

// Where leaves would overlap, contacts are made: the deepest of every stretch between two contacts,
// or the deepest of all alone.
bool PackSolver::take_up(double slack, bool alone) {
    Candidate* worst = nullptr;
    double depth = slack;
    bool taken = false;
    for (std::size_t i = 0; i < candidates_.size(); ++i) {
        Candidate& each = candidates_[i];
        const double overlap = each.active ? 0 : -gap(each);
        if (overlap > depth) {
            depth = overlap;
            worst = &each;
        }
        const bool ends = i + 1 == candidates_.size() || overlap <= slack || each.clip() ||
                          candidates_[i + 1].lower != each.lower;
        if (worst == nullptr || !ends || (alone && i + 1 < candidates_.size())) continue;
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
        each.force = each.active ? std::max(0.0, each.wanted) : 0;
    const int most = friction == 0 ? kMostRounds : kMostRoundsWithFriction;
    for (int round = 0; round < most; ++round) {
        if (!press_actives(half_load, friction)) return false;
        spread(half_load, friction, false);
        if (!take_up(slack, round > kTogether)) return true;
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
    for (const Candidate& each : candidates_)
        if (each.lower == leaf && !each.clip()) state.press += each.force;
    const std::size_t shared = leaf == 0 ? 0 : std::min(reaches_[leaf - 1], reaches_[leaf]);
    for (std::size_t s = 0; s < shared; ++s) {
        const double free = -nips_[leaf - 1] * stations_[s] * stations_[s] / 2;
        state.gap.push_back({stations_[s], gap({leaf - 1, leaf, s, 1, free, false})});
    }
    return state;
}

std::optional<PackState> PackSolver::state(double load, Branch branch) {
    const auto shown = eye(load, branch);
    if (!shown) return std::nullopt;
    spread(load / 2, sign_of(branch) * pack_.friction, false);
    PackState state{*shown, {}, {}, {}, {}};
    for (const Candidate& each : candidates_) {
        if (each.clip()) {
            state.clips.push_back(each.force);
        } else if (each.force > 0) {
            state.touches.push_back({each.upper, stations_[each.station], each.force});
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
