// A laminated spring as measured on the bench, leaf by leaf: what it is, and the views of it that
// need no contact between leaves (the textbook's, and all leaves bent alike).
//
// Leaf 1 is the master with the eyes, at the hollow side of the pack; each next one lies outside
// it. Half the spring is looked at, from the edge of the clamp (0) to the eye. SI units. Knows no
// words and no host.
#pragma once

#include <optional>
#include <vector>

namespace fettle::spring {

struct Leaf {
    double length; // m, whole length along the leaf; of the master eye centre to eye centre
    double thickness;
    std::optional<double> curvature; // 1/m of its hollow face, free; none: it fits the leaf above
    double narrowed = 0;             // m, at each end: how far it narrows towards the tip
};

// What a clip drawn up by hand leaves (common practice, no source). Never nothing: leaves that a
// clip let not part at all would bend as one, with forces no strap bears.
inline constexpr double kSnug = 0.0001; // m

struct Pack {
    std::vector<Leaf> leaves; // longest first
    double width;
    double clamp; // m, inactive length at the axle, taken off every leaf whole
    double modulus;
    double tip_share = 1;      // width at a narrowed tip over the full width, 0 (a point) to 1
    double friction = 0;       // Coulomb's coefficient between leaves
    std::vector<double> clips; // m, from the middle of the spring, both halves alike
    double clip_play = kSnug;  // m, by which the leaves in a clip may stand apart together
};

// A leaf counts as full length when it is as long as the longest to within this, m.
inline constexpr double kFullLengthWithin = 0.0005;

// From the edge of the clamp to the leaf's tip.
double working_length(const Pack& pack, const Leaf& leaf);

// E I of a leaf at a distance from the clamp's edge: b t³/12 of the width it has there.
double bending_stiffness(const Pack& pack, const Leaf& leaf, double at);

// Curvature of every leaf's hollow face, those left open made to fit the convex face above:
// R below = R above + thickness above. Without any, all are flat.
std::vector<double> free_curvatures(const Pack& pack);

// How much more sharply each leaf but the first is curved than the face it lies on, 1/m; one
// element less than leaves. Positive: nip, the tips touch first.
std::vector<double> nips(const Pack& pack);

// The gap where two free leaves laid on each other stand apart, from the nip's curvature: at the
// middle when positive (tips touch), at the tips when negative. l²/2 x curvature, l half the
// whole length of the shorter leaf.
double free_gap(double half_length, double nip_curvature);

// Curvature of an arc of this length that rises this high over its chord: h = (1 - cos(k l/2))/k.
// Precondition: |rise| < length / 4.
double curvature_from_rise(double rise, double length);

// h = (1 - cos(k l/2))/k.
double rise_of_arc(double curvature, double length);

// What the textbook makes of a pack, each leaf counted with its own thickness cubed.
struct BookView {
    double half_length; // m, of the longest leaf without the clamp
    int full;
    int graduated;
    double sum;                 // S = sum 3t³ (full) + sum 2t³ (graduated), m³
    double rate;                // N/m at the axle: E b S/(6L³)
    std::vector<double> stress; // Pa: 18FLt/(bS) full, 12FLt/(bS) graduated, F half the load
};

// `spare`: how many of the leaves of full length are counted with the graduated ones (books that
// count the master there: 1). Preconditions: at least one leaf, every leaf longer than the clamp.
// Source: Khurmi & Gupta, Machine Design, ch. 23.
BookView book_view(const Pack& pack, double load, int spare = 0);

// Rate at the axle if all leaves bent alike wherever they lie on each other: a stepped beam with
// the sum of their E I. No leaf can lift off, so no pack without friction is stiffer. N/m.
double common_curvature_rate(const Pack& pack);

// Natural frequency of the load itself bouncing on the spring, Hz: sqrt(k g / W) / 2 pi.
double bounce_frequency(double rate, double load);

} // namespace fettle::spring
