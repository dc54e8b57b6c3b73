#include "shim/trial_step.h"

#include <algorithm>
#include <cmath>

namespace fettle::shim {
namespace {

using plugin::line;

// Common practice, no source.
constexpr double kGreatestStep = 10 * kThou; // of the pinion shim
constexpr double kPreloadStep = 2 * kThou;   // of both carrier stacks together
constexpr double kSameDepth = 2 * kThou;     // a pattern's place there still tells something
constexpr double kLeastRoom = 0.5 * kThou;   // of backlash, to aim into
constexpr double kDust = 1e-9;

// What the pattern asks of the pinion: by its height, and where that is centred by where it bears
// along the tooth. The coast side may lie a little to the toe (web guide, seen), but at the heel,
// with the drive side centred, it says that the pinion stands a little too near.
std::optional<int> pinion_need(const Trial& trial) {
    const auto need = need_by_height(trial);
    if (!need || *need != 0) return need;
    if (trial.drive_along == Along::centre && trial.coast_along == Along::heel) return -1;
    return need_by_crossing(trial);
}

class Adviser {
  public:
    Adviser(const std::vector<Trial>& trials, const Aims& aims)
        : trials_(trials), aims_(aims), now_(trials.back()) {
        step_ = {Work::look, now_.pinion, now_.left, now_.right, now_.backlash, ""};
    }

    Step advise() {
        const int need = pinion_need(now_).value_or(0);
        if (now_.variation > aims_.variation + kDust ||
            now_.runout.value_or(0) > aims_.runout + kDust) {
            true_up();
        } else if (aims_.torque && now_.torque && !aims_.torque->holds(*now_.torque)) {
            set_preload();
        } else if (need != 0) {
            move_pinion(need);
        } else if (!aims_.backlash.holds(now_.backlash)) {
            set_backlash(line("Backlash ", both(now_.backlash), " is outside the ",
                              both(aims_.backlash), " wanted."));
        } else if (now_.drive_along == Along::toe || now_.drive_along == Along::heel) {
            shift_along();
        } else {
            finish();
        }
        return step_;
    }

  private:
    void true_up() {
        step_.work = Work::true_up;
        const bool uneven = now_.variation > aims_.variation + kDust;
        step_.words =
            line(uneven ? line("Backlash varies by ", both(now_.variation),
                               " over the teeth; permitted ", both(aims_.variation), ".")
                        : line("The ring gear runs out by ", both(now_.runout.value_or(0)),
                               "; permitted ", both(aims_.runout), "."),
                 " No shim cures that. Leave the shims: take the ring gear off, clean its seat, "
                 "look for "
                 "burrs, a bent flange and bearings not home, draw its bolts down evenly, then try "
                 "again.");
    }

    void set_preload() {
        const bool slack = *now_.torque < aims_.torque->low;
        const double each = (slack ? 1 : -1) * kPreloadStep / 2;
        step_.work = Work::preload;
        step_.left += each;
        step_.right += each;
        step_.words =
            line("It turns with ", both_torque(*now_.torque), ", wanted ",
                 both_torque(aims_.torque->low), " to ", both_torque(aims_.torque->high), ": ",
                 slack ? "add " : "take away ", both(kPreloadStep / 2),
                 " of shim on each side of the carrier. Pattern and backlash stay, for "
                 "both sides change alike. The pinion's own preload must be right first.");
        withhold_below_nothing();
    }

    double pinion_step(int need) const {
        const double here = depth(now_, aims_);
        std::optional<double> other_side; // the nearest depth that asked the opposite
        bool again = false;               // the trial before asked the same and was followed
        for (std::size_t i = 0; i + 1 < trials_.size(); ++i) {
            const double there = depth(trials_[i], aims_);
            const int asked = pinion_need(trials_[i]).value_or(0);
            const bool beyond = need * (there - here) > kDust;
            if (asked == -need && beyond &&
                (!other_side || std::fabs(there - here) < std::fabs(*other_side - here)))
                other_side = there;
            if (i + 2 == trials_.size()) again = asked == need && need * (here - there) > kDust;
        }
        if (other_side) return std::fabs(*other_side - here) / 2;
        const bool by_height = need_by_height(now_).value_or(0) != 0;
        const double first = by_height ? aims_.first_step : aims_.first_step / 2;
        return std::min(again ? 2 * first : first, std::max(first, kGreatestStep));
    }

    void move_pinion(int need) {
        const double by = pinion_step(need);
        step_.work = Work::pinion;
        step_.pinion += need * aims_.pinion_sense * by;
        step_.backlash -= need * aims_.factor.pinion * by;
        const bool high = need > 0;
        step_.words =
            line("Pinion shim from ", both(now_.pinion), " to ", both(step_.pinion),
                 ": the pinion goes ", both(by),
                 high ? " nearer the ring gear" : " away from the ring gear", ", the pattern goes ",
                 high ? "down toward the flank" : "up toward the face",
                 " on both sides (on the drive side a little to the ", high ? "toe" : "heel",
                 "), and backlash ", high ? "shrinks" : "grows", " by about ",
                 both(aims_.factor.pinion * by), ".");
        if (step_.pinion < -kDust) {
            step_ = {Work::judge, now_.pinion, now_.left, now_.right, now_.backlash, ""};
            step_.words = line("The pattern asks the pinion ", both(by), high ? " nearer" : " away",
                               ", but the shim of ", both(now_.pinion),
                               " is too thin for that. A "
                               "part does not belong to the others, or is not home.");
        } else if (!aims_.backlash.holds(step_.backlash)) {
            const double aim = backlash_aim().value_or(aims_.backlash.middle());
            step_.words += " The ring gear follows, so that the pattern is read at the backlash "
                           "wanted: ";
            move_ring(aim);
        } else {
            step_.words += " The carrier shims stay.";
        }
    }

