#include "screw_threads/words.h"
#include "torque/substitute.h"

#include <algorithm>
#include <cmath>

namespace fettle::torque {
namespace {

using plugin::line;

constexpr double kSame = 0.005;       // shares closer than this are the same
constexpr double kSteelInShear = 0.6; // shear over tensile strength, common practice for bolts

const char* word_for(double ratio) {
    return ratio < 1 - kSame ? "worse" : (ratio > 1 + kSame ? "better" : "same");
}

double breaking_load(const Fastener& fastener) {
    return fastener.grade.tensile * stress_area(fastener.thread);
}

void strength(const Fastener& a, const Fastener& b, std::vector<Finding>& findings) {
    const double ratio = breaking_load(b) / breaking_load(a);
    Finding found{"strength",
                  line(a.grade.name, ", breaks at ", both_forces(breaking_load(a))),
                  line(b.grade.name, ", breaks at ", both_forces(breaking_load(b))),
                  word_for(ratio),
                  Weight::good,
                  "",
                  ratio < 1 - kSame};
    if (found.worse) {
        found.weight = Weight::against;
        found.reason = line("It breaks at ", percent(ratio), " of the original's load.");
    }
    findings.push_back(found);
}

void area(const Fastener& a, const Fastener& b, std::vector<Finding>& findings) {
    const double ratio = stress_area(b.thread) / stress_area(a.thread);
    Finding found{"stress area",
                  both_areas(stress_area(a.thread)),
                  both_areas(stress_area(b.thread)),
                  word_for(ratio),
                  Weight::good,
                  "",
                  ratio < 1 - kSame};
    if (ratio < 0.95) {
        found.weight = Weight::condition;
        found.reason = line("Its stress area is ", percent(ratio),
                            " of the original's: a changing load swings its stress further, "
                            "whatever its grade; it must be kept tight.");
    }
    findings.push_back(found);
}

void thread(const Fastener& a, const Fastener& b, const Situation& at,
            std::vector<Finding>& findings) {
    const std::string why = why_not_mating(b.thread, a.thread);
    Finding found{"thread and pitch",
                  line(a.thread.name, ", ", form_name(a.thread.form), ", pitch ",
                       both_lengths(a.thread.pitch)),
                  line(b.thread.name, ", ", form_name(b.thread.form), ", pitch ",
                       both_lengths(b.thread.pitch)),
                  why.empty() ? "mates" : "does not mate",
                  Weight::good,
                  "",
                  !why.empty()};
    if (!why.empty() && at.mate != Mate::own_nut) {
        found.weight = Weight::against;
        found.reason = line("It does not mate with the ", at.mate == Mate::old_nut ? "nut" : "hole",
                            " that stays: ", why);
    } else if (!why.empty()) {
        found.weight = Weight::condition;
        found.reason = line("Its own nut must stay with it, tagged: ", why);
    }
    findings.push_back(found);
}

void preload(const Fastener& a, const Fastener& b, const Situation& at,
             std::vector<Finding>& findings) {
    const double ratio = usual_preload(b) / usual_preload(a);
    Finding found{"preload",
                  both_forces(usual_preload(a)),
                  both_forces(usual_preload(b)),
                  word_for(ratio),
                  Weight::good,
                  "",
                  ratio < 1 - kSame};
    if (found.worse) {
        found.weight = Weight::against;
        found.reason = line("At three quarters of its proof load it clamps with ", percent(ratio),
                            " of what the original did.");
    } else if (ratio > 1.1 && at.mate != Mate::own_nut) {
        found.weight = Weight::condition;
        found.reason = line("It could be tightened further than the original, but what it screws "
                            "into was made for the original: keep to ",
                            both_forces(usual_preload(a)), ".");
    }
    findings.push_back(found);
}

// Whether plain shank is known to pass the joint.
bool shank_in_plane(const Fastener& fastener, const Situation& at) {
    return fastener.shank && at.grip && *fastener.shank >= *at.grip - fastener.thread.pitch;
}

double shear_load(const Fastener& fastener, bool shank) {
    const double d = shank ? fastener.thread.diameter : core_diameter(fastener.thread);
    return kSteelInShear * fastener.grade.tensile * kPi / 4 * d * d;
}

// On the safe side where nothing was measured: the original's shank shears, the offered one's core.
void shear(const Fastener& a, const Fastener& b, const Situation& at,
           std::vector<Finding>& findings) {
    if (at.duty == Duty::clamp) return;
    const bool known = b.shank && at.grip;
    const double of_a = shear_load(a, shank_in_plane(a, at) || !a.shank || !at.grip);
    const double of_b = shear_load(b, shank_in_plane(b, at));
    const double ratio = of_b / of_a;
    Finding found{"shear plane",    both_forces(of_a), both_forces(of_b),
                  word_for(ratio),  Weight::good,      "",
                  ratio < 1 - kSame};
    if (found.worse) {
        found.weight = known ? Weight::against : Weight::condition;
        found.reason =
            line("Across the joint it shears at ", percent(ratio), " of the original's load",
                 known ? "."
                       : " if its thread lies there; measure plain shank and "
                         "clamped thickness to be sure.");
    } else if (!shank_in_plane(b, at)) {
        found.weight = Weight::condition;
        found.reason = line("Its thread ", known ? "lies" : "may lie",
                            " in the shear plane: it bites into the hole and starts cracks. A "
                            "longer plain shank is better.");
    }
    findings.push_back(found);
}

void toughness(const Fastener& a, const Fastener& b, const Situation& at,
               std::vector<Finding>& findings) {
    if (a.grade.stretch <= 0 || b.grade.stretch <= 0) return;
    const bool worse = b.grade.stretch < a.grade.stretch - 0.005;
    Finding found{"toughness",
                  line(percent(a.grade.stretch), " stretch before it breaks"),
                  line(percent(b.grade.stretch), " stretch before it breaks"),
                  worse ? "worse" : "no worse",
                  Weight::good,
                  "",
                  worse};
    if (worse && b.grade.stretch < 0.095) {
        const bool shock = at.duty != Duty::clamp;
        found.weight = shock ? Weight::condition : Weight::worth_knowing;
        found.reason = "It is harder and gives less warning: bending or shock, as from a slack "
                       "spring pack, snaps it where the original would bend. It must be kept tight "
                       "and not be bent.";
    }
    findings.push_back(found);
}

} // namespace

double usual_preload(const Fastener& fastener) {
    return 0.75 * fastener.grade.proof * stress_area(fastener.thread);
}

std::string why_not_mating(const Thread& bolt, const Thread& nut) {
    const bool size = std::abs(bolt.diameter - nut.diameter) < 1e-6;
    const bool pitch = std::abs(bolt.pitch - nut.pitch) < 1e-8;
    const bool angle = std::abs(flank_angle(bolt.form) - flank_angle(nut.form)) < 1e-9;
    if (size && pitch && angle) return "";
    const auto pitches = [](const Thread& thread) {
        return line(thread.name, " has ", plain_number(kInch / thread.pitch, 4),
                    " threads to the inch");
    };
    if (!size) {
        return line(bolt.name, " is ", both_lengths(bolt.diameter), " thick, ", nut.name, " ",
                    both_lengths(nut.diameter), ".");
    }
    if (!pitch) {
        return line(pitches(bolt), ", ", pitches(nut),
                    ": they start, bind after a turn or two and strip.");
    }
    return line("size and pitch are alike but the flanks are not (", form_name(bolt.form), " and ",
                form_name(nut.form),
                "): it runs on by hand, bears on a mere edge of each thread, and strips or shakes "
                "loose.");
}

Ratios ratios(const Fastener& a, const Fastener& b, const Situation& at) {
    const double tensile = at.mate == Mate::tapped_hole ? at.into_tensile
                           : at.mate == Mate::old_nut   ? a.grade.tensile
                                                        : b.grade.tensile;
    const Engagement engaged =
        needed_engagement(b.thread, limits_of(b.thread), b.grade.tensile, tensile);
    std::optional<double> pressure;
    if (const auto seat = offered_seat(a, b))
        pressure = head_pressure(std::min(usual_preload(a), usual_preload(b)), *seat);
    return {breaking_load(b) / breaking_load(a), stress_area(b.thread) / stress_area(a.thread),
            usual_preload(b) / usual_preload(a), pressure, engaged.needed};
}

void compare_strength(const Fastener& a, const Fastener& b, const Situation& at,
                      std::vector<Finding>& findings) {
    strength(a, b, findings);
    area(a, b, findings);
    thread(a, b, at, findings);
    preload(a, b, at, findings);
    shear(a, b, at, findings);
    toughness(a, b, at, findings);
}

std::vector<Finding> compare(const Fastener& original, const Fastener& offered,
                             const Situation& at) {
    std::vector<Finding> findings;
    compare_strength(original, offered, at, findings);
    compare_form(original, offered, at, findings);
    return findings;
}

} // namespace fettle::torque
