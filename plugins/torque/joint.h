// A bolted joint under a pull along the bolt: how the load shares between bolt and parts, and when
// the parts come apart. SI units, pure functions. Shigley, Mechanical Engineering Design, 9th ed.,
// sections 8-4 to 8-9.
#pragma once

#include "torque/threads.h"

namespace fettle::torque {

inline constexpr double kSteelModulus = 207e9; // Pa, Shigley table 8-8

// Eq. 8-17: kb = Ad At E/(Ad lt + At ld), with `plain` of the grip as unthreaded shank. N/m.
double bolt_stiffness(const Thread& thread, double grip, double plain, double modulus);

// Eq. 8-22: km = 0.5774 pi E d/(2 ln(5 (0.5774 l + 0.5 d)/(0.5774 l + 2.5 d))), a cone under a head
// of 1.5 d through parts of one material. N/m.
double parts_stiffness(double diameter, double grip, double modulus);

// C = kb/(kb + km): the share of an outer load that the bolt feels.
double load_share(double bolt, double parts);

// Eq. 8-24: Fb = C P + Fi, over the stress area.
double service_stress(double share, double outer_load, double preload, double area);

// Eq. 8-30: the outer load at which the parts lose touch, Fi/(1 - C). Precondition: C < 1.
double separation_load(double share, double preload);

} // namespace fettle::torque
