// Screw threads: form, diameter and pitch, and the measures that follow from the basic profile.
//
// SI units. Basic (nominal) sizes throughout; limits.h knows tolerances, designation.h reads what
// was stamped, series.h lists the standard series. Knows no grade and no host.
#pragma once

#include <string>

namespace fettle::screw {

enum class Form { unified, metric, whitworth, british_association, cycle };

struct Thread {
    std::string name; // as it is written properly: "5/16-24 UNF", "M10x1.5", "2BA"
    Form form;
    double diameter;          // m, nominal major
    double pitch;             // m
    bool standard = true;     // a size of a published series
    bool of_diameter = false; // UNC and UNF: the length of engagement behind the tolerances is one
                              // diameter; nine pitches in the constant-pitch series
};

// Half the angle of the thread form, rad: 30° UN, metric and cycle, 27.5° Whitworth, 23.75° BA.
double flank_angle(Form form);

double pitch_diameter(const Thread& thread);     // of the basic profile, m
double nut_minor_diameter(const Thread& thread); // basic minor diameter of the internal thread, m
double core_diameter(const Thread& thread);      // root of the external thread, m

// Tensile stress area, m²: UN 0.7854(D - 0.9743/n)² (ASME B1.1), metric (pi/4)(d - 0.9382P)²
// (ISO 898-1); Whitworth, BA and cycle by the same rule, the mean of pitch and minor diameter.
double stress_area(const Thread& thread);

// How many pitches the diameter of the stress area lies inside the major diameter.
double stress_depth(Form form);

// The sharp triangle on which the form stands, in pitches: H = 1/(2 tan a).
double sharp_height(Form form);

// Depth of the external thread, in pitches: 0.6134 UN and metric, 0.6403 Whitworth, 0.6 BA, 0.5327
// cycle.
double thread_depth(Form form);

// Radius at crest and root of the rounded forms, in pitches: r (1/sin a - 1) = (H - depth)/2. 0 for
// UN and metric, whose crests are flat.
double crest_radius(Form form);

// How many pitches of diameter make the full thread that drills are judged by: 1.299038 UN and
// metric, 1.280654 Whitworth, 1.2 BA, 1.0654 cycle.
double full_depth(Form form);

const char* form_name(Form form); // "Whitworth, 55°"

} // namespace fettle::screw
