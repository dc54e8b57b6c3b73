#include "desk/book_within.h"

#include <algorithm>

namespace fettle::desk {
namespace {

bool names_any(const Entry& entry, const std::map<PartId, Part>& parts,
               const BookSources& sources) {
    return std::ranges::any_of(entry.parts, [&](PartId id) {
        const auto found = parts.find(id);
        return found != parts.end() && sources.of_vehicle(found->second);
    });
}

} // namespace

BookSources::BookSources(const Notebook& from, const BookWish& asked)
    : notebook(from), wish(asked) {
    vehicles = book_must(list_vehicles(notebook));
    vehicle =
        wish.vehicle.empty() ? vehicles.front() : book_must(vehicle_named(notebook, wish.vehicle));
    for (const auto& each : vehicles) {
        auto list = book_must(list_positions(notebook, each.id));
        for (const auto& fill : list)
            positions[fill.position.id] = fill.position;
        if (wish.vehicle.empty() || each.id == vehicle.id)
            fills.insert(fills.end(), list.begin(), list.end());
    }
    for (auto& part : book_must(list_parts(notebook)))
        parts.emplace(part.id, std::move(part));
    for (auto& standing : book_must(list_tasks(notebook, today())))
        tasks.emplace(standing.task.id, std::move(standing.task));
    for (auto& entry : book_must(list_entries(notebook)))
        if (wanted(entry)) entries.push_back(std::move(entry));
    std::ranges::reverse(entries);
    consignments = book_must(list_consignments(notebook, today()));
}

bool BookSources::within(Day day) const {
    return (!wish.from || day >= *wish.from) && (!wish.to || day <= *wish.to);
}

bool BookSources::of_vehicle(const Part& part) const {
    if (wish.vehicle.empty()) return true;
    const auto position = positions.find(part.position);
    if (position != positions.end()) return position->second.vehicle == vehicle.id;
    // What is held for no vehicle belongs to the first.
    return part.vehicle ? part.vehicle == vehicle.id : vehicle.id == vehicles.front().id;
}

bool BookSources::wanted(const Entry& entry) const {
    if (!within(entry.day)) return false;
    if (wish.part) return std::ranges::find(entry.parts, wish.part) != entry.parts.end();
    if (wish.vehicle.empty() || names_any(entry, parts, *this)) return true;
    bool elsewhere = !entry.parts.empty();
    for (const auto id : entry.tasks) {
        const auto task = tasks.find(id);
        if (task == tasks.end() || !task->second.vehicle) continue;
        if (task->second.vehicle == vehicle.id) return true;
        elsewhere = true;
    }
    return !elsewhere && vehicle.id == vehicles.front().id;
}

std::vector<Part> BookSources::vehicle_parts() const {
    std::vector<Part> wanted_ones;
    for (const auto& [id, part] : parts)
        if (of_vehicle(part)) wanted_ones.push_back(part);
    std::ranges::sort(wanted_ones, {}, &Part::tag);
    return wanted_ones;
}

std::string BookSources::group_of(const Part& part) const {
    const auto position = positions.find(part.position);
    return position == positions.end() ? std::string() : position->second.group;
}

const Photo& BookSources::photo(PhotoId id) const {
    const auto known = photos_.find(id);
    if (known != photos_.end()) return known->second;
    return photos_.emplace(id, book_must(photo_by_id(notebook, id))).first->second;
}

Shot shot_of(const BookSources& sources, PhotoId id, const std::string& shows) {
    const Photo& photo = sources.photo(id);
    const std::string when = photo.taken ? to_words(photo.taken->day()) : std::string();
    std::string caption = shows;
    if (!when.empty()) caption += (caption.empty() ? "" : ", ") + when;
    std::string seen = caption.empty() ? "Photo " + std::to_string(id.value) : "Photo: " + caption;
    return {id, std::move(caption), std::move(seen), {}};
}

std::string anchor_of(const std::string& words) {
    std::string anchor;
    for (const char letter : lower_ascii(words)) {
        const bool plain = (letter >= 'a' && letter <= 'z') || (letter >= '0' && letter <= '9');
        if (plain)
            anchor += letter;
        else if (!anchor.empty() && anchor.back() != '-')
            anchor += '-';
    }
    return anchor.empty() ? "x" : anchor;
}

} // namespace fettle::desk
