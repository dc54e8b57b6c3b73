#include "notebook/recorded_tables.h"

#include <algorithm>
#include <array>

namespace fettle {
namespace {

// Drafts and history are left out. Rows stand after those they speak of, as far as that goes.
constexpr std::array kTables = {
    RecordedTable{.name = "vehicles", .once = "name"},
    RecordedTable{.name = "vehicle_makers", .once = "vehicle_id,maker_id"},
    RecordedTable{.name = "positions", .once = "vehicle_id,number"},
    RecordedTable{.name = "contacts", .once = "name"},
    RecordedTable{.name = "makers", .once = "name"},
    RecordedTable{.name = "parts", .together = "cost_minor,currency;quantity,used", .once = "tag"},
    RecordedTable{.name = "photos",
                  .together = "taken,taken_by_camera,taken_from,taken_near,at;"
                              "latitude,longitude,altitude;width,height,orientation",
                  .once = "hash",
                  .quiet = "original_name,taken,bytes,format,width,camera_make,camera_model,lens,"
                           "damage,sharpness,likeness",
                  .local = "file,in_place"},
    RecordedTable{.name = "tasks", .together = "state,done_on"},
    RecordedTable{.name = "task_needs"},
    RecordedTable{.name = "task_positions"},
    RecordedTable{.name = "entries", .quiet = "written"},
    RecordedTable{.name = "entry_parts"},
    RecordedTable{.name = "entry_tasks"},
    RecordedTable{.name = "worked_results", .together = "sheet,plugin_version,answer"},
    RecordedTable{.name = "ties",
                  .together = "photo_id,part_id,task_id,entry_id",
                  .once = "photo_id,part_id,task_id,entry_id"},
    RecordedTable{.name = "marks", .together = "x,y,w,h"},
    RecordedTable{.name = "day_conditions"},
    RecordedTable{
        .name = "clocks", .together = "ahead_ms,zone_min", .once = "camera_make,camera_model"},
    RecordedTable{.name = "tag_reads", .once = "photo_id,tag", .quiet = "*"},
    RecordedTable{.name = "runs", .together = "state,stage", .quiet = "*"},
    RecordedTable{.name = "run_photos",
                  .together = "run_id,is_out,made_tie",
                  .once = "photo_id",
                  .quiet = "*"},
    RecordedTable{.name = "position_features", .once = "position_id,feature"},
    RecordedTable{.name = "measurements", .together = "sheet,plugin_version,answer,verdict"},
    RecordedTable{.name = "photo_pairs", .once = "photo_id,onto_id"},
    RecordedTable{.name = "photo_scales", .together = "known,measured", .once = "photo_id"},
    RecordedTable{.name = "consignments",
                  .together = "value_minor,currency;settled_on,settled_how"},
    RecordedTable{.name = "consignment_items",
                  .together = "quantity,back,back_on,condition_back;value_minor,currency",
                  .once = "consignment_id,part_id"},
    RecordedTable{.name = "consignment_photos", .once = "consignment_id,photo_id"},
    RecordedTable{
        .name = "evidence", .together = "photo_id,none_because", .once = "part_id,shows,photo_id"},
    RecordedTable{.name = "task_consignments", .once = "task_id,consignment_id"},
    RecordedTable{.name = "arrival_looks", .once = "consignment_id,part_id", .quiet = "*"},
    RecordedTable{.name = "condition_steps", .together = "condition,on_date", .quiet = "*"},
    RecordedTable{.name = "costs",
                  .together = "amount_minor,currency;part_id,task_id,consignment_id"},
    RecordedTable{.name = "helps"},
    RecordedTable{.name = "estimates", .once = "vehicle_id,parts_group,currency"},
    RecordedTable{.name = "same_rows", .quiet = "*"},
    RecordedTable{
        .name = "differences", .once = "tab,row,field,other_side,other_moment", .quiet = "*"},
};

constexpr auto kNames = [] {
    std::array<const char*, kTables.size()> names{};
    for (std::size_t at = 0; at < kTables.size(); ++at)
        names[at] = kTables[at].name;
    return names;
}();

bool is_in(std::string_view list, std::string_view field) {
    for (const auto& group : groups_of_fields(list))
        if (std::ranges::find(group, field) != group.end()) return true;
    return false;
}

} // namespace

std::span<const RecordedTable> recorded_tables() {
    return kTables;
}

std::span<const char* const> recorded_names() {
    return kNames;
}

const RecordedTable* recorded_table(std::string_view name) {
    const auto found = std::ranges::find(kTables, name, &RecordedTable::name);
    return found == kTables.end() ? nullptr : &*found;
}

std::vector<std::vector<std::string>> groups_of_fields(std::string_view list) {
    std::vector<std::vector<std::string>> groups;
    if (list.empty()) return groups;
    groups.emplace_back().emplace_back();
    for (const char letter : list) {
        if (letter == ';')
            groups.emplace_back().emplace_back();
        else if (letter == ',')
            groups.back().emplace_back();
        else
            groups.back().back() += letter;
    }
    return groups;
}

std::string field_of(const RecordedTable& table, const std::string& column) {
    if (is_in(table.local, column)) return {};
    for (const auto& group : groups_of_fields(table.together))
        if (std::ranges::find(group, column) != group.end()) return group.front();
    return column;
}

bool is_quiet(const RecordedTable& table, const std::string& field) {
    return table.quiet == "*" || is_in(table.quiet, field);
}

} // namespace fettle
