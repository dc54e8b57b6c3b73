#include "spring/sag_sheet.h"

#include "spring/words.h"

#include <cmath>

namespace fettle::spring {
namespace {

using plugin::figure;
using plugin::line;
using plugin::Refusal;

constexpr const char* kSides[] = {"left", "right"};

std::optional<Refusal> contradiction(const SagTyped& typed) {
    for (std::size_t i = 0; i < 2; ++i) {
        const Side& side = typed.sides[i];
        if (side.loaded && *side.loaded >= side.free) {
            const std::string field = line("loaded_", kSides[i]);
            return Refusal{field, line(field, ": the arch under load, ", both(*side.loaded),
                                       ", is not less than the free arch, ", both(side.free),
                                       "; one of the two was misread, or a load was still on.")};
        }
        if (side.load && !side.loaded) {
            const std::string field = line("loaded_", kSides[i]);
            return Refusal{field,
                           line(field, ": it is blank although a load of ", newtons(*side.load),
                                " was typed; type the arch that was read under it.")};
        }
    }
    if (typed.wanted_free && typed.wanted_loaded && *typed.wanted_loaded >= *typed.wanted_free) {
        return Refusal{"wanted_loaded",
                       line("wanted_loaded: ", both(*typed.wanted_loaded),
                            " is not less than the free arch wanted, ", both(*typed.wanted_free),
                            "; a load flattens a spring.")};
    }
    return std::nullopt;
}

std::string deed_words(const SagTyped& typed, const SideFound& side) {
    switch (side.deed) {
    case Deed::leave:
        return line("Leave it: within ", both(typed.tolerance, 2), " of what is wanted");
    case Deed::pack:
        return line("Pack it by ", both(side.packing), " at the axle, or re-arch it by as much");
    case Deed::rearch:
        return line("Re-arch it: ", both(side.rearch), " more free arch");
    case Deed::lower:
        return line("Too high by ", both(-side.rearch), ": re-arch it flatter");
    case Deed::look:
        break;
    }
    return *side.rate < *typed.rate
               ? "Take it apart first: softer than its leaves should be, so look for a cracked, "
                 "thin, missing or wrong leaf"
               : "Take it apart first: stiffer than its leaves should be, so look for rust "
                 "between them, wrong leaves, or a load that is less than typed";
}

std::string overall(const SagFound& found) {
    const Deed left = found.sides[0].deed;
    const Deed right = found.sides[1].deed;
    if (left == Deed::look || right == Deed::look) {
        return left == right ? "Take both apart before anything is re-arched or packed"
                             : line("Take the ", left == Deed::look ? "left" : "right",
                                    " spring apart before anything is re-arched or packed");
    }
    const auto plain = [](Deed deed) {
        switch (deed) {
        case Deed::leave:
            return "leave";
        case Deed::pack:
            return "pack";
        case Deed::lower:
            return "re-arch flatter";
        default:
            return "re-arch";
        }
    };
    if (left == right) return capital(line(plain(left), " both"));
    return capital(line(plain(left), " the left, ", plain(right), " the right"));
}

void tell_side(const SagTyped& typed, std::size_t i, SagAnswer& answer) {
    const Side& side = typed.sides[i];
    const SideFound& found = answer.found.sides[i];
    auto& working = answer.account.working;
    const std::string name = kSides[i];
    if (found.deflection) {
        working.push_back(line(name, ": deflection = free - loaded = ", mm(side.free), " - ",
                               mm(*side.loaded), " = ", mm(*found.deflection, 3)));
    }
    if (found.rate) {
        working.push_back(
            line(name, ": rate = load / deflection = ", newtons(*side.load), " / ",
                 mm(*found.deflection, 3), " = ", n_per_mm(*found.rate),
                 "; bounce = sqrt(rate g / load) / (2 pi) = ", hertz(*found.frequency)));
    }
    const char* against = typed.wanted_loaded && side.loaded ? "the loaded arch wanted"
                          : typed.wanted_free                ? "the free arch wanted"
                                                             : "the higher side";
    working.push_back(line(name, ": wanting against ", against, ": ", mm(found.wanting, 3)));
    if (found.rearch != 0) {
        working.push_back(line(name, ": free arch to give it = ", mm(side.free), " + ",
                               mm(found.rearch, 3), " = ", mm(side.free + found.rearch),
                               "; the rate stays, so the loaded arch moves by as much"));
    }
    if (found.radius) {
        working.push_back(line(name, ": radius of a master ", mm(*typed.length),
                               " long at a free arch of ", mm(side.free + found.rearch),
                               ", h = R (1 - cos(l / 2R)): ", mm(*found.radius, 3)));
    }
}

void note_ride(const SagTyped& typed, SagAnswer& answer) {
    auto& notes = answer.account.notes;
    if (answer.found.softer) {
        const double softer = *answer.found.softer;
        answer.account.working.push_back(line("softer = 1 - sqrt(rate measured / rate calculated ",
                                              n_per_mm(*typed.rate),
                                              "), mean of the sides = ", percent(softer, 2)));
        notes.push_back(
            {FETTLE_INFO,
             line("The bounce is ", percent(std::fabs(softer), 2),
                  softer >= 0 ? " slower, the ride softer," : " quicker, the ride harder,",
                  " than with the rate calculated. Rates read from two arches are "
                  "sure to about 15 %: friction holds the arch where it was left.")});
    }
    notes.push_back({FETTLE_INFO,
                     "A spring that has only lost arch is as stiff as it was: it sits lower and "
                     "strikes its bump stop sooner, but does not ride softer."});
    notes.push_back({FETTLE_INFO,
                     "Read each loaded arch twice, after pressing the vehicle down and after "
                     "lifting it, on level ground, and type the mean."});
}

void note_deeds(const SagTyped& typed, SagAnswer& answer) {
    auto& notes = answer.account.notes;
    bool packed = false;
    bool arched = false;
    for (std::size_t i = 0; i < 2; ++i) {
        const Deed deed = answer.found.sides[i].deed;
        packed = packed || deed == Deed::pack;
        arched = arched || deed == Deed::rearch || deed == Deed::lower;
        if (deed != Deed::look) continue;
        notes.push_back(
            {FETTLE_STOP,
             line("The ", kSides[i], " spring shows ", n_per_mm(*answer.found.sides[i].rate),
                  " against ", n_per_mm(*typed.rate),
                  " calculated, more apart than reading and friction explain. Do not "
                  "run it: a cracked leaf looks like this.")});
    }
    if (packed) {
        notes.push_back({FETTLE_CAUTION,
                         "Packing stands between spring and axle seat, full width, located by the "
                         "centre bolt's head, in one piece, with longer U-bolts; never stacked, "
                         "never under one end, and not on a steering axle without the maker's "
                         "word. Wedges change the castor."});
    }
    if (arched) {
        notes.push_back({FETTLE_CAUTION,
                         "Re-arching is a spring maker's work: leaves set cold or overheated crack "
                         "or settle again. Have both springs of an axle done together, and each "
                         "leaf set to its neighbour."});
    }
    if (typed.rate && typed.wanted_free && typed.wanted_loaded && typed.sides[0].load) {
        const double loaded = *typed.wanted_free - *typed.sides[0].load / *typed.rate;
        if (std::fabs(loaded - *typed.wanted_loaded) > 2 * typed.tolerance) {
            notes.push_back(
                {FETTLE_CAUTION, line("The arches wanted do not go with the rate: ",
                                      both(*typed.wanted_free), " less load over rate leaves ",
                                      both(loaded), ", not ", both(*typed.wanted_loaded), ".")});
        }
    }
}

} // namespace

plugin::Outcome<SagAnswer> work_sag(const SagTyped& typed) {
    if (auto refusal = contradiction(typed)) return *refusal;
    SagAnswer answer{};
    answer.found = judge_sag(typed);
    const SagFound& found = answer.found;
    answer.account.working.push_back(
        line("difference_free = left - right = ", mm(typed.sides[0].free), " - ",
             mm(typed.sides[1].free), " = ", mm(found.difference_free, 3)));
    if (found.difference_loaded) {
        answer.account.working.push_back(line("difference_loaded = ", mm(*typed.sides[0].loaded),
                                              " - ", mm(*typed.sides[1].loaded), " = ",
                                              mm(*found.difference_loaded, 3)));
    }
    for (std::size_t i = 0; i < 2; ++i) {
        tell_side(typed, i, answer);
        answer.verdicts[i] = deed_words(typed, found.sides[i]);
    }
    answer.verdict = overall(found);
    note_deeds(typed, answer);
    note_ride(typed, answer);
    return answer;
}

} // namespace fettle::spring
