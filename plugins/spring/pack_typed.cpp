#include "spring/pack_typed.h"

#include "spring/words.h"

#include <algorithm>
#include <cmath>

namespace fettle::spring {
namespace {

using plugin::line;
using plugin::Refusal;

constexpr double kLeastWorking = 0.01; // m: a clip or leaf needs that much beyond the clamp

Refusal no_leaf(std::size_t index, const std::string& why) {
    return {"leaves", line("leaves: ", leaf_name(index), " ", why)};
}

std::optional<Refusal> unfit_size(const Pack& pack, const LeafTyped& leaf, std::size_t index) {
    if (!positive(leaf.length)) return no_leaf(index, "needs a length greater than nothing.");
    if (!positive(leaf.thickness)) return no_leaf(index, "needs a thickness greater than nothing.");
    if (leaf.length > 10) return no_leaf(index, "is longer than 10 m; check the unit.");
    if (leaf.thickness > leaf.length / 10) {
        return no_leaf(index, line("is ", mm(leaf.thickness), " thick and only ", mm(leaf.length),
                                   " long; a leaf is at least ten times as long as thick."));
    }
    if (leaf.length <= pack.clamp + 2 * kLeastWorking) {
        return no_leaf(index, line("is ", mm(leaf.length), " long, not 20 mm longer than the ",
                                   mm(pack.clamp),
                                   " held by the clamp; leave it out, it carries nothing."));
    }
    return std::nullopt;
}

std::optional<Refusal> unfit_shape(const Pack& pack, const LeafTyped& leaf, std::size_t index) {
    if (leaf.radius && !(*leaf.radius > leaf.length / 6)) {
        return no_leaf(
            index, line("has a free radius of ", mm(*leaf.radius),
                        "; type the radius it was curved to, more than a sixth of its length."));
    }
    if (leaf.rise && !(std::fabs(*leaf.rise) < leaf.length / 4)) {
        return no_leaf(index, line("has a free rise of ", mm(*leaf.rise),
                                   "; accepted is less than a quarter of its length."));
    }
    const double working = (leaf.length - pack.clamp) / 2;
    if (leaf.narrowed && !(*leaf.narrowed >= 0 && *leaf.narrowed <= working)) {
        return no_leaf(index, line("has ends narrowed over ", mm(*leaf.narrowed),
                                   "; accepted are 0 to the ", mm(working),
                                   " from the clamp to its tip."));
    }
    return std::nullopt;
}

std::optional<Refusal> unfit_leaves(const PackTyped& typed, const Pack& pack) {
    if (typed.leaves.empty() || typed.leaves.size() > kMostLeaves) {
        return Refusal{"leaves", line("leaves: ", std::to_string(typed.leaves.size()),
                                      " leaves typed; accepted are 1 to 40.")};
    }
    std::optional<std::size_t> curved;
    for (std::size_t i = 0; i < typed.leaves.size(); ++i) {
        const LeafTyped& leaf = typed.leaves[i];
        if (auto refusal = unfit_size(pack, leaf, i)) return refusal;
        if (auto refusal = unfit_shape(pack, leaf, i)) return refusal;
        const bool longer =
            i > 0 && (leaf.length > typed.leaves[i - 1].length + kFullLengthWithin ||
                      leaf.length > typed.leaves[0].length + kFullLengthWithin);
        if (longer) return no_leaf(i, "is longer than one before it; list the longest first.");
        if (leaf.radius || leaf.rise) curved = i;
    }
    const LeafTyped& master = typed.leaves.front();
    if (curved && !master.radius && !master.rise) {
        return no_leaf(0, line("needs its free radius or rise too, since ", leaf_name(*curved),
                               " has one; the nip is counted from the master on."));
    }
    return std::nullopt;
}

std::optional<Refusal> unfit_rest(const PackTyped& typed, const Pack& pack) {
    const double eye = (typed.leaves.front().length) / 2;
    for (const double clip : typed.clips) {
        if (clip >= pack.clamp / 2 + kLeastWorking && clip <= eye) continue;
        return Refusal{"clips",
                       line("clips: one sits ", mm(clip),
                            " from the middle; accepted is from 10 mm outside the clamp (",
                            mm(pack.clamp / 2 + kLeastWorking), ") to the eye (", mm(eye), ").")};
    }
    if (typed.tip_width && *typed.tip_width > pack.width) {
        return Refusal{"tip_width", line("tip_width: ", mm(*typed.tip_width),
                                         " is more than the width of the leaves, ", mm(pack.width),
                                         "; a narrowed end is narrower.")};
    }
    return std::nullopt;
}

} // namespace

plugin::Outcome<Pack> pack_from(const PackTyped& typed) {
    if (!positive(typed.width)) return Refusal{"width", "width: it must be greater than nothing."};
    if (!positive(typed.load)) return Refusal{"load", "load: it must be greater than nothing."};
    if (!positive(typed.modulus)) {
        return Refusal{"modulus", "modulus: it must be greater than nothing."};
    }
    Pack pack{};
    pack.width = typed.width;
    pack.clamp = typed.clamp * (typed.two_thirds ? 2.0 / 3 : 1);
    pack.modulus = typed.modulus;
    pack.friction = typed.friction;
    if (auto refusal = unfit_leaves(typed, pack)) return *refusal;
    if (auto refusal = unfit_rest(typed, pack)) return *refusal;
    pack.tip_share = typed.tip_width.value_or(pack.width / 2) / pack.width;
    pack.clips = typed.clips;
    std::sort(pack.clips.begin(), pack.clips.end());
    pack.clip_play = std::max(kSnug, typed.clip_play.value_or(kSnug));
    for (const LeafTyped& leaf : typed.leaves) {
        std::optional<double> curvature;
        if (leaf.rise) curvature = curvature_from_rise(*leaf.rise, leaf.length);
        if (leaf.radius) curvature = 1 / *leaf.radius;
        pack.leaves.push_back({leaf.length, leaf.thickness, curvature, leaf.narrowed.value_or(0)});
    }
    return pack;
}

} // namespace fettle::spring
