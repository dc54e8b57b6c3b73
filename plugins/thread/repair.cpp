#include "thread/repair.h"

#include "screw_threads/words.h"
#include "thread/catalogue.h"

#include <algorithm>
#include <cmath>

namespace fettle::thread {
namespace {

using screw::Thread;
using screw::ThreadLimits;

constexpr double kBushInDiameters = 1.5;
constexpr double kAnyShare = 0.05;   // of full thread, below which nothing is left to cut
constexpr double kBushSteel = 340e6; // Pa, S235 as in kPartMaterials

// Of the part's thread alone, N.
double part_strips(const Thread& tapped, const Hole& hole) {
    return 0.5 * screw::nut_strip_area(tapped, screw::limits_of(tapped), hole.length) *
           hole.joined.into_tensile;
}

// Of the thread on a bolt in a sound nut or insert, N.
double bolt_strips(const Thread& bolt, const Hole& hole) {
    return 0.5 * screw::bolt_strip_area(bolt, screw::limits_of(bolt), hole.length) *
           hole.joined.bolt_tensile;
}

// A bolt straight in the part, whose crests are drilled or torn away up to `bore`: beyond the
// standard's greatest bore it holds in proportion to the thread that is left.
double direct_strips(const Thread& thread, const Hole& hole, double bore) {
    ThreadLimits limits = screw::limits_of(thread);
    const double left = thread_share(thread, bore) / thread_share(thread, limits.nut_minor);
    limits.nut_minor = std::max(limits.nut_minor, bore);
    const double strip = screw::strip_load(thread, limits, hole.length, hole.joined.bolt_tensile,
                                           hole.joined.into_tensile);
    return strip * std::clamp(left, 0.0, 1.0);
}

Thread bush_outside(const Hole& hole) {
    Thread outside = hole.joined.thread;
    outside.diameter = hole.bush_od.value_or(kBushInDiameters * outside.diameter);
    outside.standard = false;
    outside.of_diameter = false;
    outside.name = plugin::line("bush outside ", screw::mm(outside.diameter, 3),
                                " at the pitch of ", hole.joined.thread.name);
    return outside;
}

void finish(const Hole& hole, Way& way) {
    const double drilled = std::max(way.drill.diameter, hole.hole_now);
    way.drills = way.drill.diameter > hole.hole_now;
    way.share = thread_share(way.tapped, drilled);
    way.wall = hole.edge - way.tapped.diameter / 2;
    const double breaks = breaking_load(way.bolt, hole.joined.bolt_tensile);
    way.needed = hole.length * breaks / std::max(way.strip, 1e-3 * breaks);
}

Way with_insert(const Hole& hole) {
    const Thread& thread = hole.joined.thread;
    Way way{kInsert, insert_tap(thread), thread, {}, 0, 0, 0, 0, 0, true};
    way.drill = hole.share ? tapping_drill(way.tapped, hole.drills, hole.share)
                           : insert_drill(way.tapped, hole.drills);
    way.strip = std::min(part_strips(way.tapped, hole), bolt_strips(thread, hole));
    return way;
}

Way with_bush(const Hole& hole) {
    const Thread& thread = hole.joined.thread;
    Way way{kBush, bush_outside(hole), thread, {}, 0, 0, 0, 0, 0, true};
    way.drill = tapping_drill(way.tapped, hole.drills, hole.share);
    way.ring = (screw::core_diameter(way.tapped) - thread.diameter) / 2;
    const double inside =
        0.5 * screw::nut_strip_area(thread, screw::limits_of(thread), hole.length) * kBushSteel;
    way.strip = std::min({part_strips(way.tapped, hole), bolt_strips(thread, hole), inside});
    return way;
}

Way tapped_straight(const Hole& hole, const char* name, const Thread& thread) {
    Way way{name, thread, thread, {}, 0, 0, 0, 0, 0, true};
    way.drill = tapping_drill(thread, hole.drills, hole.share);
    way.strip = direct_strips(thread, hole, std::max(way.drill.diameter, hole.hole_now));
    return way;
}

} // namespace

Thread insert_tap(const Thread& thread) {
    Thread tap = thread;
    tap.diameter += screw::full_depth(thread.form) * thread.pitch;
    tap.standard = false;
    tap.name = thread.form == screw::Form::metric ? plugin::line("EG ", thread.name)
                                                  : plugin::line("insert tap for ", thread.name);
    return tap;
}

Drill insert_drill(const Thread& tap, std::string_view set) {
    const double least = screw::nut_minor_diameter(tap);
    const bool flat = screw::crest_radius(tap.form) == 0;
    const double wanted = flat ? least + 0.075 * tap.pitch : hole_for(tap, usual_share(tap.form));
    return drill_between(set, least, wanted, least + (flat ? 0.25 : 0.35) * tap.pitch);
}

std::optional<Thread> next_thread_up(const Thread& thread, double hole_now) {
    const std::vector<Known> all = catalogue();
    const auto own = std::ranges::find_if(
        all, [&](const Known& known) { return known.thread.name == thread.name; });
    const std::string_view series = own == all.end() ? "" : own->series;
    const Known* next = nullptr;
    for (const Known& known : all) {
        const Thread& each = known.thread;
        const bool alike =
            series.empty() ? known.fastens && each.form == thread.form : series == known.series;
        if (!alike || each.diameter < thread.diameter + 1e-6) continue;
        if (thread_share(each, hole_now) < kGoodShare) continue;
        const bool nearer =
            next == nullptr || each.diameter < next->thread.diameter - 1e-6 ||
            (std::abs(each.diameter - next->thread.diameter) < 1e-6 &&
             std::abs(each.pitch - thread.pitch) < std::abs(next->thread.pitch - thread.pitch));
        if (nearer) next = &known;
    }
    if (next == nullptr) return std::nullopt;
    return next->thread;
}

std::optional<Way> work_way(const Hole& hole, std::string_view name) {
    std::optional<Way> way;
    if (name == kRetap) way = tapped_straight(hole, kRetap, hole.joined.thread);
    if (name == kInsert) way = with_insert(hole);
    if (name == kBush) way = with_bush(hole);
    if (name == kNext) {
        if (const auto next = next_thread_up(hole.joined.thread, hole.hole_now))
            way = tapped_straight(hole, kNext, *next);
    }
    if (!way) return std::nullopt;
    finish(hole, *way);
    if (way->share < kAnyShare) return std::nullopt;
    return way;
}

double sound_strip_load(const Hole& hole) {
    const Thread& thread = hole.joined.thread;
    return screw::strip_load(thread, screw::limits_of(thread), hole.length,
                             hole.joined.bolt_tensile, hole.joined.into_tensile);
}

double least_wall(const screw::PartMaterial& material) {
    return std::string_view(material.name) == "steel" ? 0.25 : 0.4;
}

} // namespace fettle::thread
