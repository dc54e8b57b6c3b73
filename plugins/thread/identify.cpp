#include "thread/identify.h"

#include "screw_threads/limits.h"
#include "screw_threads/words.h"

#include <algorithm>
#include <cmath>

namespace fettle::thread {
namespace {

// Where tolerances are not held (BA, cycle): a tenth of the pitch off the bolt, of the order of the
// others. Holes are often drilled larger than the standard has it: a fifth of the pitch.
constexpr double kBoltShare = 0.1;
constexpr double kHoleShare = 0.2;

// How far a sound thread may lie on the worn side of its basic size, m.
double made_off(const Known& known, bool hole) {
    const screw::ThreadLimits limits = screw::limits_of(known.thread);
    const double pitch = known.thread.pitch;
    if (hole)
        return std::max(limits.nut_minor - screw::nut_minor_diameter(known.thread),
                        kHoleShare * pitch);
    return std::max(known.thread.diameter - limits.bolt_major, kBoltShare * pitch);
}

Match match(const Readings& readings, const Known& known) {
    Match found{known, 0, 0, 0, 0, 0, 0, 0, 0, 0};
    found.basic = readings.hole ? screw::nut_minor_diameter(known.thread) : known.thread.diameter;
    found.diameter_off = readings.diameter - found.basic;
    const bool worn_side = (found.diameter_off < 0) != readings.hole;
    found.room = readings.diameter_doubt;
    if (worn_side) found.room += made_off(known, readings.hole) + readings.wear + known.taper;
    found.by_diameter = std::abs(found.diameter_off) / found.room;
    found.pitch_off = readings.pitch / known.thread.pitch - 1;
    found.by_pitch = std::abs(found.pitch_off) / readings.pitch_doubt;
    if (readings.angle) {
        found.angle_off = *readings.angle - 2 * screw::flank_angle(known.thread.form);
        found.by_angle = std::abs(found.angle_off) / (kAngleDoubt * screw::kPi / 180);
    }
    found.misfit = std::hypot(found.by_diameter, found.by_pitch, found.by_angle);
    return found;
}

} // namespace

std::vector<Match> rank(const Readings& readings) {
    std::vector<Match> all;
    for (const Known& known : catalogue())
        all.push_back(match(readings, known));
    // Misfits equal to a thousandth are equal: the hint decides, then the order of the catalogue.
    const auto step = [](const Match& each) {
        return std::round(std::min(each.misfit, 1e9) * 1e3);
    };
    std::ranges::stable_sort(all, [&](const Match& a, const Match& b) {
        if (step(a) != step(b)) return step(a) < step(b);
        return a.known.met == readings.met && b.known.met != readings.met;
    });
    return all;
}

} // namespace fettle::thread
