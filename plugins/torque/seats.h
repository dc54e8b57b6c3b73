// What a bolt bears on and slides on when nothing was measured: the usual head and clearance hole
// of a size, and friction by the state of the surface.
#pragma once

#include "torque/grades.h"
#include "torque/threads.h"
#include "torque/tightening.h"

#include <array>
#include <optional>
#include <string_view>

namespace fettle::torque {

struct UsualSeat {
    Seat seat;
    const char* source; // where head and hole come from, for the working
};

// Hexagon heads by the standard of the thread's form; socket heads for ASTM A574.
UsualSeat usual_seat(const Thread& thread, const Grade& grade);

struct Surface {
    const char* name;
    double least; // coefficient of friction, thread and head alike
    double greatest;
    const char* friction_class; // VDI 2230, table A5
};

inline constexpr std::array<Surface, 4> kSurfaces = {{{"oiled", 0.08, 0.16, "B"},
                                                      {"dry as delivered", 0.14, 0.24, "C"},
                                                      {"dry and rough", 0.20, 0.35, "D"},
                                                      {"moly paste or wax", 0.04, 0.10, "A"}}};

std::optional<Surface> surface_named(std::string_view name);

} // namespace fettle::torque
