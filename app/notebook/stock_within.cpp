#include "notebook/stock_within.h"

#include "notebook/rules.h"

namespace fettle {

Stocks::Stocks(store::Database& database) {
    auto items =
        database.query("SELECT i.part_id, g.inward, i.quantity - i.back, i.settled_how <> '' "
                       "FROM consignment_items i JOIN consignments g ON g.id = i.consignment_id "
                       "WHERE i.back < i.quantity AND (g.inward OR g.sent_on IS NOT NULL)");
    while (items.next()) {
        Away& away = away_[items.get<std::int64_t>(0)];
        const int pieces = items.get<int>(2);
        (items.get<bool>(3) ? away.lost : items.get<bool>(1) ? away.coming : away.out) += pieces;
    }
    auto pieces = database.query("SELECT p.id, p.within_id FROM parts p JOIN parts a "
                                 "ON a.id = p.within_id WHERE a.split_on IS NULL");
    while (pieces.next())
        within_[pieces.get<std::int64_t>(0)] = pieces.get<std::int64_t>(1);
}

Stock Stocks::of(PartId part, int quantity, int used) const {
    Stock stock{.quantity = quantity, .used = used};
    if (const auto found = away_.find(part.value); found != away_.end()) {
        stock.out = found->second.out;
        stock.coming = found->second.coming;
        stock.lost = found->second.lost;
    }
    // Where the assembly is, all of it is; no part is within itself (set_part sees to it).
    for (auto at = within_.find(part.value); at != within_.end(); at = within_.find(at->second)) {
        const auto found = away_.find(at->second);
        if (found == away_.end()) continue;
        const auto& [out, coming, lost] = found->second;
        (lost > 0 ? stock.lost : coming > 0 ? stock.coming : stock.out) += stock.at_hand();
    }
    return stock;
}

PartId Stocks::away_with(PartId part) const {
    std::int64_t at = part.value;
    while (!away_.contains(at)) {
        const auto holder = within_.find(at);
        if (holder == within_.end()) return {};
        at = holder->second;
    }
    return {at};
}

Holder holder_of(store::Database& database, PartId part) {
    auto row = database.query("SELECT a.id, a.tag FROM parts p JOIN parts a ON a.id = p.within_id "
                              "WHERE p.id IS ? AND a.split_on IS NULL",
                              part);
    if (!row.next()) return {};
    return {row.get<PartId>(0), row.get<std::string>(1)};
}

} // namespace fettle
