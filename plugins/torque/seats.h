// Heads and what they bear on when nothing was measured: bearing diameter, hole and height of the
// usual head of a size. SI units.
#pragma once

#include "screw_threads/grades.h"
#include "torque/threads.h"
#include "torque/tightening.h"

#include <array>
#include <string_view>

namespace fettle::torque {

enum class Head { hexagon, socket };

inline constexpr std::array<const char*, 2> kHeadNames = {"hexagon", "socket cap"};

struct UsualHead {
    Seat seat;
    double across;      // m, outside: across flats, or the diameter of a socket head
    double height;      // m
    const char* source; // where the sizes come from, for the working
};

// Socket heads belong to ASTM A574 and are made in ISO 12.9; everything else is a hexagon.
Head usual_head_kind(const Grade& grade);

UsualHead usual_head(const Thread& thread, Head head);

} // namespace fettle::torque
