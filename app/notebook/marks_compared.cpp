#include "notebook/marks_compared.h"

#include "base/near_names.h"
#include "base/text.h"
#include "notebook/people.h"
#include "notebook/rules.h"

#include <algorithm>
#include <map>

namespace fettle {
namespace {

// A reading as it is compared: without case and blanks.
std::string bare(std::string_view reading) {
    std::string signs = lower_ascii(reading);
    std::erase_if(signs, [](unsigned char sign) { return std::isspace(sign); });
    return signs;
}

// Where both are as long, a sign that could not be read in one fits any of the other.
bool fits_unread(std::string_view one, std::string_view other) {
    constexpr char kUnread = '?';
    return one.size() == other.size() && std::ranges::equal(one, other, [](char a, char b) {
               return a == b || a == kUnread || b == kUnread;
           });
}

std::map<VehicleId, std::vector<std::string>> all_makers_on(store::Database& database) {
    std::map<VehicleId, std::vector<std::string>> makers;
    auto rows = database.query("SELECT o.vehicle_id, k.name FROM vehicle_makers o "
                               "JOIN makers k ON k.id = o.maker_id ORDER BY k.name");
    while (rows.next())
        makers[rows.get<VehicleId>(0)].push_back(rows.get<std::string>(1));
    return makers;
}

// The vehicle a part is for: that of its position, else the one it is held for.
std::map<PartId, VehicleId> vehicles_of_parts(store::Database& database) {
    std::map<PartId, VehicleId> vehicles;
    auto rows = database.query("SELECT a.id, coalesce(p.vehicle_id, a.vehicle_id) FROM parts a "
                               "LEFT JOIN positions p ON p.id = a.position_id");
    while (rows.next())
        if (const auto vehicle = rows.get<VehicleId>(1)) vehicles[rows.get<PartId>(0)] = vehicle;
    return vehicles;
}

bool has(const std::vector<std::string>& names, const std::string& name) {
    return std::ranges::find(names, name) != names.end();
}

bool is_dealt_with(const Part& part) {
    return part.decision == Decision::hold || part.condition == Condition::scrap;
}

} // namespace

std::optional<Likeness> compare_readings(std::string_view one, std::string_view other) {
    const auto a = bare(one), b = bare(other);
    if (a.empty() || b.empty()) return {};
    if (a == b) return Likeness::same_reading;
    if (fits_unread(a, b)) return Likeness::near_reading;
    const auto longest = std::max(a.size(), b.size());
    // One sign of two would make everything alike.
    if (longest <= 2 || letters_apart(a, b) > std::max<std::size_t>(1, longest / 6)) return {};
    return Likeness::near_reading;
}

Result<std::vector<LikeMark>> marks_like(const Notebook& notebook, std::string_view reading,
                                         std::string_view maker, MarkId except) {
    auto marks = list_marks(notebook);
    if (!marks) return marks.failure();
    std::vector<LikeMark> like;
    for (auto& mark : *marks) {
        if (mark.id == except) continue;
        const bool same_maker = !maker.empty() && same_but_for_case(mark.maker, maker);
        auto how = compare_readings(mark.reading, reading);
        if (how == Likeness::same_reading && same_maker) how = Likeness::same_reading_and_maker;
        if (!how && same_maker) how = Likeness::same_maker;
        if (how) like.push_back({std::move(mark), *how});
    }
    std::ranges::stable_sort(like, {}, &LikeMark::how);
    return like;
}

Result<std::vector<std::string>> makers_on(const Notebook& notebook, VehicleId vehicle) {
    return notebook.read([&](store::Database& database) -> std::vector<std::string> {
        return all_makers_on(database)[vehicle];
    });
}

Done set_makers_on(Notebook& notebook, const Vehicle& vehicle,
                   const std::vector<std::string>& makers) {
    return notebook.act(
        "told whose marks belong on " + vehicle.name, [&](store::Database& database) -> Done {
            const auto before = all_makers_on(database)[vehicle.id];
            for (const auto& name : before)
                if (!has(makers, name))
                    database.run("DELETE FROM vehicle_makers WHERE vehicle_id = ? "
                                 "AND maker_id = ?",
                                 vehicle.id, maker_named(database, name));
            for (const auto& name : makers) {
                if (auto filled = require_text("maker's name", name); !filled) return filled;
                if (!has(before, name))
                    database.run("INSERT OR IGNORE INTO vehicle_makers(id, vehicle_id, "
                                 "maker_id) VALUES (next_id('vehicle_makers'), ?, ?)",
                                 vehicle.id, maker_named(database, name));
            }
            return done();
        });
}

std::string Disagreement::sentence() const {
    std::string why = "marked " + mark.reading + " by " + mark.maker;
    if (mark.sure != Sureness::certain) why += " (" + std::string(word(mark.sure)) + ")";
    why += ", whose marks are not told for " + vehicle.name;
    for (std::size_t at = 0; at < fits.size(); ++at)
        why += (at == 0 ? "; they belong on " : ", ") + fits[at].name;
    return why;
}

Result<std::vector<Disagreement>> disagreeing_parts(const Notebook& notebook) {
    auto vehicles = list_vehicles(notebook);
    if (!vehicles) return vehicles.failure();
    auto marks = list_marks(notebook);
    if (!marks) return marks.failure();
    auto makers = notebook.read(all_makers_on);
    if (!makers) return makers.failure();
    auto for_vehicle = notebook.read(vehicles_of_parts);
    if (!for_vehicle) return for_vehicle.failure();

    std::vector<Disagreement> found;
    for (const auto& mark : *marks) {
        const auto is_for = for_vehicle->find(mark.part);
        if (mark.maker.empty() || is_for == for_vehicle->end()) continue;
        const auto told = makers->find(is_for->second);
        if (told == makers->end() || has(told->second, mark.maker)) continue;
        auto part = part_by_id(notebook, mark.part);
        if (!part) return part.failure();
        if (is_dealt_with(*part)) continue;
        Disagreement disagreement{
            *part, mark, *std::ranges::find(*vehicles, is_for->second, &Vehicle::id), {}};
        for (const auto& vehicle : *vehicles)
            if (const auto on = makers->find(vehicle.id);
                on != makers->end() && has(on->second, mark.maker))
                disagreement.fits.push_back(vehicle);
        found.push_back(std::move(disagreement));
    }
    std::ranges::stable_sort(found, {}, [](const Disagreement& each) { return each.part.tag; });
    return found;
}

Done hold_for(Notebook& notebook, PartId id, const Vehicle& vehicle) {
    auto part = part_by_id(notebook, id);
    if (!part) return part.failure();
    part->position = {};
    part->vehicle = vehicle.id;
    part->decision = Decision::hold;
    return notebook.act("held " + part->tag + " for " + vehicle.name,
                        [&](store::Database&) { return set_part(notebook, *part); });
}

} // namespace fettle
