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

// T = F(P/(2 pi) + d2 mu_thread/(2 cos alpha) + mu_head Dkm/2) + Tp, Dkm = (bearing_od + hole)/2
// and Tp what a prevailing-torque nut takes without any preload. VDI 2230; for 60° threads it
// prints the constants as 0.16 and 0.58. Newton metres.
double torque_for(const Thread& thread, double preload, Friction friction, Seat seat,
                  double prevailing = 0);

// The same solved for the preload; 0 when the torque is spent on the prevailing torque.
double preload_for(const Thread& thread, double torque, Friction friction, Seat seat,
                   double prevailing = 0);

// The power screw with the lead angle kept in the friction, and a collar: Shigley eq. 8-26,
// F [dm/2 (tan l + f sec a)/(1 - f tan l sec a) + fc dc/2], dm the pitch diameter. A few in a
// thousand above the equation of VDI 2230.
double power_screw_torque(const Thread& thread, double preload, Friction friction,
                          double collar_diameter);

// Tension and torsion while tightening, together as one tensile stress (von Mises), over the stress
// area: sqrt(s² + 3 t²), s = F/A, t = 12 T/(pi d0³) with the torque of thread and nut. VDI 2230
// prints it, without a prevailing torque, as
// F/A sqrt(1 + 3[(3/2)(d2/d0)(P/(pi d2) + mu_thread/cos alpha)]²). Pa.
double combined_stress(const Thread& thread, double preload, double mu_thread,
                       double prevailing = 0);

// The preload at which combined_stress is this share of the yield (VDI 2230 takes 0.9).
double preload_at_yield(const Thread& thread, double yield, double share, double mu_thread);

// T = K D F.
double torque_by_nut_factor(double factor, double diameter, double preload);

// F over the ring under the head, Pa.
double head_pressure(double preload, Seat seat);

// What to set on a wrench of length `wrench` (drive to middle of the hand) when an adapter moves
// the bolt `adapter` further out at `angle` to the handle: Y = T L/(L + E cos angle). 0: in line;
// a right angle leaves the setting as it is. Precondition: wrench + adapter cos angle > 0.
double wrench_setting(double torque, double wrench, double adapter, double angle);

} // namespace fettle::torque
