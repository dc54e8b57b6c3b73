// What is to be thought of the answer: why it differs from the textbook's, readings that do not go
// together, stress against its limit, and where the theory ends.
#include "spring/pack_lines.h"
#include "spring/words.h"

#include <algorithm>
#include <cmath>

namespace fettle::spring {
namespace {

using plugin::figure;
using plugin::line;

// No common leaf spring steel (silicon manganese, chromium vanadium, chromium), hardened and
// tempered for springs, yields far above this: common practice, no source.
constexpr double kAboveAnyYield = 1500e6;
constexpr double kHardWorked = 1000e6;

constexpr double kLargeCamber = 0.05; // share by which small deflection theory may err: then told

void note(PackAnswer& answer, std::uint32_t level, std::string text) {
    answer.account.notes.push_back({level, std::move(text)});
}

std::string step_of_contact(const PackWork& work) {
    const bool changed = std::fabs(work.rate - work.fitted_rate) > 0.002 * work.rate;
    return line("contact solved, every leaf fitting its neighbour, ", n_per_mm(work.fitted_rate),
                changed ? line("; with the free curvatures and clips typed, at this load, ",
                               n_per_mm(work.rate))
                        : std::string());
}

void note_rise_against_radius(const PackTyped& typed, PackAnswer& answer) {
    for (std::size_t i = 0; i < typed.leaves.size(); ++i) {
        const LeafTyped& leaf = typed.leaves[i];
        if (!leaf.radius || !leaf.rise) continue;
        const double rise = rise_of_arc(1 / *leaf.radius, leaf.length);
        if (std::fabs(rise - *leaf.rise) <= 0.001 + 0.05 * std::fabs(rise)) continue;
        note(answer, FETTLE_STOP,
             line("Readings contradict each other: ", leaf_name(i), " with a free radius of ",
                  both(*leaf.radius), " rises ", both(rise), " over its length, but ",
                  both(*leaf.rise), " is typed. The radius was used; measure again."));
    }
}

void note_arch_against_radii(const PackTyped& typed, PackAnswer& answer) {
    if (!typed.free_arch || !answer.work.built_arch) return;
    const double built = *answer.work.built_arch;
    const double off = std::fabs(built - *typed.free_arch);
    const double size = std::max(std::fabs(built), std::fabs(*typed.free_arch));
    // How far radius gauge, eye and rule may honestly differ: common practice, no source.
    if (off <= 0.003 + 0.1 * size) return;
    const bool far = off > 0.008 + 0.3 * size;
    note(answer, far ? FETTLE_STOP : FETTLE_CAUTION,
         line(far ? "Readings contradict each other: " : "Readings hardly go together: ",
              "the free curvatures make a clamped, unloaded pack with an arch of ", both(built),
              ", but the free arch typed is ", both(*typed.free_arch),
              ". The arch under load follows the arch typed, contact and stress the curvatures; "
              "measure both again."));
}

} // namespace

std::string reasons(const PackAnswer& answer) {
    const PackWork& work = answer.work;
    const Pack& pack = answer.pack;
    const double apart = work.book.rate / work.rate - 1;
    const std::string apart_words =
        std::fabs(apart) < 0.005
            ? std::string("as good as the same")
            : line(percent(std::fabs(apart), 2), apart > 0 ? " higher" : " lower");
    std::string text =
        line("The textbook rate is ", apart_words, " (", n_per_mm(work.book.rate), " against ",
             n_per_mm(work.rate),
             "). Step by step: all leaves bending alike, with these lengths and ends, ",
             n_per_mm(work.common_rate), "; ", step_of_contact(work), ".");
    if (work.book.graduated > 0) {
        text += " The textbook lets the longest graduated leaf reach the eye, steps the rest "
                "evenly and runs every end to a point.";
    }
    const double reach = pack.leaves.size() > 1 ? working_length(pack, pack.leaves[1]) : 0;
    const double alone = work.book.half_length - reach;
    if (pack.leaves.size() > 1 && alone > kFullLengthWithin)
        text += line(" Here the master bends alone over its outer ", mm(alone, 3), ".");
    if (!one_thickness(pack))
        text += " It is written for one thickness; here each leaf counts with its own t³.";
    const auto idle = idle_leaves(work.loaded);
    if (!idle.empty()) {
        text += line(" ", capital(leaf_names(idle)), idle.size() == 1 ? " carries" : " carry",
                     " nothing at this load, which the textbook cannot know.");
    }
    if (work.loop) text += " Friction is counted in neither; see its own rates.";
    return text;
}

void note_readings(const PackTyped& typed, PackAnswer& answer) {
    note_rise_against_radius(typed, answer);
    note_arch_against_radii(typed, answer);
    const auto idle = idle_leaves(answer.work.loaded);
    if (!idle.empty()) {
        note(answer, FETTLE_CAUTION,
             line(capital(leaf_names(idle)), idle.size() == 1 ? " carries" : " carry",
                  " nothing at this load, standing clear of the leaf above. A leaf that is set too "
                  "flat, or the wrong leaf, does that; the others carry its share."));
    }
    const double second = answer.pack.leaves.size() > 1 ? answer.pack.leaves[1].length / 2 : 0;
    for (const double clip : answer.pack.clips) {
        if (clip <= second) continue;
        note(answer, FETTLE_INFO,
             line("The clip ", both(clip),
                  " from the middle holds the master leaf alone; it sits "
                  "outside the next leaf."));
    }
    if (!answer.pack.leaves.front().curvature) {
        note(answer, FETTLE_INFO,
             "No free radii were typed, so every leaf is taken to fit the one above without nip.");
    }
    if (!answer.loaded_arch) {
        note(answer, FETTLE_INFO,
             "Neither free arch nor radii were typed, so there is no loaded "
             "arch.");
    } else if (*answer.loaded_arch < 0) {
        note(answer, FETTLE_CAUTION,
             "The load bends the spring past flat; look at the shackle "
             "angle and the bump stop.");
    }
    if (answer.pack.friction > 0 && !answer.work.loop) {
        note(answer, FETTLE_CAUTION,
             line("With a friction of ", figure(answer.pack.friction, 2),
                  " no sliding state was found for leaves this short and thick; the pack may lock. "
                  "What is shown is without friction."));
    }
    if (typed.two_thirds && typed.clamp == 0)
        note(answer, FETTLE_INFO, "Two thirds of no clamp are nothing; the length was not typed.");
}

void note_stress(const PackTyped& typed, PackAnswer& answer) {
    const PackWork& work = answer.work;
    if (typed.limit) {
        if (work.stress_max > *typed.limit) {
            note(answer, FETTLE_STOP,
                 line("The greatest stress ", mpa(work.stress_max), " is above the limit ",
                      mpa(*typed.limit), " typed for it: do not use this pack at this load."));
        } else if (work.stress_bump > *typed.limit) {
            note(answer, FETTLE_CAUTION,
                 line("At twice the load, as over a bump, the stress would be ",
                      mpa(work.stress_bump), ", above the limit ", mpa(*typed.limit),
                      ". See that the bump stop takes over before."));
        }
        return;
    }
    if (work.stress_max > kAboveAnyYield) {
        note(answer, FETTLE_STOP,
             line("The greatest stress ", mpa(work.stress_max),
                  " is above what any common leaf "
                  "spring steel bears without set."));
    } else if (work.stress_max > kHardWorked) {
        note(answer, FETTLE_CAUTION,
             line("The greatest stress ", mpa(work.stress_max),
                  " is near the yield of leaf spring steels. Type the limit of this steel."));
    }
    note(answer, FETTLE_INFO,
         "No limit was typed for the stress. Ask the spring maker for the "
         "steel's.");
}

void note_limits_of_theory(const PackTyped& typed, PackAnswer& answer) {
    const PackWork& work = answer.work;
    const double free_arch = typed.free_arch.value_or(work.built_arch.value_or(0));
    const double most = std::max(std::fabs(free_arch), std::fabs(work.deflection));
    // The eye's slope is about 2 arch / L; its lever shortens by a sixth of the square, and the
    // deflection by the lever's square (own estimate, flat arcs).
    const double slope = 2 * most / work.book.half_length;
    const double error = slope * slope / 3;
    if (error > kLargeCamber) {
        note(answer, error > 0.3 ? FETTLE_CAUTION : FETTLE_INFO,
             line("Arch or deflection is large for this length. The theory is for small ones: rate "
                  "and deflection may be off by about ",
                  percent(error, 1), ", stress by half of that."));
    }
    note(answer, FETTLE_INFO,
         "Counted is a steady load straight down on eyes alike on both sides. Shackle angle, brake "
         "and cornering loads, set left in the steel and fatigue are not.");
}

} // namespace fettle::spring
