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
    std::ranges::stable_sort(all, {}, &Match::misfit);
    if (readings.met.empty() || all[0].misfit > kFits) return all;
    const auto as_good = [&](const Match& each) {
        return each.known.met == readings.met && each.misfit <= all[0].misfit + kTie;
    };
    const auto hinted = std::ranges::find_if(all, as_good);
    if (hinted != all.end()) std::rotate(all.begin(), hinted, hinted + 1);
    return all;
}

} // namespace fettle::thread
