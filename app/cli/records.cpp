#include "cli/records.h"

#include "base/text.h"

#include <cmath>
#include <cstdio>

namespace fettle::cli {
namespace {

template <class T>
Json or_null(const std::optional<T>& value) {
    return value ? Json(*value) : Json();
}

Json iso_or_null(const std::optional<Day>& day) {
    return day ? Json(to_iso(*day)) : Json();
}
Json iso_or_null(const std::optional<Moment>& moment) {
    return moment ? Json(to_iso(*moment)) : Json();
}

Json tie_json(const Tie& tie, const Names& names) {
    Json json = Json::object();
    if (auto part = std::get_if<PartId>(&tie.to))
        json["part"] = names.tag(*part);
    else if (auto task = std::get_if<TaskId>(&tie.to))
        json["task"] = task->value;
    else
        json["entry"] = std::get<EntryId>(tie.to).value;
    json["stage"] = word(tie.stage);
    return json;
}

} // namespace

Result<Names> names_in(const Notebook& notebook) {
    Names names;
    auto parts = list_parts(notebook);
    if (!parts) return parts.failure();
    for (const auto& part : *parts)
        names.tags[part.id] = part.tag;
    auto vehicles = list_vehicles(notebook);
    if (!vehicles) return vehicles.failure();
    for (const auto& vehicle : *vehicles) {
        names.vehicles[vehicle.id] = vehicle.name;
        auto positions = list_positions(notebook, vehicle.id);
        if (!positions) return positions.failure();
        for (const auto& fill : *positions)
            names.positions[fill.position.id] = fill.position.number;
    }
    return names;
}

Json by_currency(const Purse& purse) {
    Json json = Json::object();
    for (const Money& money : purse.amounts())
        json[money.currency] = money.minor;
    return json;
}

Json to_json(const Part& part, const Names& names) {
    return {{"tag", part.tag},
            {"name", part.name},
            {"vehicle", names.vehicle(part.vehicle)},
            {"position", names.position(part.position)},
            {"origin", word(part.origin)},
            {"condition", word(part.condition)},
            {"decision", word(part.decision)},
            {"maker", part.maker},
            {"place", part.place},
            {"from", part.from},
            {"cost", part.cost ? to_words(*part.cost) : std::string()},
            {"quantity", part.quantity},
            {"used", part.used},
            {"within", part.within_tag},
            {"split", iso_or_null(part.split_on)},
            {"acquired", iso_or_null(part.acquired)},
            {"note", part.note}};
}

namespace {

std::string_view word_of(WaitsOn on) {
    switch (on) {
    case WaitsOn::task:
        return "task";
    case WaitsOn::position:
        return "position";
    case WaitsOn::delivery:
        return "delivery";
    case WaitsOn::warmth:
        return "warmth";
    case WaitsOn::words:
        break;
    }
    return "words";
}

Json id_or_null(std::int64_t id) {
    return id == 0 ? Json(nullptr) : Json(id);
}

} // namespace

Json json_of(const Wait& wait, const Names& names) {
    return {{"on", word_of(wait.on)},
            {"words", wait.words},
            {"task", id_or_null(wait.task.value)},
            {"position", names.position(wait.position)},
            {"part", names.tag(wait.part)},
            {"consignment", id_or_null(wait.consignment.value)}};
}

Json to_json(const PositionFill& fill, const Names& names) {
    const Position& position = fill.position;
    return {{"position", position.number},
            {"group", position.group},
            {"name", position.name},
            {"quantity", position.quantity},
            {"on_hand", fill.on_hand},
            {"in_place", fill.used},
            {"out", fill.out},
            {"on_its_way", fill.coming},
            {"missing", fill.missing()},
            {"to_get", fill.to_get()},
            {"spec", position.spec},
            {"chosen", names.tag(position.chosen)}};
}

Json to_json(const TaskStanding& standing, const Names& names) {
    const Task& task = standing.task;
    Json waits = Json::array(), waits_on = Json::array(), deliveries = Json::array();
    for (const Wait& wait : standing.waits) {
        waits.push_back(wait.words);
        waits_on.push_back(json_of(wait, names));
    }
    for (auto delivery : task.deliveries)
        deliveries.push_back(delivery.value);
    Json needs = Json::array();
    for (auto needed : task.needs)
        needs.push_back(needed.value);
    Json positions = Json::array();
    for (const auto& needed : task.positions)
        positions.push_back(Json{{"position", names.position(needed.position)},
                                 {"condition", word(needed.condition)}});
    return {{"task", task.id.value},
            {"title", task.title},
            {"state", word(task.state)},
            {"ready", standing.ready()},
            {"waits", waits},
            {"waits_on", waits_on},
            {"needs", needs},
            {"positions", positions},
            {"deliveries", deliveries},
            {"waits_for", task.waits_for},
            {"least_temperature_c", or_null(task.least_temperature_c)},
            {"hours", or_null(task.estimate_hours)},
            {"spent_hours", standing.spent_hours},
            {"left_hours", standing.left_hours},
            {"unlocks", standing.unlocks},
            {"after_tasks", standing.after.tasks},
            {"after_hours", standing.after.hours},
            {"earliest_start_hours", standing.span.earliest_start},
            {"latest_start_hours", standing.span.latest_start},
            {"slack_hours", standing.span.slack()},
            {"on_longest_chain", standing.on_longest_chain},
            {"done_on", iso_or_null(task.done_on)},
            {"note", task.note}};
}

Json to_json(const Entry& entry, const Names& names) {
    Json parts = Json::array();
    for (auto part : entry.parts)
        parts.push_back(names.tag(part));
    Json tasks = Json::array();
    for (auto task : entry.tasks)
        tasks.push_back(task.value);
    Json photos = Json::array();
    for (const auto& [photo, stage] : entry.photos)
        photos.push_back(Json{{"photo", photo.value}, {"stage", word(stage)}});
    Json results = Json::array();
    for (const auto& result : entry.results)
        results.push_back(Json{{"worked_result", result.id.value},
                               {"sheet", result.sheet},
                               {"plugin_version", result.plugin_version}});
    return {{"entry", entry.id.value},
            {"date", to_iso(entry.day)},
            {"hours", or_null(entry.hours)},
            {"text", entry.text},
            {"parts", parts},
            {"tasks", tasks},
            {"photos", photos},
            {"worked_results", results}};
}

Json to_json(const Mark& mark, const Names& names) {
    const auto& [x, y, w, h] = mark.region;
    return {{"mark", mark.id.value},
            {"photo", mark.photo.value},
            {"region", Json{{"x", x}, {"y", y}, {"w", w}, {"h", h}}},
            {"reading", mark.reading},
            {"maker", mark.maker},
            {"sure", word(mark.sure)},
            {"part", names.tag(mark.part)},
            {"seen_with",
             mark.seen_with.empty() ? Json() : Json::parse(mark.seen_with, nullptr, false)}};
}

Json to_json(const Notebook& notebook, const Photo& photo, const std::vector<Tie>& ties,
             const Names& names) {
    Json tied = Json::array();
    for (const auto& tie : ties)
        tied.push_back(tie_json(tie, names));
    return {{"photo", photo.id.value},
            {"taken", iso_or_null(photo.taken)},
            {"taken_by_camera", iso_or_null(photo.taken_by_camera)},
            {"taken_from", photo.taken ? Json(word(photo.taken_from)) : Json()},
            {"name", photo.original_name},
            {"file", photo_file(notebook, photo).string()},
            {"in_place", photo.in_place},
            {"hash", photo.hash},
            {"format", photo.format},
            {"width", photo.width},
            {"height", photo.height},
            {"bytes", photo.bytes},
            {"camera", std::string(trim(photo.camera_make + ' ' + photo.camera_model))},
            {"lens", photo.lens},
            {"latitude", or_null(photo.latitude)},
            {"longitude", or_null(photo.longitude)},
            {"altitude", or_null(photo.altitude)},
            {"damage", photo.damage},
            {"ties", tied}};
}

Result<Json> tied_photos(const Notebook& notebook, const std::vector<Tie>& ties) {
    Json photos = Json::array();
    for (const auto& tie : ties) {
        auto photo = photo_by_id(notebook, tie.photo);
        if (!photo) return photo.failure();
        photos.push_back(Json{{"photo", photo->id.value},
                              {"taken", iso_or_null(photo->taken)},
                              {"name", photo->original_name},
                              {"stage", word(tie.stage)}});
    }
    return photos;
}

std::string in_short(const Tie& tie) {
    if (auto task = std::get_if<TaskId>(&tie.to)) return "task " + std::to_string(task->value);
    if (auto entry = std::get_if<EntryId>(&tie.to)) return "entry " + std::to_string(entry->value);
    return tie.name;
}

std::string in_words(const Region& region) {
    return std::to_string(region.x) + ',' + std::to_string(region.y) + ',' +
           std::to_string(region.w) + ',' + std::to_string(region.h);
}

std::string hours_words(std::optional<double> hours) {
    if (!hours) return {};
    char text[32];
    std::snprintf(text, sizeof text, "%g h", std::round(*hours * 100) / 100);
    return text;
}

} // namespace fettle::cli
