#include "spring/sag.h"

#include "spring/leaf_pack.h"

#include <algorithm>
#include <cmath>

namespace fettle::spring {
namespace {

bool both_loaded(const SagTyped& typed) {
    return typed.sides[0].loaded && typed.sides[1].loaded;
}

double wanting(const SagTyped& typed, const Side& side) {
    if (typed.wanted_loaded && side.loaded) return *typed.wanted_loaded - *side.loaded;
    if (typed.wanted_free) return *typed.wanted_free - side.free;
    if (both_loaded(typed))
        return std::max(*typed.sides[0].loaded, *typed.sides[1].loaded) - *side.loaded;
    return std::max(typed.sides[0].free, typed.sides[1].free) - side.free;
}

void settle_deed(const SagTyped& typed, SideFound& side) {
    side.rearch = side.packing = 0;
    const bool wrong_rate =
        typed.rate && side.rate && std::fabs(*side.rate / *typed.rate - 1) > kRateWithin;
    if (wrong_rate) {
        side.deed = Deed::look;
    } else if (std::fabs(side.wanting) <= typed.tolerance) {
        side.deed = Deed::leave;
    } else if (side.wanting < 0) {
        side.deed = Deed::lower;
        side.rearch = side.wanting;
    } else if (side.wanting <= typed.most_packing) {
        side.deed = Deed::pack;
        side.packing = side.wanting;
    } else {
        side.deed = Deed::rearch;
        side.rearch = side.wanting;
    }
}

// Both near enough to what is wanted, yet too far from each other: the lower one is helped.
void even_out(const SagTyped& typed, SagFound& found) {
    const double apart = found.difference_loaded.value_or(found.difference_free);
    const bool both_left = found.sides[0].deed == Deed::leave && found.sides[1].deed == Deed::leave;
    if (!both_left || std::fabs(apart) <= typed.tolerance) return;
    SideFound& lower = found.sides[apart < 0 ? 0 : 1];
    lower.wanting = std::fabs(apart);
    settle_deed(typed, lower);
}

std::optional<double> softer(const SagTyped& typed, const SagFound& found) {
    double share = 0;
    int sides = 0;
    for (const SideFound& side : found.sides) {
        if (!side.rate || !typed.rate) continue;
        share += 1 - std::sqrt(*side.rate / *typed.rate);
        ++sides;
    }
    if (sides == 0) return std::nullopt;
    return share / sides;
}

} // namespace

SagFound judge_sag(const SagTyped& typed) {
    SagFound found{};
    found.difference_free = typed.sides[0].free - typed.sides[1].free;
    if (both_loaded(typed))
        found.difference_loaded = *typed.sides[0].loaded - *typed.sides[1].loaded;
    for (std::size_t i = 0; i < 2; ++i) {
        const Side& side = typed.sides[i];
        SideFound& each = found.sides[i];
        if (side.loaded) each.deflection = side.free - *side.loaded;
        if (each.deflection && side.load) {
            each.rate = *side.load / *each.deflection;
            each.frequency = bounce_frequency(*each.rate, *side.load);
        }
        each.wanting = wanting(typed, side);
        settle_deed(typed, each);
    }
    even_out(typed, found);
    for (std::size_t i = 0; i < 2 && typed.length; ++i) {
        const double arch = typed.sides[i].free + found.sides[i].rearch;
        if (std::fabs(arch) < 0.24 * *typed.length && std::fabs(arch) > 1e-6 * *typed.length)
            found.sides[i].radius = 1 / curvature_from_rise(arch, *typed.length);
    }
    found.softer = softer(typed, found);
    return found;
}

} // namespace fettle::spring
