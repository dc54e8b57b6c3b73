#include "desk/neighbours.h"

#include "photos/name_time.h"

#include <map>
#include <string>

namespace fettle::desk {
namespace {

constexpr std::int64_t kFarthest = 50;

using Series = std::map<std::int64_t, const Dated*>; // by number

Moment later(Moment moment, std::chrono::milliseconds by) {
    // Guesses are made to the second.
    moment.local = std::chrono::floor<std::chrono::seconds>(moment.local + by);
    moment.has_subsecond = false;
    return moment;
}

// The nearest photo with a time, before or after `at`.
template <class Step>
const Series::value_type* nearest(const Series& known, std::int64_t number, Step step) {
    auto found = step(known, number);
    if (found == known.end() || std::abs(found->first - number) > kFarthest) return nullptr;
    return &*found;
}

std::optional<Guess> guess_within(const Series& known, std::int64_t number, PhotoId photo) {
    const auto* after = nearest(known, number, [](const Series& series, std::int64_t at) {
        return series.lower_bound(at);
    });
    const auto* before = nearest(known, number, [](const Series& series, std::int64_t at) {
        auto found = series.lower_bound(at);
        return found == series.begin() ? series.end() : std::prev(found);
    });
    if (!before && !after) return {};
    const bool is_by_before = before && (!after || number - before->first <= after->first - number);
    const auto& near = is_by_before ? *before : *after;
    std::chrono::milliseconds by = std::chrono::seconds(number - near.first);
    if (before && after) {
        const auto apart = after->second->taken->local - before->second->taken->local;
        by = apart * (number - near.first) / (after->first - before->first);
    }
    return Guess{photo, later(*near.second->taken, by), near.second->photo};
}

} // namespace

std::vector<Guess> guess_by_neighbours(const std::vector<Dated>& photos) {
    std::map<std::string, Series> known; // by folder and series
    const auto series_of = [](const Dated& dated, const photos::Counted& counted) {
        return dated.file.parent_path().native() + '/' + counted.series;
    };
    for (const auto& dated : photos)
        if (auto counted = photos::counted_name(dated.file.filename().native());
            counted && dated.taken)
            known[series_of(dated, *counted)].emplace(counted->number, &dated);
    std::vector<Guess> guesses;
    for (const auto& dated : photos) {
        if (dated.taken) continue;
        const auto counted = photos::counted_name(dated.file.filename().native());
        if (!counted) continue;
        const auto series = known.find(series_of(dated, *counted));
        if (series == known.end()) continue;
        if (auto guess = guess_within(series->second, counted->number, dated.photo))
            guesses.push_back(*guess);
    }
    return guesses;
}

} // namespace fettle::desk
