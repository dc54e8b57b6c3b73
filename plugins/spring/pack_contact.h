// A pack of curved leaves in one-sided contact: which leaf presses on which, where and how hard.
//
// Half the spring: every leaf is a cantilever from the edge of the clamp, where all are held to one
// place and one slope. Neighbours may press on each other at stations (every tip, every clip, and
// points between); they never pull: gap >= 0, force >= 0, gap x force = 0. That is a linear
// complementarity problem whose matrix is the leaves' flexibility, symmetric and positive definite.
// A clip goes round all leaves that reach it and lets them stand apart by its play together, no
// more: one further force that is never negative. Friction acts at every
// contact as a couple (coefficient x force x half the thickness) on both leaves, against the way
// they turn: the loading and the unloading branch, for a load that has moved one way long enough to
// slip everywhere. Between the two the pack sticks.
//
// Solved as the convex quadratic problem it is, by active sets: contacts that would pull are let go
// on the way, where leaves would overlap one is made. Without friction each round lowers the energy
// and no set of contacts comes twice, so it ends (Lawson & Hanson, Solving Least Squares Problems,
// ch. 23, for the like problem; from memory). With friction the matrix loses its symmetry; where
// leaves are so short, thick and rough that no answer is found, none is given.
//
// SI units. Small deflections. Knows no words and no host. Not for several threads at a time.
#pragma once

#include "spring/banded.h"
#include "spring/leaf_beam.h"
#include "spring/leaf_pack.h"

#include <optional>
#include <vector>

namespace fettle::spring {

enum class Branch { frictionless, loading, unloading };

struct Touch {
    std::size_t upper; // between this leaf and the next
    double at;         // m from the edge of the clamp
    double force;      // N on one end of the spring, greater than nothing
};

struct Place {
    double at;    // m from the edge of the clamp, 0 there
    double value; // by context
};

struct LeafState {
    double press;        // N, all contact forces with the leaf above, one end
    double clamp_moment; // N.m, positive: bent flatter than it was free
    double stress;       // Pa, the greatest in size; positive: tension in the hollow face
    double stress_at;    // m from the edge of the clamp
    std::vector<Place> stress_along;
    std::vector<Place> gap; // to the leaf above; empty for the first
};

struct EyeState { // what the whole spring shows at one load
    double drop;  // m, how far the eye stands below where a free master leaf would hold it
    double rate;  // N/m at the axle: slope of load over deflection at this load
};

struct PackState {
    EyeState eye;
    std::vector<Touch> touches; // of force
    std::vector<LeafState> leaves;
    std::vector<Place> master; // how far the master stands below its free shape
    std::vector<double> clips; // N, the pull of each clip, one end
};

class PackSolver {
  public:
    // Preconditions: 1 to some 100 leaves, longest first to within kFullLengthWithin, each longer
    // than the clamp; clips between clamp and eye.
    explicit PackSolver(const Pack& pack);

    std::size_t leaves() const { return beams_.size(); }

    // Load on the whole spring, N, 0 or more. Empty when no answer was found. Each call begins with
    // the contacts the last one ended with.
    std::optional<EyeState> eye(double load, Branch branch);
    std::optional<PackState> state(double load, Branch branch);

  private:
    // Two leaves that may press on each other at a station, or the outermost two in a clip.
    struct Candidate {
        std::size_t upper;
        std::size_t lower;
        std::size_t station;
        double sign; // of its force on the upper leaf: 1 pressed up, -1 pulled down by a clip
        double free; // m, the gap or what is left of the clip's play, were no leaf bent
        bool active;
        double force = 0;
        double wanted = 0; // force that would close the active contacts just so
        double slope = 0;  // of force over half the load
        bool clip() const { return sign < 0; }
    };

    void place_stations();
    void build_beams();
    void list_contacts();
    void list_clips();
    std::vector<Stretch> stretches_of(const Leaf& leaf) const;
    bool settle(double half_load, double friction);
    bool solve_active(double half_load, double friction);
    double effect(const Candidate& on, const Candidate& of, double friction) const;
    double own_gap(const Candidate& on, double half_load) const;
    void spread(double half_load, double friction, bool slopes);
    double gap(const Candidate& each) const;
    double stiffening(const Candidate& of, std::size_t leaf, double friction) const;
    double scale(double half_load) const;
    double energy(double half_load, double friction);
    bool leap(double half_load, double friction);
    void step();
    bool press_actives(double half_load, double friction);
    bool take_up(double slack, bool alone);
    LeafState leaf_state(std::size_t leaf) const;

    Pack pack_;
    std::vector<double> nips_;
    std::vector<double> stations_;     // m from the edge of the clamp, ascending
    std::vector<std::size_t> reaches_; // stations each leaf has
    std::vector<LeafBeam> beams_;
    std::vector<Candidate> candidates_; // contacts by interface, then station; clips last
    std::vector<std::size_t> actives_;
    Banded matrix_;
    std::vector<double> side_;
    std::vector<double> held_;
    std::vector<double> forces_, couples_, deflections_; // leaf by leaf, stations_ each
};

// One load, from scratch.
std::optional<PackState> solve_pack(const Pack& pack, double load,
                                    Branch branch = Branch::frictionless);

} // namespace fettle::spring
