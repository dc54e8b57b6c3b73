#include "shim/trial_doubts.h"

#include <algorithm>
#include <cmath>

namespace fettle::shim {
namespace {

using plugin::figure;
using plugin::line;

// What careful reading and refitting may differ by. Common practice, no source.
constexpr double kReadingDoubt = 1.5 * kThou;
constexpr double kSameShim = 0.2 * kThou;
constexpr double kClearMove = 1 * kThou;  // of the pinion, to shift a pattern visibly
constexpr double kRingStayed = 3 * kThou; // the ring gear moved too little to shift its height
constexpr double kRingMoved = 2 * kThou;
constexpr double kFactorDoubt = 0.5; // of the change expected
constexpr double kRunoutSeen = 0.6;  // of a run-out four teeth show at least, cos 45° and less
constexpr double kTorqueDoubt = 0.1;
constexpr double kLeastTorqueDoubt = kInchPound;

std::string about(double newer) {
    return newer > 0 ? "grew" : "shrank";
}

class Doubts {
  public:
    Doubts(const std::vector<Trial>& trials, const Aims& aims)
        : trials_(trials), aims_(aims), now_(trials.back()) {}

    std::vector<std::string> all() {
        run_out();
        sides();
        pattern_and_backlash();
        compare(&Doubts::backlash_answered);
        compare(&Doubts::height_answered);
        compare(&Doubts::place_answered);
        compare(&Doubts::torque_answered);
        return std::move(found_);
    }

  private:
    // Against every earlier trial, the latest first; one sentence of a kind is enough.
    void compare(bool (Doubts::*answered)(const Trial&, const std::string&)) {
        for (std::size_t i = trials_.size() - 1; i-- > 0;) {
            const std::string name = line("trial ", std::to_string(i + 1), " and this one");
            if (!(this->*answered)(trials_[i], name)) return;
        }
    }

    bool doubt(std::string sentence) {
        found_.push_back(std::move(sentence));
        return false;
    }

    void run_out() {
        if (!now_.runout) return;
        const double explained = aims_.factor.ring * *now_.runout;
        if (now_.variation > explained + kReadingDoubt) {
            doubt(line("Backlash varies by ", both(now_.variation),
                       " over the teeth, but a run-out "
                       "of ",
                       both(*now_.runout), " explains ", both(explained),
                       " only. Run-out or backlash is misread, or the teeth or the pinion's "
                       "bearings are damaged."));
        } else if (kRunoutSeen * explained > now_.variation + kReadingDoubt) {
            doubt(line("A run-out of ", both(*now_.runout), " should make backlash vary by about ",
                       both(explained), ", but the readings vary by ", both(now_.variation),
                       ". Run-out or backlash is misread."));
        }
    }

    void sides() {
        const auto opposite = [](Height a, Height b) {
            return (a == Height::face && b == Height::flank) ||
                   (a == Height::flank && b == Height::face);
        };
        if (opposite(now_.drive_height, now_.coast_height)) {
            const bool drive_high = now_.drive_height == Height::face;
            doubt(line("The drive side bears at the ", drive_high ? "face" : "flank",
                       " and asks the pinion ", drive_high ? "nearer" : "away",
                       "; the coast side bears at the ", drive_high ? "flank" : "face",
                       " and asks the opposite."));
        }
        const int height = need_by_height(now_).value_or(0);
        const int crossing = need_by_crossing(now_);
        if (height * crossing < 0) {
            doubt(line("By its height (", height > 0 ? "face" : "flank",
                       ") the pattern asks the "
                       "pinion ",
                       height > 0 ? "nearer" : "away", ", but along the tooth (drive ",
                       crossing > 0 ? "heel, coast toe" : "toe, coast heel",
                       ") it asks the "
                       "opposite."));
        }
    }

    void pattern_and_backlash() {
        if (need_by_height(now_).value_or(0) != 0 || need_by_crossing(now_) != 0) return;
        const bool too_much = now_.backlash > aims_.backlash.high + kReadingDoubt;
        const bool too_little = now_.backlash < aims_.backlash.low - kReadingDoubt;
        if (now_.drive_along == Along::toe && too_much) {
            doubt(line("The pattern at the toe asks for more backlash, but the ",
                       both(now_.backlash), " read is more than the ", both(aims_.backlash),
                       " wanted already."));
        } else if (now_.drive_along == Along::heel && too_little) {
            doubt(line("The pattern at the heel asks for less backlash, but the ",
                       both(now_.backlash), " read is less than the ", both(aims_.backlash),
                       " wanted already."));
        }
    }

