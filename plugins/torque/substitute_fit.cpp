// The half of the comparison that is about form, fit and surface.
#include "screw_threads/words.h"
#include "torque/substitute.h"

#include <algorithm>
#include <cmath>

namespace fettle::torque {
namespace {

using plugin::line;

// Play of a bolt in the hole made for another, and of a centre bolt's head in its seat, that still
// locates. Common practice, no source.
constexpr double kLoose = 0.4e-3; // m
constexpr double kTight = 0.1e-3; // m

void hole(const Fastener& a, const Fastener& b, const Situation& at,
          std::vector<Finding>& findings) {
    const double more = b.thread.diameter - a.thread.diameter;
    Finding found{"diameter",
                  both_lengths(a.thread.diameter),
                  both_lengths(b.thread.diameter),
                  std::abs(more) <= kTight ? "same" : (more > 0 ? "thicker" : "thinner"),
                  Weight::good,
                  "",
                  false};
    if (more > kLoose) {
        found.weight = Weight::condition;
        found.reason = line("It is ", both_lengths(more),
                            " thicker: the hole must be opened, if "
                            "the part can spare it.");
    } else if (-more > kLoose) {
        found.worse = true;
        found.weight = at.duty == Duty::clamp ? Weight::condition : Weight::against;
        found.reason = line("It is ", both_lengths(-more),
                            " thinner: loose in the hole it locates "
                            "nothing.");
    }
    findings.push_back(found);
}

void head(const Fastener& a, const Fastener& b, const Situation& at,
          std::vector<Finding>& findings) {
    const double limit = at.bears_on.pressure;
    const double clamp = usual_preload(a);
    const double bearing = b.head.seat.bearing_od;
    const bool smaller = bearing < 0.995 * a.head.seat.bearing_od;
    Finding found{"head bearing",
                  both_lengths(a.head.seat.bearing_od),
                  both_lengths(bearing),
                  smaller ? "smaller" : "no smaller",
                  Weight::good,
                  "",
                  smaller};
    const auto seat = offered_seat(a, b);
    if (!seat) {
        found.weight = Weight::against;
        found.reason = line("Its head of ", both_lengths(bearing), " pulls through the hole of ",
                            both_lengths(std::max(a.head.seat.hole, b.head.seat.hole)), ".");
    } else if (const double pressure = head_pressure(clamp, *seat); pressure > limit) {
        found.weight = Weight::condition;
        found.reason =
            line("At the original's preload of ", both_forces(clamp), " its head presses ",
                 both_stresses(pressure), " on ", at.bears_on.name, " that bears ",
                 both_stresses(limit), ": a hardened washer must go under it.");
    }
    findings.push_back(found);
}

void head_height(const Fastener& a, const Fastener& b, const Situation& at,
                 std::vector<Finding>& findings) {
    const bool higher = b.head.height > a.head.height * 1.005;
    Finding found{"head height",
                  both_lengths(a.head.height),
                  both_lengths(b.head.height),
                  higher ? "higher" : "no higher",
                  Weight::good,
                  "",
                  false};
    if (at.head_room && b.head.height > *at.head_room) {
        found.weight = Weight::against;
        found.worse = true;
        found.reason = line("Its head of ", both_lengths(b.head.height), " does not go into ",
                            both_lengths(*at.head_room), " of room.");
    } else if (higher && !at.head_room && at.duty != Duty::centre) {
        found.weight = Weight::worth_knowing;
        found.reason = "Its head stands higher; see that nothing touches it at full travel.";
    }
    findings.push_back(found);
}

// A centre bolt's head sits in a hole of the spring seat and holds the axle in its place.
Finding locator_finding(const Fastener& a, const Fastener& b) {
    return {"head as locator",
            line(both_lengths(a.head.across), " wide, ", both_lengths(a.head.height), " high"),
            line(both_lengths(b.head.across), " wide, ", both_lengths(b.head.height), " high"),
            "fits",
            Weight::good,
            "",
            false};
}

void locator(const Fastener& a, const Fastener& b, const Situation& at,
             std::vector<Finding>& findings) {
    if (at.duty != Duty::centre) return;
    Finding found = locator_finding(a, b);
    const auto against = [&](const char* word, std::string reason) {
        found.word = word;
        found.weight = Weight::against;
        found.worse = true;
        found.reason = std::move(reason);
    };
    if (!at.seat_hole) {
        found.word = "not known";
        found.weight = Weight::condition;
        found.reason = "The head locates the axle in the hole of the spring seat: measure that "
                       "hole and the head; it must enter freely and have next to no play.";
    } else if (b.head.across > *at.seat_hole) {
        against("too wide", line("Its head of ", both_lengths(b.head.across),
                                 " does not enter the seat's hole of ", both_lengths(*at.seat_hole),
                                 ": the spring would sit on the head alone, and the U-bolts pull "
                                 "against nothing."));
    } else if (*at.seat_hole - b.head.across >
               std::max(1e-3, *at.seat_hole - a.head.across + 2e-4)) {
        against("too loose", line("Its head has ", both_lengths(*at.seat_hole - b.head.across),
                                  " of play in the seat's hole: the axle can creep along the "
                                  "spring and steer the vehicle."));
    } else if (at.seat_depth && b.head.height > *at.seat_depth) {
        against("too high",
                line("Its head of ", both_lengths(b.head.height), " touches bottom at ",
                     both_lengths(*at.seat_depth), " and holds the spring off its seat."));
    } else if (b.head.height < 0.7 * a.head.height) {
        against("too low", line("Its head reaches ", both_lengths(b.head.height),
                                " into the seat, the original ", both_lengths(a.head.height),
                                ": too little to locate the axle."));
    }
    findings.push_back(found);
}

void engagement(const Fastener& b, const Situation& at, double needed, const std::string& original,
                std::vector<Finding>& findings) {
    Finding found{"engagement", original,     line("needs ", both_lengths(needed)),
                  "not known",  Weight::good, "",
                  false};
    if (!b.length || !at.grip) {
        found.weight = Weight::worth_knowing;
        found.reason = line("Type its length and the clamped thickness, and the ",
                            both_lengths(needed), " of thread it needs are checked.");
    } else if (b.shank && *b.shank > *at.grip) {
        found.word = "does not clamp";
        found.weight = Weight::against;
        found.worse = true;
        found.reason =
            line("Its plain shank of ", both_lengths(*b.shank), " is longer than the clamped ",
                 both_lengths(*at.grip), ": the nut jams on the shank before anything is clamped.");
    } else if (const double have = *b.length - *at.grip - b.thread.pitch; have < needed) {
        found.word = "too short";
        found.weight = Weight::against;
        found.worse = true;
        found.reason = line("Beyond the clamped parts ", both_lengths(std::max(0.0, have)),
                            " of full thread is left, ", both_lengths(needed), " is needed.");
    } else {
        found.word = "enough";
        found.offered += line(", has ", both_lengths(have));
    }
    findings.push_back(found);
}

void surface(const Fastener& b, const Situation& at, std::vector<Finding>& findings) {
    const bool brittle = hydrogen_brittle(b.grade);
    Finding found{"finish",  "",           kFinishes[static_cast<std::size_t>(at.finish)],
                  "no harm", Weight::good, "",
                  false};
    if (at.finish == Finish::electroplated && brittle) {
        found.word = "may crack";
        found.weight = Weight::against;
        found.worse = true;
        found.reason =
            line(b.grade.name, " is hard enough for hydrogen from electroplating to "
                               "crack it hours or weeks after tightening, far below its strength "
                               "(ISO 4042 above 390 HV, ASTM F1941 above 39 HRC). Take a plain or "
                               "zinc-flake one.");
    } else if (at.finish == Finish::electroplated && b.grade.tensile > 990e6) {
        found.word = "with care";
        found.weight = Weight::condition;
        found.reason = "Electroplated at this strength it must come from a maker who bakes and "
                       "tests it; never have it plated yourself, nor pickle it in acid.";
    } else if (at.finish == Finish::plain && brittle) {
        found.word = "rusts";
        found.weight = Weight::condition;
        found.reason = "Plain and this hard it also cracks from rust under tension: keep it "
                       "painted or greased, and replace it when it pits.";
    } else if (at.finish == Finish::stainless) {
        found.word = "galls, eats its neighbours";
        found.weight = Weight::condition;
        found.reason = "Stainless galls in its nut without anti-seize, sets off rust in iron or "
                       "aluminium beside it, and its strength is its own: type it.";
    }
    findings.push_back(found);
}

void nut(const Fastener& a, const Fastener& b, const Situation& at,
         std::vector<Finding>& findings) {
    if (at.mate == Mate::tapped_hole) return;
    const bool stronger = b.grade.proof > 1.05 * a.grade.proof;
    Finding found{
        "nut",     a.grade.name, at.mate == Mate::own_nut ? "its own" : "the old one stays",
        "no harm", Weight::good, "",
        false};
    if (at.mate == Mate::own_nut) {
        found.weight = Weight::worth_knowing;
        found.reason =
            line("Its nut must be of a grade made for ", b.grade.name, " and ", b.thread.name, ".");
    } else if (stronger) {
        found.word = "weaker than the screw";
        found.weight = Weight::condition;
        found.reason = "The old nut was made for the original's grade and strips before this one "
                       "breaks: tighten to the original's preload only.";
    }
    if (at.locking == Locking::prevailing) {
        found.weight = std::max(found.weight, Weight::condition);
        found.reason += line(found.reason.empty() ? "" : " ",
                             "The locking nut must be new and of the screw's grade; one used "
                             "before no longer locks.");
    }
    findings.push_back(found);
}

void locking(const Situation& at, std::vector<Finding>& findings) {
    if (at.locking != Locking::pinned) return;
    findings.push_back({"locking", "split pin or wire", "needs the same hole", "to be seen to",
                        Weight::condition,
                        "The original is pinned or wired: this one must come drilled for it, and "
                        "be given a new pin. Never drill a hardened screw yourself.",
                        false});
}

} // namespace

std::optional<Seat> offered_seat(const Fastener& original, const Fastener& offered) {
    const Seat seat{offered.head.seat.bearing_od,
                    std::max(original.head.seat.hole, offered.head.seat.hole)};
    constexpr double kLeastRing = 2e-4; // m, on the diameter
    if (seat.bearing_od < seat.hole + kLeastRing) return std::nullopt;
    return seat;
}

void compare_form(const Fastener& a, const Fastener& b, const Situation& at,
                  std::vector<Finding>& findings) {
    const double tensile_a = at.mate == Mate::tapped_hole ? at.into_tensile : a.grade.tensile;
    const double needed_a =
        needed_engagement(a.thread, limits_of(a.thread), a.grade.tensile, tensile_a).needed;
    hole(a, b, at, findings);
    head(a, b, at, findings);
    head_height(a, b, at, findings);
    locator(a, b, at, findings);
    engagement(b, at, ratios(a, b, at).engagement, line("needs ", both_lengths(needed_a)),
               findings);
    surface(b, at, findings);
    nut(a, b, at, findings);
    locking(at, findings);
}

} // namespace fettle::torque
