// Press fits of two cylinders by Lamé, unequal materials allowed; heat that opens or closes a fit.
// Plain functions, SI units. Interference is always diametral: textbooks that take it radial show
// the same formula without the factor 2 in front, and mixing both doubles the pressure.
//
// Sources: Lamé in Shigley, Mechanical Engineering Design, section 3-16 (thick cylinders, press
// fits); loss by smoothing DIN 7190 (from memory).
#pragma once

namespace fettle::fit {

struct Ring {     // a cylinder that touches the other part at the fit
    double other; // m: diameter of its other surface; 0 for a solid shaft
    double modulus;
    double poisson;
};

// Radial compliances at the fit, 1/Pa: diametral interference = d p (hub + shaft).
double hub_compliance(const Ring& hub, double diameter);
double shaft_compliance(const Ring& shaft, double diameter);

double press_pressure(double interference, double diameter, const Ring& hub, const Ring& shaft);

double hub_hoop(double pressure, double diameter, const Ring& hub);     // at its bore, tension
double shaft_hoop(double pressure, double diameter, const Ring& shaft); // at the worst, negative

// Von Mises at the bore of the hub, and at the inside of a hollow shaft or anywhere in a solid one.
double hub_equivalent(double pressure, double diameter, const Ring& hub);
double shaft_equivalent(double pressure, double diameter, const Ring& shaft);

// How much less the bore of a hollow shaft (a bush) measures, and more the outside of the hub.
double close_in(double pressure, double diameter, const Ring& shaft);
double outside_growth(double pressure, double diameter, const Ring& hub);

double push_force(double pressure, double diameter, double length, double friction);
double slip_torque(double pressure, double diameter, double length, double friction);

// Interference lost as the peaks of both surfaces are smoothed: 0.8 (Rz hub + Rz shaft).
double smoothing(double hub_rz, double shaft_rz);

} // namespace fettle::fit
