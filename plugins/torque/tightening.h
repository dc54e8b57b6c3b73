// Torque and preload: the arithmetic of tightening a bolt. SI units, pure functions.
#pragma once

#include "torque/threads.h"

namespace fettle::torque {

struct Friction {
    double thread; // coefficients
    double head;
};

struct Seat {          // the ring that turns on the part: under head or nut
    double bearing_od; // m
    double hole;       // m
};

// T = F(P/(2 pi) + d2 mu_thread/(2 cos alpha) + mu_head Dkm/2), Dkm = (bearing_od + hole)/2.
// VDI 2230; for 60° threads it prints the constants as 0.16 and 0.58. Newton metres.
double torque_for(const Thread& thread, double preload, Friction friction, Seat seat);

// The same solved for the preload.
double preload_for(const Thread& thread, double torque, Friction friction, Seat seat);

// Tension and torsion while tightening, together as one tensile stress (von Mises), over the stress
// area: F/A sqrt(1 + 3[(3/2)(d2/d0)(P/(pi d2) + mu_thread/cos alpha)]²). VDI 2230, Pa.
double combined_stress(const Thread& thread, double preload, double mu_thread);

// The preload at which combined_stress is this share of the yield (VDI 2230 takes 0.9).
double preload_at_yield(const Thread& thread, double yield, double share, double mu_thread);

// T = K D F.
double torque_by_nut_factor(double factor, double diameter, double preload);

// What to set on a wrench of length `wrench` (drive to middle of the hand) when an adapter moves
// the bolt `adapter` further out at `angle` to the handle: Y = T L/(L + E cos angle). 0: in line;
// a right angle leaves the setting as it is. Precondition: wrench + adapter cos angle > 0.
double wrench_setting(double torque, double wrench, double adapter, double angle);

} // namespace fettle::torque
