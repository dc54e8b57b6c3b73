// Which photos are compared, and how one lies on the other.
#include "notebook/ties.h"
#include "ui/screens/photos/photo_compare.h"

#include <algorithm>

namespace fettle::ui {
namespace {

bool is_before(fettle::Stage stage) {
    return stage == fettle::Stage::as_found || stage == fettle::Stage::before;
}

bool is_after(fettle::Stage stage) {
    return stage == fettle::Stage::after || stage == fettle::Stage::fitted ||
           stage == fettle::Stage::proof;
}

struct Likely {
    PhotoId photo;
    fettle::Stage stage;
    int rank = 0; // less is likelier
};

int rank_of(fettle::Stage own, fettle::Stage others) {
    const bool opposite =
        (is_before(own) && is_after(others)) || (is_after(own) && is_before(others));
    return opposite ? 0 : own == others ? 2 : 1;
}

Result<std::vector<Likely>> likely_for(const Notebook& book, PhotoId photo) {
    auto own = ties_of_photo(book, photo);
    if (!own) return own.failure();
    std::vector<Likely> all;
    for (const Tie& tie : *own) {
        const auto* part = std::get_if<PartId>(&tie.to);
        if (!part) continue;
        auto ties = ties_to(book, *part);
        if (!ties) return ties.failure();
        for (const Tie& other : *ties)
            if (other.photo != photo &&
                std::ranges::find(all, other.photo, &Likely::photo) == all.end())
                all.push_back({other.photo, other.stage, rank_of(tie.stage, other.stage)});
    }
    std::ranges::stable_sort(all, std::ranges::less(), &Likely::rank);
    return all;
}

// With no points: middle on middle, as wide as each other.
photos::PlaneMap as_wide(const Photo& one, const Photo& other) {
    const double scale = other.width > 0 ? double(one.width) / other.width : 1;
    return {{scale, 0, 0, 0, scale, (one.height - scale * other.height) / 2, 0, 0, 1}};
}

} // namespace

Result<std::vector<PhotoId>> photos_to_compare(const Notebook& book, PhotoId photo) {
    auto likely = likely_for(book, photo);
    if (!likely) return likely.failure();
    std::vector<PhotoId> photos;
    for (const Likely& one : *likely)
        photos.push_back(one.photo);
    return photos;
}

Result<CompareState> compare_with_likeliest(const Notebook& book, PhotoId photo) {
    auto likely = likely_for(book, photo);
    if (!likely) return likely.failure();
    if (likely->empty())
        return Failure{FailureKind::not_found,
                       "There is no other photo of the same part to compare this one with: tie "
                       "both to it, or choose two among all photos and press V."};
    CompareState state;
    state.one = photo;
    state.other = likely->front().photo;
    if (is_before(likely->front().stage)) std::swap(state.one, state.other);
    return state;
}

Laid laid_on(const ComparedFacts& facts, bool only_turned) {
    Laid laid{.map = as_wide(facts.one, facts.other)};
    if (facts.pair.points.size() < 2) return laid;
    std::vector<photos::PointPair> pairs;
    for (const MatchingPoint& point : facts.pair.points)
        pairs.push_back({{point.x, point.y}, {point.onto_x, point.onto_y}});
    const auto kind =
        only_turned ? photos::PlaneKind::similarity : photos::kind_settled_by(pairs.size());
    auto map = photos::map_by_points(
        kind, pairs, {.from = {"the other photo", 2}, .to = {"the first photo", 2}});
    if (!map) {
        laid.trouble = map.failure().sentence;
        return laid;
    }
    laid.map = *map;
    laid.by_points = true;
    laid.misses = photos::misses_of(*map, pairs);
    laid.more_than_needed = pairs.size() > photos::pairs_needed(kind);
    return laid;
}

} // namespace fettle::ui
