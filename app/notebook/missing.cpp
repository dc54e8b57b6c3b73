#include "notebook/missing.h"

#include "base/csv.h"
#include "base/text.h"
#include "notebook/parts.h"
#include "notebook/rules.h"
#include "notebook/stock_within.h"
#include "notebook/vehicles.h"

#include <map>

namespace fettle {
namespace {

// A part that is there for nothing on our vehicle.
struct Spare {
    MightFit fit;
    VehicleId vehicle;
    std::string for_position; // the name of its position on another vehicle
};

std::vector<Spare> spares_in(store::Database& database) {
    const Stocks stocks(database);
    std::vector<Spare> spares;
    auto rows = database.query(
        "SELECT a.id, a.tag, a.name, a.quantity, a.used, a.vehicle_id, ifnull(v.name, ''), "
        "       ifnull(p.name, '') "
        "FROM parts a LEFT JOIN vehicles v ON v.id = a.vehicle_id "
        "LEFT JOIN positions p ON p.id = a.position_id "
        "WHERE a.condition <> 'scrap' AND (a.position_id IS NULL OR a.vehicle_id IS NOT NULL) "
        "ORDER BY a.tag COLLATE NOCASE");
    while (rows.next()) {
        Spare spare{{rows.get<PartId>(0), rows.get<std::string>(1), rows.get<std::string>(2),
                     rows.get<std::string>(6),
                     stocks.of(rows.get<PartId>(0), rows.get<int>(3), rows.get<int>(4)).at_hand()},
                    rows.get<VehicleId>(5),
                    rows.get<std::string>(7)};
        if (spare.fit.pieces > 0) spares.push_back(std::move(spare));
    }
    return spares;
}

// Thousands of spares are asked for thousands of positions, many of one name: each name once.
class Spares {
  public:
    explicit Spares(std::vector<Spare> all) : all_(std::move(all)) {
        for (const Spare& spare : all_)
            in_small_.push_back({lower_ascii(spare.fit.name), lower_ascii(spare.for_position)});
    }

    std::vector<MightFit> fits_for(const Position& position) {
        std::vector<MightFit> fits;
        for (const Spare* spare : called(lower_ascii(position.name))) {
            const bool ours = !spare->vehicle || spare->vehicle == position.vehicle;
            if (ours && !spare->for_position.empty()) continue; // it has its own place
            fits.push_back(spare->fit);
            if (ours) fits.back().held_for.clear();
        }
        return fits;
    }

  private:
    struct InSmall {
        std::string name, for_position;
    };

    // Meant for a place of that name elsewhere, or holding each of its words; in small letters.
    const std::vector<const Spare*>& called(const std::string& name) {
        const auto [known, fresh] = by_name_.try_emplace(name);
        if (!fresh) return known->second;
        const auto words = split(name, ' ');
        for (std::size_t i = 0; i < all_.size(); ++i)
            if (in_small_[i].for_position == name ||
                std::ranges::all_of(words, [&](std::string_view word) {
                    return in_small_[i].name.find(word) != std::string::npos;
                }))
                known->second.push_back(&all_[i]);
        return known->second;
    }

    std::vector<Spare> all_;
    std::vector<InSmall> in_small_;
    std::map<std::string, std::vector<const Spare*>> by_name_;
};

std::map<PositionId, std::vector<AwayForIt>> away_in(store::Database& database) {
    std::map<PositionId, std::vector<AwayForIt>> away;
    auto rows = database.query(
        "SELECT a.position_id, a.id, a.tag, g.inward, i.quantity - i.back, ifnull(c.name, ''), "
        "       g.id, g.due_on "
        "FROM consignment_items i JOIN consignments g ON g.id = i.consignment_id "
        "JOIN parts a ON a.id = i.part_id LEFT JOIN contacts c ON c.id = g.contact_id "
        "WHERE i.back < i.quantity AND i.settled_how = '' AND a.position_id IS NOT NULL "
        "AND a.condition <> 'scrap' AND a.decision NOT IN ('hold', 'replace') "
        "AND (g.inward OR g.sent_on IS NOT NULL) ORDER BY g.id, i.id");
    while (rows.next()) {
        AwayForIt one{rows.get<PartId>(1),
                      rows.get<std::string>(2),
                      rows.get<bool>(3),
                      rows.get<int>(4),
                      rows.get<std::string>(5),
                      rows.get<std::int64_t>(6),
                      {}};
        if (auto due = parse_day(rows.get<std::string>(7))) one.due = *due;
        away[rows.get<PositionId>(0)].push_back(std::move(one));
    }
    return away;
}

struct Beside {
    Spares spares;
    std::map<PositionId, std::vector<AwayForIt>> away;
};

Done add_missing(const Notebook& notebook, const Vehicle& vehicle, Beside& beside,
                 std::vector<MissingLine>& lines) {
    auto fills = list_positions(notebook, vehicle.id);
    if (!fills) return fills.failure();
    for (auto& fill : *fills) {
        if (fill.missing() == 0) continue;
        MissingLine line{.vehicle = vehicle.name};
        if (auto away = beside.away.find(fill.position.id); away != beside.away.end())
            line.away = away->second;
        line.might_fit = beside.spares.fits_for(fill.position);
        line.fill = std::move(fill);
        lines.push_back(std::move(line));
    }
    return done();
}

} // namespace

std::string MightFit::words() const {
    return tag + " " + name + (pieces > 1 ? " × " + std::to_string(pieces) : std::string()) + ", " +
           (held_for.empty() ? "intended for no position" : "held for " + held_for);
}

std::string AwayForIt::words(Day today) const {
    std::string said =
        tag + ": " + std::to_string(pieces) + (inward ? " on the way from " : " with ") + firm;
    if (due) said += (*due < today ? ", overdue since " : ", due ") + to_words(*due);
    return said;
}

Result<std::vector<MissingLine>> list_missing(const Notebook& notebook, VehicleId vehicle) {
    auto vehicles = list_vehicles(notebook);
    if (!vehicles) return vehicles.failure();
    auto beside = notebook.read([](store::Database& database) {
        return Beside{Spares(spares_in(database)), away_in(database)};
    });
    if (!beside) return beside.failure();
    std::vector<MissingLine> lines;
    for (const auto& one : *vehicles) {
        if (vehicle && one.id != vehicle) continue;
        if (auto added = add_missing(notebook, one, *beside, lines); !added) return added.failure();
    }
    return lines;
}

std::string missing_csv(const std::vector<MissingLine>& lines, Day today) {
    std::string csv = csv_row({"vehicle", "group", "number", "name", "spec", "quantity", "on hand",
                               "in place", "out", "on its way", "to get", "away", "might fit"});
    for (const auto& [fill, vehicle, away, might_fit] : lines) {
        const Position& at = fill.position;
        std::vector<std::string> where, fits;
        for (const auto& one : away)
            where.push_back(one.words(today));
        for (const auto& one : might_fit)
            fits.push_back(one.words());
        csv += csv_row({vehicle, at.group, at.number, at.name, at.spec, std::to_string(at.quantity),
                        std::to_string(fill.on_hand), std::to_string(fill.used),
                        std::to_string(fill.out), std::to_string(fill.coming),
                        std::to_string(fill.to_get()), join(where, "; "), join(fits, "; ")});
    }
    return csv;
}

} // namespace fettle