    bool backlash_answered(const Trial& then, const std::string& trials) {
        const double nearer = depth(now_, aims_) - depth(then, aims_);
        const double farther = away(now_, aims_) - away(then, aims_);
        const double by_ring = aims_.factor.ring * farther;
        const double by_pinion = -aims_.factor.pinion * nearer;
        const double expected = by_ring + by_pinion;
        const double read = now_.backlash - then.backlash;
        const double allowed =
            kReadingDoubt + kFactorDoubt * (std::fabs(by_ring) + std::fabs(by_pinion));
        if (std::fabs(read - expected) <= allowed) return true;
        const std::string readings =
            line(" (", both(then.backlash), ", now ", both(now_.backlash), ")");
        if (std::fabs(nearer) < kSameShim && std::fabs(farther) < kSameShim) {
            return doubt(line("Between ", trials, " no shim was moved, but backlash ", about(read),
                              " by ", both(std::fabs(read)), readings, "."));
        }
        const std::string moved =
            line("the ring gear ", both(std::fabs(farther)), farther >= 0 ? " away" : " nearer",
                 ", the pinion ", both(std::fabs(nearer)), nearer >= 0 ? " nearer" : " away");
        if (expected * read < 0) {
            return doubt(line("Between ", trials, " the shims moved ", moved,
                              ", so backlash should have ", expected > 0 ? "grown" : "shrunk",
                              ", but it ", about(read), readings, "."));
        }
        return doubt(line("Between ", trials, " the shims moved ", moved,
                          ", which changes backlash by about ", both(expected),
                          ", but it changed by ", both(read), readings, "."));
    }

    bool height_answered(const Trial& then, const std::string& trials) {
        const auto need_then = need_by_height(then);
        const auto need_now = need_by_height(now_);
        if (!need_then || !need_now || *need_now == *need_then) return true;
        const int jump = *need_now - *need_then; // above 0: it went toward the face
        const double nearer = depth(now_, aims_) - depth(then, aims_);
        const bool ring_stayed = std::fabs(away(now_, aims_) - away(then, aims_)) < kRingStayed;
        const bool full = std::abs(jump) == 2;
        const std::string went = jump > 0 ? "up toward the face" : "down toward the flank";
        if (std::fabs(nearer) < kSameShim) {
            if (!full || !ring_stayed) return true;
            return doubt(line("Between ", trials, " the pinion stayed, but the pattern went ", went,
                              " from one end to the other."));
        }
        const bool clear = full || (std::fabs(nearer) >= kClearMove && ring_stayed);
        if (nearer * jump < 0 || !clear) return true;
        return doubt(line("Between ", trials, " the pinion went ", both(std::fabs(nearer)),
                          nearer > 0 ? " nearer the ring gear" : " away from the ring gear",
                          ", but the pattern went ", went,
                          ". Pattern, shim or the way a thicker "
                          "shim acts is wrong."));
    }

    bool place_answered(const Trial& then, const std::string& trials) {
        if (then.drive_along == Along::unseen || now_.drive_along == Along::unseen) return true;
        if (std::fabs(depth(now_, aims_) - depth(then, aims_)) >= kClearMove) return true;
        const double farther = away(now_, aims_) - away(then, aims_);
        const int shift = static_cast<int>(now_.drive_along) - static_cast<int>(then.drive_along);
        if (std::fabs(farther) < kRingMoved || farther * shift >= 0) return true;
        return doubt(line("Between ", trials, " the ring gear went ", both(std::fabs(farther)),
                          farther > 0 ? " away from" : " toward",
                          " the pinion, but the drive side's "
                          "pattern went to the ",
                          farther > 0 ? "toe" : "heel", ", not to the ",
                          farther > 0 ? "heel" : "toe", "."));
    }

    bool torque_answered(const Trial& then, const std::string& trials) {
        if (!then.torque || !now_.torque) return true;
        if (std::fabs(depth(now_, aims_) - depth(then, aims_)) >= kSameShim) return true;
        const double thicker = now_.total() - then.total();
        const double rise = *now_.torque - *then.torque;
        const double clear = std::max(kLeastTorqueDoubt, kTorqueDoubt * *then.torque);
        if (std::fabs(thicker) < kClearMove || std::fabs(rise) < clear || thicker * rise > 0)
            return true;
        return doubt(line("Between ", trials, " both carrier stacks together ", about(thicker),
                          " by ", both(std::fabs(thicker)), ", but the turning torque ",
                          rise > 0 ? "rose" : "dropped", " from ", both_torque(*then.torque),
                          " to ", both_torque(*now_.torque), "."));
    }

    const std::vector<Trial>& trials_;
    const Aims& aims_;
    const Trial& now_;
    std::vector<std::string> found_;
};

} // namespace

std::vector<std::string> doubts(const std::vector<Trial>& trials, const Aims& aims) {
    return Doubts(trials, aims).all();
}

} // namespace fettle::shim
