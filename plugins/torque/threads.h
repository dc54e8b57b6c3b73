// Screw threads by their designation: what was stamped on the bolt or stands on the drawing, read
// into diameter, pitch and form, and the few measures that tightening needs.
//
// SI units. Basic (nominal) sizes throughout, no tolerance classes. Knows no grade and no host.
#pragma once

#include "describe.hpp"

#include <string>
#include <string_view>

namespace fettle::torque {

enum class Form { unified, metric, whitworth, british_association };

struct Thread {
    std::string name; // as it is written properly: "5/16-24 UNF", "M10x1.5", "2BA"
    Form form;
    double diameter; // m, nominal major
    double pitch;    // m
};

// Reads `5/16-24 UNF`, `1/4-20 UNC`, `#10-32`, `3/8 BSF`, `1/2-12 BSW`, `M10x1.5`, `M8`, `2BA`.
// Without a series an inch thread is taken only if one series alone has that pitch; otherwise the
// refusal (field "thread") names the candidates. Tolerance classes (-2A, -6g) are passed over.
plugin::Outcome<Thread> read_thread(std::string_view designation);

// Half the angle of the thread form, rad: 30° UN and metric, 27.5° Whitworth, 23.75° BA.
double flank_angle(Form form);

double pitch_diameter(const Thread& thread); // of the basic profile, m

// Tensile stress area, m²: UN 0.7854(D - 0.9743/n)² (ASME B1.1), metric (pi/4)(d - 0.9382P)²
// (ISO 898-1); Whitworth and BA by the same rule, the mean of pitch and minor diameter.
double stress_area(const Thread& thread);

const char* form_name(Form form);

} // namespace fettle::torque
