#include "spring/pack_sheet.h"

#include "spring/leaf_formulae.h"

#include <algorithm>
#include <cmath>

namespace fettle::spring {
namespace {

using plugin::Account;
using plugin::figure;
using plugin::line;
using plugin::Refusal;

constexpr std::size_t kMostLeaves = 40;

std::string mm(double metres, int digits = 4) {
    return line(figure(metres * 1e3, digits), " mm");
}
std::string mpa(double pascals) {
    return line(figure(pascals / 1e6, 3), " MPa");
}
std::string newtons(double force) {
    return line(figure(force), " N");
}
std::string n_per_mm(double rate) {
    return line(figure(rate / 1e3, 3), " N/mm");
}
std::string percent(double share) {
    return line(figure(share * 100, 3), " %");
}
std::string leaf_name(std::size_t index) {
    return line("leaf ", std::to_string(index + 1));
}

bool positive(double value) {
    return std::isfinite(value) && value > 0;
}

std::optional<Refusal> unfit_leaf(const Pack& pack, std::size_t index) {
    const Leaf& leaf = pack.leaves[index];
    const auto refuse = [&](const std::string& why) {
        return Refusal{"leaves", line("leaves: ", leaf_name(index), " ", why)};
    };
    if (!positive(leaf.length)) return refuse("needs a length greater than nothing.");
    if (!positive(leaf.thickness)) return refuse("needs a thickness greater than nothing.");
    if (leaf.length > 10) return refuse("is longer than 10 m; check the unit.");
    if (leaf.thickness > leaf.length / 10) {
        return refuse(line("is ", mm(leaf.thickness), " thick and only ", mm(leaf.length),
                           " long; a leaf is at least ten times as long as thick."));
    }
    if (leaf.length <= pack.clamp) {
        return refuse(line("is ", mm(leaf.length), " long, no longer than the clamp of ",
                           mm(pack.clamp), "; leave it out, it carries nothing."));
    }
    if (leaf.radius && !(*leaf.radius > leaf.length / 6)) {
        return refuse(line("has a free radius of ", mm(*leaf.radius),
                           "; type the radius it was curved to, more than a sixth of its length."));
    }
    if (index > 0 && leaf.length > pack.leaves[index - 1].length + kFullLengthWithin) {
        return refuse("is longer than the one before it; list the longest first.");
    }
    return std::nullopt;
}

std::optional<Refusal> unfit(const PackTyped& typed) {
    const Pack& pack = typed.pack;
    if (pack.leaves.empty() || pack.leaves.size() > kMostLeaves) {
        return Refusal{"leaves", line("leaves: ", std::to_string(pack.leaves.size()),
                                      " leaves typed; accepted are 1 to 40.")};
    }
    if (!positive(pack.width)) return Refusal{"width", "width: it must be greater than nothing."};
    if (!positive(typed.load)) return Refusal{"load", "load: it must be greater than nothing."};
    if (!positive(pack.modulus)) {
        return Refusal{"modulus", "modulus: it must be greater than nothing."};
    }
    for (std::size_t i = 0; i < pack.leaves.size(); ++i) {
        if (auto refusal = unfit_leaf(pack, i)) return refusal;
    }
    return std::nullopt;
}

bool one_thickness(const Pack& pack) {
    const double first = pack.leaves.front().thickness;
    return std::all_of(pack.leaves.begin(), pack.leaves.end(), [first](const Leaf& leaf) {
        return std::fabs(leaf.thickness - first) < 1e-6;
    });
}

void tell_counting(const PackTyped& typed, const PackAnswer& answer, Account& account) {
    const PackUnderLoad& under = answer.under;
    const Pack& pack = typed.pack;
    account.working.push_back(
        line("F = half the load = ", newtons(typed.load), " / 2 = ", newtons(typed.load / 2)));
    account.working.push_back(line("L = half the working length = (", mm(pack.leaves[0].length),
                                   " - clamp ", mm(pack.clamp), ") / 2 = ", mm(under.half_length),
                                   "; the clamp is taken off whole"));
    account.working.push_back(line(
        "Leaves as long as the longest (to 0.5 mm) count as full length, the master among them: "
        "nf = ",
        std::to_string(under.full), ", graduated ng = ", std::to_string(under.graduated)));
}

void tell_rates(const PackTyped& typed, const PackAnswer& answer, Account& account) {
    const PackUnderLoad& under = answer.under;
    const Pack& pack = typed.pack;
    account.working.push_back(
        line("rate, as a stepped beam: leaves bend alike where they lie on each other, 1/R = F x / "
             "(E sum of b t³/12), x from the eye; rate = 2F / deflection of the eye = ",
             n_per_mm(under.rate)));
    const std::string known = line("E b / (6 L³) = ", figure(pack.modulus / 1e9, 3), " GPa x ",
                                   mm(pack.width), " / (6 x (", mm(under.half_length), ")³)");
    if (one_thickness(pack)) {
        account.working.push_back(
            line("rate_textbook = E b t³ (3nf + 2ng) / (6 L³), t = ", mm(pack.leaves[0].thickness),
                 ", 3nf + 2ng = ", std::to_string(3 * under.full + 2 * under.graduated), ", ",
                 known, ": ", n_per_mm(under.rate_book)));
    } else {
        account.working.push_back(
            line("rate_textbook = E b S / (6 L³), S = 3 sum t³ (full) + 2 sum t³ (graduated) = ",
                 figure(under.book_sum * 1e9), " mm³, ", known, ": ", n_per_mm(under.rate_book)));
        account.notes.push_back(
            {FETTLE_INFO, "The leaves differ in thickness. The textbook formula is written for one "
                          "thickness; here each leaf is counted with its own t³."});
    }
    account.working.push_back(line("deflection = load / rate = ", newtons(typed.load), " / ",
                                   n_per_mm(under.rate), " = ", mm(answer.deflection, 3)));
    account.working.push_back(
        line("frequency = sqrt(rate g / load) / (2 pi) = ", figure(answer.frequency, 3),
             " Hz, of just this load on just this spring"));
}

void tell_arch(const PackTyped& typed, const PackAnswer& answer, Account& account) {
    if (answer.loaded_arch) {
        account.working.push_back(
            line("loaded_arch = free arch - deflection = ", mm(*typed.free_arch), " - ",
                 mm(answer.deflection, 3), " = ", mm(*answer.loaded_arch, 3)));
        if (*answer.loaded_arch < 0) {
            account.notes.push_back({FETTLE_CAUTION, "The load bends the spring past flat; look at "
                                                     "the shackle angle and the bump stop."});
        }
    } else {
        account.notes.push_back(
            {FETTLE_INFO, "No free arch was typed, so there is no loaded arch."});
    }
    if (answer.deflection > 0.3 * answer.under.half_length) {
        account.notes.push_back({FETTLE_INFO,
                                 "The deflection is large for this length; the formulae "
                                 "are for small ones and the eyes draw in."});
    }
    if (typed.friction > 0) {
        const double band = typed.friction * answer.deflection;
        account.working.push_back(line("friction ", percent(typed.friction),
                                       " of the load: the spring may rest anywhere within ",
                                       mm(band, 2),
                                       " above or below; rate and stress are without "
                                       "friction"));
    }
}

void tell_stress(const PackTyped& typed, const PackAnswer& answer, Account& account) {
    const PackUnderLoad& under = answer.under;
    double beam = 0;
    double book = 0;
    for (const LeafUnderLoad& leaf : under.leaves) {
        beam = std::max(beam, leaf.stress_beam);
        book = std::max(book, leaf.stress_book);
    }
    account.working.push_back(line("stress as a stepped beam, E t / (2R) at its greatest along the "
                                   "leaves: ",
                                   mpa(beam)));
    account.working.push_back(
        line("stress by the book, no nip: full-length leaves 18 F L t / (b S), graduated 12 F L t "
             "/ (b S); greatest ",
             mpa(book)));
    account.working.push_back(
        line("stress_max is the greater of the two: ", mpa(answer.stress_max)));
    if (typed.limit && answer.stress_max > *typed.limit) {
        account.notes.push_back(
            {FETTLE_STOP, line("The greatest stress ", mpa(answer.stress_max),
                               " is above the limit ", mpa(*typed.limit), " typed for it.")});
    }
    if (!typed.limit) {
        account.notes.push_back({FETTLE_INFO, "No limit was typed for the stress, so nothing was "
                                              "judged. Ask the spring maker for the steel's."});
    }
}

void tell_nip(const PackTyped& typed, const PackAnswer& answer, Account& account) {
    const PackUnderLoad& under = answer.under;
    const Pack& pack = typed.pack;
    if (under.graduated > 0 && one_thickness(pack)) {
        const BookPack book{typed.load / 2,           under.half_length, pack.width,
                            pack.leaves[0].thickness, under.full,        under.graduated};
        account.working.push_back(
            line("nip that would make all leaves share alike at this load: 2 F L³ / (n E b t³) = ",
                 mm(nip(book, pack.modulus), 3), ", closed by ", newtons(closing_load(book)),
                 " on the band; each leaf then carries 6 F L / (n b "
                 "t²) = ",
                 mpa(equalised_stress(book))));
    }
    for (std::size_t i = 1; i < pack.leaves.size(); ++i) {
        const Leaf& upper = pack.leaves[i - 1];
        const Leaf& lower = pack.leaves[i];
        if (!upper.radius || !lower.radius) continue;
        const double gap = free_gap((lower.length - pack.clamp) / 2, *upper.radius, *lower.radius);
        account.working.push_back(line("free gap between ", leaf_name(i - 1), " and ", leaf_name(i),
                                       " at the clamp, from the radii: ", mm(gap, 3)));
    }
}

} // namespace

plugin::Outcome<PackAnswer> work_pack(const PackTyped& typed) {
    if (auto refusal = unfit(typed)) return *refusal;
    PackAnswer answer{};
    answer.under = under_load(typed.pack, typed.load);
    answer.deflection = typed.load / answer.under.rate;
    if (typed.free_arch) answer.loaded_arch = *typed.free_arch - answer.deflection;
    for (const LeafUnderLoad& leaf : answer.under.leaves)
        answer.stress_max = std::max({answer.stress_max, leaf.stress_beam, leaf.stress_book});
    answer.frequency = bounce_frequency(answer.under.rate, typed.load);

    Account& account = answer.account;
    tell_counting(typed, answer, account);
    tell_rates(typed, answer, account);
    tell_arch(typed, answer, account);
    tell_stress(typed, answer, account);
    tell_nip(typed, answer, account);
    account.notes.push_back(
        {FETTLE_INFO,
         "Contact between leaves is not solved; the rate holds if no leaf lifts off its "
         "neighbour, and a real pack is a little softer. Stress from nip in the free "
         "pack is not counted."});
    return answer;
}

} // namespace fettle::spring
