// The ways to mend a stripped hole, each worked out: what is drilled and tapped, how much wall and
// thread is left, what it holds. SI units, pure functions.
//
// Wire-thread inserts: the tap for M10 is EG M10 of DIN 8140, major diameter D + 1.299038 P, the
// thread of the hole being moved outwards by one full depth (from memory). For other forms the same
// rule with their own full depth; no standard is held for those.
#pragma once

#include "thread/drills.h"
#include "thread/joined.h"

namespace fettle::thread {

inline constexpr const char* kRetap = "drill and tap again";
inline constexpr const char* kInsert = "wire-thread insert";
inline constexpr const char* kNext = "next thread up";
inline constexpr const char* kBush = "solid bush";
inline constexpr std::array<const char*, 4> kWays = {kRetap, kInsert, kNext, kBush};

// The thread tapped for a wire-thread insert.
screw::Thread insert_tap(const screw::Thread& thread);

// Its drill: a little above the least bore of DIN 8140, which gives the drills of the makers'
// tables; for round forms, whose least bore would leave all of the thread, at the usual share.
Drill insert_drill(const screw::Thread& tap, std::string_view set);

// The next larger thread of the same series that still finds enough metal round a hole of this
// size; of equal diameters the pitch nearest to the old one.
std::optional<screw::Thread> next_thread_up(const screw::Thread& thread, double hole_now);

struct Hole {
    Joined joined;
    double length;   // m, of thread in the hole
    double hole_now; // m, across, where it is most torn
    double edge;     // m, from its middle to the nearest edge or bore
    std::string drills;
    std::optional<double> share;   // of full thread wanted
    std::optional<double> bush_od; // m
};

struct Way {
    std::string name;
    screw::Thread tapped; // cut into the part
    screw::Thread bolt;   // that screws in afterwards
    Drill drill;
    double share;  // of full thread left at the drill, or at the torn hole if that is larger
    double wall;   // m, outside the tapped thread
    double ring;   // m, wall of a solid bush; 0 for the others
    double strip;  // N
    double needed; // m, length at which the bolt breaks before it strips
    bool drills;   // false: the torn hole is larger already, nothing is drilled
};

// Nothing where there is no such thread ("next thread up" of the largest) or the torn hole leaves
// no metal to cut it in.
std::optional<Way> work_way(const Hole& hole, std::string_view way);

// N: what the thread held when it was sound.
double sound_strip_load(const Hole& hole);

// Walls in diameters of the bolt. Common practice, no source.
double least_wall(const screw::PartMaterial& material); // below: do not
inline constexpr double kGoodWall = 0.5;                // below: be careful
inline constexpr double kLeastRing = 0.1;               // of a solid bush

inline constexpr double kLeastShare = 0.5; // of full thread, below: do not
inline constexpr double kGoodShare = 0.65;

} // namespace fettle::thread
