#include "desk/book_within.h"
#include "desk/rebuild_charts.h"

#include <algorithm>

namespace fettle::desk {
namespace {

constexpr std::size_t kGroupsToADrawing = 20; // as many as a page holds

void add_groups(const Rebuild& rebuild, bool drawn, std::vector<Block>& blocks) {
    if (rebuild.groups.empty()) return;
    blocks.push_back(Words{"Positions: " + to_words(rebuild.positions) +
                           ". Pieces: " + to_words(rebuild.pieces) + "."});
    if (!drawn) return;
    for (std::size_t from = 0; from < rebuild.groups.size(); from += kGroupsToADrawing) {
        const auto first = rebuild.groups.begin() + std::ptrdiff_t(from);
        const auto count = std::min(kGroupsToADrawing, rebuild.groups.size() - from);
        blocks.push_back(Drawing{chart_of_groups({first, first + std::ptrdiff_t(count)})});
    }
}

void add_hours(const std::vector<MonthHours>& months, bool drawn, std::vector<Block>& blocks) {
    const double all = sum_of(months);
    if (all == 0) return; // entries that say no hours
    const auto most = std::ranges::max_element(months, {}, &MonthHours::hours);
    blocks.push_back(Words{"Work: " + hours_in_words(all) + " in all, most of it in " +
                           to_words(most->month) + ": " + hours_in_words(most->hours) + "."});
    if (drawn) blocks.push_back(Drawing{chart_of_hours(months)});
}

void add_spent(const Rebuild& rebuild, bool drawn, std::vector<Block>& blocks) {
    if (rebuild.all_spent.empty()) return;
    std::string said = "Spent: " + to_words(rebuild.all_spent) + " in all";
    if (!rebuild.undated.empty())
        said += ", of that " + to_words(rebuild.undated) + " without a date";
    blocks.push_back(Words{said + "."});
    if (!drawn) return;
    for (const Money& money : rebuild.all_spent.amounts()) {
        auto chart = chart_of_spent(rebuild.spent, money.currency);
        if (!chart.values.empty()) blocks.push_back(Drawing{std::move(chart)});
    }
}

} // namespace

// The hours are those of the entries that the book tells of, as on its first page; the money is
// that of the costs' chapter.
Chapter glance_chapter(const BookSources& sources) {
    Chapter chapter{"glance", "The rebuild at a glance", {}};
    const auto vehicle = sources.wish.vehicle.empty() ? VehicleId{} : sources.vehicle.id;
    const auto rebuild = book_must(read_rebuild(sources.notebook, vehicle));
    const bool drawn = sources.wish.with(BookPart::charts);
    add_groups(rebuild, drawn, chapter.blocks);
    add_hours(hours_by_month(sources.entries), drawn, chapter.blocks);
    if (sources.wish.with(BookPart::costs)) add_spent(rebuild, drawn, chapter.blocks);
    return chapter;
}

} // namespace fettle::desk
