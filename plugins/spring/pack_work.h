// Everything spring.pack has to say about a pack at one load, as numbers: the contact solved
// loaded and unloaded, both branches of friction, what the textbook makes of it and where the two
// part. SI units. Knows no words and no host.
#pragma once

#include "spring/pack_contact.h"

#include <optional>
#include <vector>

namespace fettle::spring {

struct LoadPoint {
    double deflection; // m, from the unloaded pack
    double load;       // N, whole spring
};

struct FrictionLoop { // between pressing the spring down and letting it up
    EyeState down;    // at the load, loading
    EyeState up;      // at the load, unloading
    double load_down; // N, that holds the frictionless deflection on the way down
    double load_up;   // and on the way up
    double half_band() const { return (load_down - load_up) / 2; }
};

struct NipBook {      // textbook; written for one thickness, so only where all are nearly alike
    double thickness; // m, whose cube is the mean of theirs
    double nip;
    double closing;
    double stress;
};

struct PackWork {
    PackState loaded;
    PackState empty;
    BookView book;
    double deflection; // m, of the load, without friction
    double rate;       // N/m, slope at the load, without friction
    double frequency;
    double common_rate;               // all leaves bent alike
    double fitted_rate;               // contact solved, every leaf fitting its neighbour, no clips
    double stress_max;                // greatest in size, loaded or empty
    double stress_bump;               // the same at twice the load
    double closing;                   // N, at the centre bolt, to bring the unclipped pack together
    std::vector<double> clip_closing; // N, each clip, one end, unloaded
    std::optional<double> built_arch; // m, from the radii: unloaded, clamped and clipped
    std::optional<FrictionLoop> loop; // none without friction, or where it would lock the pack
    std::optional<NipBook> nip_book;
    std::vector<LoadPoint> curve;      // loading branch, 0 to twice the load
    std::vector<LoadPoint> curve_back; // unloading branch; empty without friction
};

// Empty when no answer was found: not seen for any pack, but never to be trusted to hope.
// Precondition: as PackSolver's. `spare` as book_view's.
std::optional<PackWork> work_out(const Pack& pack, double load, int spare);

// Whether all leaves have one thickness.
bool one_thickness(const Pack& pack);

// Greatest stress in size over all leaves, Pa.
double greatest_stress(const PackState& state);

} // namespace fettle::spring
