#include "notebook/bench.h"

#include "notebook/parts.h"
#include "notebook/photos.h"
#include "notebook/rules.h"
#include "notebook/runs.h"
#include "notebook/weather.h"
#include "store/quoted_name.h"

namespace fettle {
namespace {

// The condition in which it came is put down on the day it came, and what it went out in may be put
// down late: neither is a look at it.
constexpr std::string_view kArrivals =
    "SELECT i.consignment_id, i.part_id, p.tag, p.name, ifnull(c.name, ''), g.inward, i.back, "
    "       i.back_on "
    "FROM consignment_items i JOIN consignments g ON g.id = i.consignment_id "
    "JOIN parts p ON p.id = i.part_id LEFT JOIN contacts c ON c.id = g.contact_id "
    "WHERE i.back > 0 AND i.back_on IS NOT NULL "
    "AND NOT EXISTS (SELECT 1 FROM arrival_looks l WHERE l.consignment_id = i.consignment_id "
    "                AND l.part_id = i.part_id AND l.on_date >= i.back_on) "
    "AND NOT EXISTS (SELECT 1 FROM entry_parts x JOIN entries e ON e.id = x.entry_id "
    "                WHERE x.part_id = i.part_id AND e.on_date >= i.back_on) "
    "AND NOT EXISTS (SELECT 1 FROM measurements m "
    "                WHERE m.part_id = i.part_id AND m.on_date >= i.back_on) "
    "AND NOT EXISTS (SELECT 1 FROM condition_steps s "
    "                WHERE s.part_id = i.part_id AND s.on_date > i.back_on "
    "                AND s.condition <> i.condition_out) "
    "ORDER BY i.back_on DESC, i.consignment_id, i.id";

Arrival arrival_of(const store::Statement& row) {
    Arrival arrival;
    arrival.consignment = row.get<ConsignmentId>(0);
    arrival.part = row.get<PartId>(1);
    arrival.tag = row.get<std::string>(2);
    arrival.name = row.get<std::string>(3);
    arrival.firm = row.get<std::string>(4);
    arrival.inward = row.get<bool>(5);
    arrival.pieces = row.get<int>(6);
    if (auto day = parse_day(row.get<std::string>(7))) arrival.on = *day;
    return arrival;
}

Result<std::vector<SeenArrival>> seen_of(const Notebook& notebook, const Consignment& consignment) {
    auto photos = photos_of_arrival(notebook, consignment.id);
    if (!photos) return photos.failure();
    std::vector<SeenArrival> all;
    for (const SeenTags& seen : *photos) {
        SeenArrival one{consignment.id, seen.photo, {}};
        for (const PartId part : seen.parts)
            if (const ConsignmentItem* item = consignment.item(part)) one.tags.push_back(item->tag);
        all.push_back(std::move(one));
    }
    return all;
}

Done put_consignments(const Notebook& notebook, Day today, OnBench& bench) {
    auto all = list_consignments(notebook, today);
    if (!all) return all.failure();
    for (Consignment& consignment : *all) {
        const auto state = consignment.state(today);
        if (state == ConsignmentState::over) continue;
        if (state != ConsignmentState::packed) {
            auto seen = seen_of(notebook, consignment);
            if (!seen) return seen.failure();
            bench.seen.insert(bench.seen.end(), seen->begin(), seen->end());
        }
        bench.consignments.push_back(std::move(consignment));
    }
    return done();
}

Done put_photos(const Notebook& notebook, OnBench& bench) {
    auto untied = count_untied_photos(notebook);
    if (!untied) return untied.failure();
    bench.untied_photos = *untied;
    auto runs = list_runs(notebook, RunState::proposed);
    if (!runs) return runs.failure();
    bench.runs_to_confirm = static_cast<int>(runs->size());
    return done();
}

Done put_day(const Notebook& notebook, Day today, OnBench& bench) {
    auto tasks = list_tasks(notebook, today);
    if (!tasks) return tasks.failure();
    bench.tasks = std::move(*tasks);
    auto hours = hours_of_day(notebook, today);
    if (!hours) return hours.failure();
    bench.hours = *hours;
    auto weather = weather_on(notebook, today);
    if (!weather) return weather.failure();
    bench.temperature_c = weather->temperature_c;
    return done();
}

Result<bool> nothing_in(const Notebook& notebook) {
    return notebook.read([](store::Database& database) {
        for (const char* table : {"tasks", "photos", "parts", "entries", "consignments"})
            if (database.query("SELECT 1 FROM " + store::in_quotes(table) + " LIMIT 1").next())
                return false;
        return true;
    });
}

} // namespace

Result<std::vector<Arrival>> arrivals_to_look_at(const Notebook& notebook) {
    return notebook.read(
        [](store::Database& database) { return all_rows(database.query(kArrivals), arrival_of); });
}

Result<OnBench> on_bench(const Notebook& notebook, Day today) {
    OnBench bench;
    if (auto put = put_day(notebook, today, bench); !put) return put.failure();
    if (auto put = put_consignments(notebook, today, bench); !put) return put.failure();
    if (auto put = put_photos(notebook, bench); !put) return put.failure();
    auto arrivals = arrivals_to_look_at(notebook);
    if (!arrivals) return arrivals.failure();
    bench.arrivals = std::move(*arrivals);
    auto nothing = nothing_in(notebook);
    if (!nothing) return nothing.failure();
    bench.nothing_yet = *nothing;
    return bench;
}

Done looked_at(Notebook& notebook, ConsignmentId consignment, PartId part, Day on) {
    auto all = consignment_by_id(notebook, consignment);
    if (!all) return all.failure();
    const ConsignmentItem* item = all->item(part);
    if (!item || item->back == 0)
        return Failure{FailureKind::refused, "Nothing of this part has come with consignment " +
                                                 std::to_string(consignment.value) + "."};
    return notebook.act("looked at " + item->tag, [&](store::Database& database) -> Done {
        database.run("INSERT INTO arrival_looks(id, consignment_id, part_id, on_date) VALUES "
                     "(next_id('arrival_looks'), ?, ?, ?) "
                     "ON CONFLICT (consignment_id, part_id) DO UPDATE SET on_date = "
                     "excluded.on_date",
                     consignment, part, to_iso(on));
        return done();
    });
}

} // namespace fettle
