#include "spring/pack_lines.h"

#include "spring/words.h"

#include <cmath>

namespace fettle::spring {
namespace {

using plugin::figure;
using plugin::line;

void tell(PackAnswer& answer, std::string text) {
    answer.account.working.push_back(std::move(text));
}

// "412.5 N at 310.2 mm"; what presses on a leaf from below, from the clamp's edge.
std::string presses(const PackAnswer& answer, std::size_t upper) {
    std::string all;
    for (const Touch& touch : answer.work.loaded.touches) {
        if (touch.upper != upper ||
            touch.force < 0.001 * answer.work.loaded.leaves[upper + 1].press) {
            continue;
        }
        all += line(all.empty() ? "" : ", ", newtons(touch.force), " at ", mm(touch.at));
    }
    return all;
}

// The master's eye by hand: the load bends it down, the leaf below holds it up.
void tell_eye(const PackTyped& typed, PackAnswer& answer) {
    const Leaf& master = answer.pack.leaves.front();
    const double length = working_length(answer.pack, master);
    const double stiffness = bending_stiffness(answer.pack, master, 0);
    if (master.narrowed > 0) {
        tell(answer, line("the eye stands ", mm(answer.work.loaded.eye.drop),
                          " below the free master leaf"));
        return;
    }
    std::string held;
    for (const Touch& touch : answer.work.loaded.touches) {
        if (touch.upper != 0) continue;
        held += line(" - ", figure(touch.force), " x ", figure(touch.at * 1e3), "² x (3 x ",
                     figure(length * 1e3), " - ", figure(touch.at * 1e3), ") / (6 E I)");
    }
    tell(answer,
         line("eye below the free master = F L³ / (3 E I)", held, ", F = ", newtons(typed.load / 2),
              ", L = ", mm(length), ", E I = E b t³ / 12 = ", figure(stiffness),
              " N.m²: ", mm(answer.work.loaded.eye.drop)));
}

} // namespace

void tell_measures(const PackTyped& typed, PackAnswer& answer) {
    const Pack& pack = answer.pack;
    const BookView& book = answer.work.book;
    tell(answer, line("F = half the load = ", newtons(typed.load),
                      " / 2 = ", newtons(typed.load / 2), ", at one eye"));
    tell(answer, line("L = half the working length = (", mm(pack.leaves[0].length), " - clamp ",
                      mm(pack.clamp), ") / 2 = ", mm(book.half_length),
                      typed.two_thirds ? "; two thirds of the clamp are taken off"
                                       : "; the clamp is taken off whole"));
    tell(answer,
         line("Leaves as long as the longest (to 0.5 mm) count as full length, ",
              typed.master_apart ? "the master with the graduated ones: extra full-length nf = "
                                 : "the master among them: nf = ",
              std::to_string(book.full), ", graduated ng = ", std::to_string(book.graduated)));
}

void tell_contact(const PackTyped& typed, PackAnswer& answer) {
    tell(answer, "Contact: half the spring as curved cantilevers held at the edge of the clamp, "
                 "each with its own E I and free curvature; gap >= 0, force >= 0, one of them 0, "
                 "at every tip, clip and some points between");
    for (std::size_t i = 0; i + 1 < answer.pack.leaves.size(); ++i) {
        const std::string forces = presses(answer, i);
        tell(answer, line(leaf_name(i), " and ", leaf_name(i + 1), " press with ",
                          forces.empty() ? "nothing" : forces));
    }
    tell_eye(typed, answer);
    const PackWork& work = answer.work;
    tell(answer, line("deflection = ", mm(work.loaded.eye.drop), " - ", mm(work.empty.eye.drop),
                      " in the unloaded pack = ", mm(work.deflection)));
    tell(answer, line("rate = slope of load over deflection at this load, contacts held = ",
                      n_per_mm(work.rate),
                      "; load / deflection = ", n_per_mm(typed.load / work.deflection)));
    tell(answer, line("frequency = sqrt(rate g / load) / (2 pi) = sqrt(", figure(work.rate), " x ",
                      "9.80665 / ", figure(typed.load), ") / 6.2832 = ", hertz(work.frequency),
                      ", of just this load on just this spring"));
    if (!answer.loaded_arch) return;
    const double free_arch = *answer.loaded_arch + work.deflection;
    tell(answer, line("loaded_arch = free arch ",
                      typed.free_arch ? "as measured" : "from the radii, clamped and unloaded",
                      " - ", "deflection = ", mm(free_arch), " - ", mm(work.deflection), " = ",
                      mm(*answer.loaded_arch)));
}

void tell_textbook(const PackTyped& typed, PackAnswer& answer) {
    const Pack& pack = answer.pack;
    const BookView& book = answer.work.book;
    const std::string known = line("E b / (6 L³) = ", figure(pack.modulus / 1e9, 3), " GPa x ",
                                   mm(pack.width), " / (6 x (", mm(book.half_length), ")³)");
    if (one_thickness(pack)) {
        tell(answer,
             line("rate_textbook = E b t³ (3nf + 2ng) / (6 L³), t = ", mm(pack.leaves[0].thickness),
                  ", 3nf + 2ng = ", std::to_string(3 * book.full + 2 * book.graduated), ", ", known,
                  ": ", n_per_mm(book.rate)));
    } else {
        tell(answer, line("rate_textbook = E b S / (6 L³), S = 3 sum t³ (full) + 2 sum t³ "
                          "(graduated) = ",
                          figure(book.sum * 1e9), " mm³, ", known, ": ", n_per_mm(book.rate)));
    }
    tell(answer, line("textbook stress without nip: full-length leaves 18 F L t / (b S), "
                      "graduated 12 F L t / (b S), with S = t³ (3nf + 2ng) for one thickness, F = ",
                      newtons(typed.load / 2), ", L = ", mm(book.half_length),
                      ", S = ", figure(book.sum * 1e9), " mm³"));
    const auto& nip = answer.work.nip_book;
    if (!nip) return;
    tell(answer,
         line("textbook nip that lets all leaves share alike at this load: 2 F L³ / "
              "(n E b t³) = ",
              mm(nip->nip, 3),
              one_thickness(pack) ? std::string() : line(" with a mean t of ", mm(nip->thickness)),
              ", closed by 2 nf ng F / (n (3nf + 2ng)) = ", newtons(nip->closing),
              " on the band; each leaf then carries 6 F L / (n b t²) = ", mpa(nip->stress)));
}

void tell_friction(const PackTyped& typed, PackAnswer& answer) {
    const auto& loop = answer.work.loop;
    if (!loop) return;
    const double empty = answer.work.empty.eye.drop;
    tell(answer,
         line("friction ", figure(typed.friction, 3),
              " between the leaves: at every contact a couple of friction x force x half the "
              "thickness on both leaves, against the way they turn"));
    tell(answer, line("settling down onto this load (loading branch): deflection ",
                      mm(loop->down.drop - empty), ", rate ", n_per_mm(loop->down.rate),
                      "; coming up to it (unloading branch): ", mm(loop->up.drop - empty), ", ",
                      n_per_mm(loop->up.rate)));
    tell(answer,
         line("to hold the deflection of ", mm(answer.work.deflection), " it takes ",
              newtons(loop->load_down), " pressing down and ", newtons(loop->load_up),
              " letting up; friction = half of the difference = ", newtons(loop->half_band()),
              " = ", percent(loop->half_band() / typed.load, 2), " of the load"));
}

void tell_nip_and_clips(const PackTyped& typed, PackAnswer& answer) {
    const Pack& pack = answer.pack;
    const std::vector<double> all = nips(pack);
    const std::vector<double> curvatures = free_curvatures(pack);
    for (std::size_t i = 0;
         i < all.size() &&
         typed.leaves[0].radius.value_or(0) + std::fabs(typed.leaves[0].rise.value_or(0)) > 0;
         ++i) {
        if (!pack.leaves[i + 1].curvature) continue;
        const double gap = free_gap(pack.leaves[i + 1].length / 2, all[i]);
        tell(answer,
             line("nip between ", leaf_name(i), " and ", leaf_name(i + 1),
                  ", laid on each other free: (l/2)²/2 x (1/R - 1/(R above + t)), curvature ",
                  figure(curvatures[i + 1]), " /m on a face of ",
                  figure(curvatures[i + 1] - all[i]), " /m: ", mm(gap, 3),
                  gap < 0 ? " open at the tips" : " open at the middle"));
    }
    tell(answer, line("closing_force, centre bolt drawing the unclipped, unloaded pack together: "
                      "twice the greatest force between two neighbours at one end = ",
                      newtons(answer.work.closing)));
    for (std::size_t i = 0; i < pack.clips.size(); ++i) {
        tell(answer, line("clip ", mm(pack.clips[i]),
                          " from the middle: ", newtons(answer.work.clip_closing[i]),
                          " brings the leaves together on the unloaded pack to within its play of ",
                          mm(pack.clip_play, 2), ", all clips closed; it pulls ",
                          newtons(answer.work.loaded.clips[i]), " under the load"));
    }
}

void tell_stress(const PackTyped&, PackAnswer& answer) {
    const PackWork& work = answer.work;
    for (std::size_t i = 0; i < work.loaded.leaves.size(); ++i) {
        const LeafState& leaf = work.loaded.leaves[i];
        const double inertia =
            bending_stiffness(answer.pack, answer.pack.leaves[i], leaf.stress_at) /
            answer.pack.modulus;
        const double half = answer.pack.leaves[i].thickness / 2;
        tell(answer, line("stress in ", leaf_name(i), " = M t / (2 I) = ",
                          figure(leaf.stress * inertia / half), " N.m x ", mm(2 * half), " / (2 x ",
                          figure(inertia * 1e12), " mm⁴) = ", mpa(leaf.stress), ", ",
                          leaf.stress_at == 0 ? std::string("at the clamp")
                                              : line(mm(leaf.stress_at), " from the clamp"),
                          "; unloaded ", mpa(work.empty.leaves[i].stress)));
    }
    tell(answer, line("stress_max, the greatest in size, loaded or not: ", mpa(work.stress_max),
                      "; at twice the load ", mpa(work.stress_bump)));
}

} // namespace fettle::spring
