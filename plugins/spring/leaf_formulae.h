// The textbook formulae for laminated springs, one function each.
//
// The books speak of HALF the spring: half the central load (the load at one eye) and half the
// effective length; a quarter-elliptic spring is that half. All leaves have one thickness. "Full"
// counts the leaves as long as the longest, the master among them; "graduated" counts the rest.
// (Some books count the master with the graduated leaves; the same pack then has other counts.)
// SI units throughout. Source: Khurmi & Gupta, Machine Design, ch. 23; Shigley; Bhandari, ch. 10.
#pragma once

namespace fettle::spring {

struct BookPack {
    double half_load;   // N, at one eye
    double half_length; // m, effective
    double width;       // m
    double thickness;   // m, of every leaf
    int full;           // leaves of full length, master included
    int graduated;
};

// 18FL/(b t²(3nf + 2ng)): the full-length leaves of a pack without nip. Precondition: full > 0.
double full_leaf_stress(const BookPack& pack);

// 12FL/(b t²(3nf + 2ng)): the graduated leaves of a pack without nip, two thirds of the above.
double graduated_leaf_stress(const BookPack& pack);

// 6FL/(n b t²): every leaf of a pack nipped so that all are stressed alike at this load.
double equalised_stress(const BookPack& pack);

// 12FL³/(E b t³(3nf + 2ng)), with or without nip.
double deflection(const BookPack& pack, double modulus);

// Twice the half load over the deflection: E b t³(3nf + 2ng)/(6L³).
double rate(const BookPack& pack, double modulus);

// 2FL³/(n E b t³): gap between full-length and graduated leaves that equalises the stresses.
double nip(const BookPack& pack, double modulus);

// 2 nf ng F/(n(3nf + 2ng)): load on the band that closes that gap.
double closing_load(const BookPack& pack);

// What thickness must be when the width is so many thicknesses, from full_leaf_stress = limit ...
double thickness_without_nip(const BookPack& pack, double limit, double width_per_thickness);

// ... and from equalised_stress = limit. The pack's own width and thickness are not read.
double thickness_with_nip(const BookPack& pack, double limit, double width_per_thickness);

// The same at the pack's own width.
double thickness_with_nip(const BookPack& pack, double limit);

// stress L²/(E deflection): the one thickness that gives both, all leaves stressed alike.
double thickness_for_deflection(double half_length, double stress, double deflection,
                                double modulus);

} // namespace fettle::spring
