// The sheet thread.repair in words: a stripped hole, the way chosen to mend it, what to drill and
// tap, what it then holds, and the other ways beside it.
//
// SI units; knows no sink and no host.
#pragma once

#include "screw_threads/picture.h"
#include "thread/repair.h"

namespace fettle::thread {

struct RepairTyped {
    JoinedTyped joined;
    std::string way;
    std::optional<double> length, hole_now, edge, bush_od; // m
    std::string drills;
    std::optional<double> share; // of full thread
};

struct WayRow {
    std::string name, tap, drill_name, verdict;
    double drill, share, wall, strip, needed;
};

struct RepairAnswer {
    std::string drill_name, tap, thread_after;
    double drill = 0, share = 0, tap_major = 0, wall = 0, needed = 0; // m, share
    double strip_before = 0, strip = 0, bolt_breaks = 0;              // N
    std::vector<WayRow> ways;
    screw::Picture section{"section", {}, {}};
    plugin::Account account;
};

plugin::Outcome<RepairAnswer> work_repair(const RepairTyped& typed);

// The hole as torn and as mended, to scale.
void draw_repair(const Hole& hole, const Way& way, RepairAnswer& answer);

} // namespace fettle::thread