    // Where in the range to set backlash: between what the toe and what the heel asked for.
    std::optional<double> backlash_aim() const {
        double low = aims_.backlash.low;
        double high = aims_.backlash.high;
        for (const Trial& trial : trials_) {
            if (std::fabs(aims_.pinion_sense * step_.pinion - depth(trial, aims_)) > kSameDepth)
                continue;
            if (trial.drive_along == Along::toe) low = std::max(low, trial.backlash);
            if (trial.drive_along == Along::heel) high = std::min(high, trial.backlash);
        }
        if (high - low < std::min(kLeastRoom, aims_.backlash.high - aims_.backlash.low))
            return std::nullopt;
        return (low + high) / 2;
    }

    // Shim from one side to the other until backlash, as expected so far, comes to `aim`.
    void move_ring(double aim) {
        const double by = (aim - step_.backlash) / aims_.factor.ring; // away
        step_.left += aims_.ring_on_right ? by : -by;
        step_.right += aims_.ring_on_right ? -by : by;
        const char* from = (by > 0) == aims_.ring_on_right ? kSides[1] : kSides[0];
        const char* to = from == kSides[0] ? kSides[1] : kSides[0];
        step_.words +=
            line(both(std::fabs(by)), " of shim from the ", from, " to the ", to,
                 " side, the total staying, takes the ring gear ", by > 0 ? "away from" : "toward",
                 " the pinion; backlash comes to about ", both(aim),
                 ", the pattern moves a little to the ", by > 0 ? "heel." : "toe.");
        step_.backlash = aim;
        withhold_below_nothing();
    }

    void set_backlash(const std::string& why) {
        step_.work = Work::carrier;
        step_.words = line(why, " The pinion stays: ");
        move_ring(backlash_aim().value_or(aims_.backlash.middle()));
    }

    void shift_along() {
        const auto aim = backlash_aim();
        const std::string place = now_.drive_along == Along::toe ? "toe" : "heel";
        if (aim) {
            set_backlash(line("Height is right and backlash is in its range, but the drive side "
                              "bears at the ",
                              place, "."));
            return;
        }
        step_.work = Work::judge;
        step_.words =
            line("The drive side bears at the ", place, ", and no backlash within the ",
                 both(aims_.backlash),
                 " permitted is left to try. Leave the shims: the "
                 "gears may be worn or may not belong together. Have the pattern judged.");
    }

    void finish() {
        const bool seen = now_.drive_along == Along::centre &&
                          now_.drive_height == Height::centre &&
                          now_.coast_height == Height::centre && now_.coast_along != Along::unseen;
        if (!seen) {
            step_.words = "Backlash is in its range. Leave the shims, paint the teeth and look at "
                          "the pattern on the drive side and on the coast side, height and place.";
            if (now_.drive_height == Height::centre && now_.coast_height != Height::centre &&
                now_.coast_height != Height::unseen) {
                step_.work = Work::judge;
                step_.words = "The drive side is centred, but the coast side is not at mid height. "
                              "No shim mends one without spoiling the other: the gears may be worn "
                              "or may not belong together. Have the pattern judged.";
            }
        } else if (aims_.torque && !now_.torque) {
            step_.words = "Backlash and pattern are right. Leave the shims and measure the turning "
                          "torque: a range for it was typed.";
        } else if (const auto aim = backlash_aim();
                   aim && !every_tooth_within() && std::fabs(*aim - now_.backlash) >= kLeastRoom) {
            set_backlash(line("The pattern is right and the mean of backlash is within the ",
                              both(aims_.backlash), " wanted, but not every tooth is."));
        } else {
            step_.work = Work::reached;
            step_.words = "Leave the shims: everything read is as wanted.";
        }
    }

    // Asked only of a range that has room for the variation permitted.
    bool every_tooth_within() const {
        if (aims_.backlash.high - aims_.backlash.low < aims_.variation) return true;
        return aims_.backlash.holds(now_.backlash - now_.variation / 2) &&
               aims_.backlash.holds(now_.backlash + now_.variation / 2);
    }

    void withhold_below_nothing() {
        const double least = std::min(step_.left, step_.right);
        if (least >= -kDust) return;
        step_ = {Work::judge, now_.pinion, now_.left, now_.right, now_.backlash, ""};
        step_.words = line("One carrier stack would have to be ", both(least),
                           ". A stack is misread, or a part does not belong to the others or is "
                           "not home.");
    }

    const std::vector<Trial>& trials_;
    const Aims& aims_;
    const Trial& now_;
    Step step_;
};

} // namespace

Step next_step(const std::vector<Trial>& trials, const Aims& aims) {
    return Adviser(trials, aims).advise();
}

} // namespace fettle::shim
