#include "screw_threads/words.h"
#include "thread/profile.h"
#include "thread/repair_sheet.h"

#include <algorithm>

namespace fettle::thread {

void draw_repair(const Hole& hole, const Way& way, RepairAnswer& answer) {
    screw::Picture& picture = answer.section;
    // On the near side the part ends at its edge, on the other it goes on; a drawing needs an end.
    const double edge = std::max(hole.edge, 0.51 * way.tapped.diameter);
    picture.traces.push_back(
        {hole.joined.into.name, FETTLE_BODY, tapped_half(way.tapped, hole.length, edge)});
    picture.traces.push_back(
        {"", FETTLE_BODY, tapped_half(way.tapped, hole.length, -1.2 * way.tapped.diameter)});
    if (way.name == kInsert || way.name == kBush) {
        for (const bool above : {true, false}) {
            picture.traces.push_back({above ? way.name : "", FETTLE_BODY,
                                      ring_half(way.tapped, way.bolt, hole.length, above)});
        }
    }
    for (const double side : {0.5, -0.5}) {
        picture.traces.push_back(
            {side > 0 ? "hole as torn" : "",
             FETTLE_DASHED,
             {{0, side * hole.hole_now}, {hole.length, side * hole.hole_now}}});
    }
    picture.labels.push_back({{0, 0}, way.bolt.name});
    picture.labels.push_back({{0, edge}, plugin::line("wall ", screw::mm(way.wall, 2))});
}

} // namespace fettle::thread
