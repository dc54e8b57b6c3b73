#include "notebook/drafts.h"

#include <nlohmann/json.hpp>

namespace fettle {
namespace {

using nlohmann::json;

template <class Tag>
json numbers(const std::vector<Id<Tag>>& ids) {
    auto list = json::array();
    for (auto id : ids)
        list.push_back(id.value);
    return list;
}

template <class Tag>
void read_numbers(const json& list, std::vector<Id<Tag>>& ids) {
    for (const auto& number : list)
        ids.push_back({number.get<std::int64_t>()});
}

json to_json(const EntryDraft& draft) {
    auto photos = json::array();
    for (const auto& [photo, stage] : draft.photos)
        photos.push_back({{"photo", photo.value}, {"stage", word(stage)}});
    auto sheets = json::array();
    for (const auto& sheet : draft.sheets)
        sheets.push_back({{"sheet", sheet.sheet}, {"inputs", sheet.inputs}});
    return {{"editing", draft.editing.value},
            {"day", draft.day},
            {"hours", draft.hours},
            {"text", draft.text},
            {"parts", numbers(draft.parts)},
            {"tasks", numbers(draft.tasks)},
            {"photos", photos},
            {"sheets", sheets}};
}

EntryDraft from_json(const json& body) {
    EntryDraft draft;
    draft.editing = {body.at("editing").get<std::int64_t>()};
    body.at("day").get_to(draft.day);
    body.at("hours").get_to(draft.hours);
    body.at("text").get_to(draft.text);
    read_numbers(body.at("parts"), draft.parts);
    read_numbers(body.at("tasks"), draft.tasks);
    for (const auto& photo : body.at("photos")) {
        auto stage = from_word<Stage>(photo.at("stage").get<std::string>());
        draft.photos.push_back(
            {{photo.at("photo").get<std::int64_t>()}, stage ? *stage : Stage::during});
    }
    for (const auto& sheet : body.at("sheets"))
        draft.sheets.push_back({sheet.at("sheet"), sheet.at("inputs")});
    return draft;
}

Done keep_body(Notebook& notebook, const std::string& name, const std::string& body) {
    return notebook.write_aside([&](store::Database& database) {
        database.run("INSERT INTO drafts(name, body, changed) VALUES (?, ?, ?) "
                     "ON CONFLICT (name) DO UPDATE SET body = excluded.body, "
                     "changed = excluded.changed",
                     name, body, to_iso(now()));
    });
}

// Blank when nothing is kept under the name.
Result<std::string> kept_body(const Notebook& notebook, const std::string& name) {
    return notebook.read([&](store::Database& database) {
        auto row = database.query("SELECT body FROM drafts WHERE name = ?", name);
        return row.next() ? row.get<std::string>(0) : std::string();
    });
}

} // namespace

Done keep_watched_folder(Notebook& notebook, const std::string& folder) {
    return keep_body(notebook, "watched folder", folder);
}

Result<std::string> watched_folder(const Notebook& notebook) {
    return kept_body(notebook, "watched folder");
}

Done keep_told_until(Notebook& notebook, Day day) {
    return keep_body(notebook, "told until", to_iso(day));
}

Result<std::optional<Day>> told_until(const Notebook& notebook) {
    auto body = kept_body(notebook, "told until");
    if (!body) return body.failure();
    if (body->empty()) return std::optional<Day>();
    auto day = parse_day(*body);
    if (!day) return day.failure();
    return std::optional<Day>(*day);
}

Done keep_draft(Notebook& notebook, const EntryDraft& draft) {
    // Half a character at the cursor is no reason to lose the rest.
    const auto body = to_json(draft).dump(-1, ' ', false, json::error_handler_t::replace);
    return keep_body(notebook, "entry", body);
}

Done drop_draft(Notebook& notebook) {
    return notebook.write_aside(
        [](store::Database& database) { database.run("DELETE FROM drafts WHERE name = 'entry'"); });
}

Result<EntryDraft> kept_draft(const Notebook& notebook) {
    auto body = kept_body(notebook, "entry");
    if (!body) return body.failure();
    if (body->empty()) return EntryDraft{};
    try {
        return from_json(json::parse(*body));
    } catch (const json::exception& error) {
        return Failure{FailureKind::damaged,
                       "The draft kept from last time cannot be read; it was left as it is.",
                       error.what()};
    }
}

} // namespace fettle
