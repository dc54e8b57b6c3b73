#include "notebook/difference_words.h"

#include "base/text.h"
#include "notebook/money.h"
#include "notebook/rules.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <map>

namespace fettle {
namespace {

using nlohmann::json;

// SQL that says a record of a table in words; ?1 names it.
const std::map<std::string_view, const char*> kRecords = {
    {"vehicles", "SELECT 'vehicle ' || name FROM vehicles WHERE id = ?1"},
    {"positions", "SELECT 'position ' || number || ' ' || name FROM positions WHERE id = ?1"},
    {"contacts", "SELECT name FROM contacts WHERE id = ?1"},
    {"makers", "SELECT 'maker ' || name FROM makers WHERE id = ?1"},
    {"parts", "SELECT tag || ' ' || name FROM parts WHERE id = ?1"},
    {"photos", "SELECT 'photo ' || original_name FROM photos WHERE id = ?1"},
    {"tasks", "SELECT 'task ' || title FROM tasks WHERE id = ?1"},
    {"entries", "SELECT 'entry of ' || on_date FROM entries WHERE id = ?1"},
    {"worked_results", "SELECT r.sheet || ' on the entry of ' || e.on_date FROM worked_results r "
                       "JOIN entries e ON e.id = r.entry_id WHERE r.id = ?1"},
    {"ties",
     "SELECT 'what photo ' || p.original_name || ' shows' FROM ties t JOIN photos p ON p.id "
     "= t.photo_id WHERE t.id = ?1"},
    {"marks", "SELECT 'mark ' || m.reading || ' on ' || p.original_name FROM marks m JOIN photos p "
              "ON p.id = m.photo_id WHERE m.id = ?1"},
    {"day_conditions", "SELECT 'the day ' || ?1"},
    {"clocks",
     "SELECT 'clock of ' || trim(camera_make || ' ' || camera_model) FROM clocks WHERE id "
     "= ?1"},
    {"position_features", "SELECT f.feature || ' at ' || p.number || ' ' || p.name FROM "
                          "position_features f JOIN positions p ON p.id = f.position_id WHERE f.id "
                          "= ?1"},
    {"measurements", "SELECT m.feature || ' of ' || p.tag || ' on ' || m.on_date FROM measurements "
                     "m JOIN parts p ON p.id = m.part_id WHERE m.id = ?1"},
    {"photo_pairs", "SELECT 'points matched in ' || p.original_name FROM photo_pairs x JOIN photos "
                    "p ON p.id = x.photo_id WHERE x.id = ?1"},
    {"photo_scales", "SELECT 'what was measured in ' || p.original_name FROM photo_scales x JOIN "
                     "photos p ON p.id = x.photo_id WHERE x.id = ?1"},
    {"consignments", "SELECT 'consignment ' || c.id || ifnull(' to ' || k.name, '') FROM "
                     "consignments c LEFT JOIN contacts k ON k.id = c.contact_id WHERE c.id = ?1"},
    {"consignment_items", "SELECT p.tag || ' on consignment ' || i.consignment_id FROM "
                          "consignment_items i JOIN parts p ON p.id = i.part_id WHERE i.id = ?1"},
    {"evidence",
     "SELECT 'evidence of ' || p.tag || ': ' || e.shows FROM evidence e JOIN parts p ON "
     "p.id = e.part_id WHERE e.id = ?1"},
    {"costs", "SELECT 'cost of ' || what FROM costs WHERE id = ?1"},
    {"helps", "SELECT 'what ' || k.name || ' ' || h.did FROM helps h JOIN contacts k ON k.id = "
              "h.contact_id WHERE h.id = ?1"},
    {"estimates", "SELECT 'estimate of ' || parts_group FROM estimates WHERE id = ?1"},
    {"task_positions",
     "SELECT 'what task ' || t.title || ' needs at ' || p.number FROM task_positions x JOIN tasks "
     "t "
     "ON t.id = x.task_id JOIN positions p ON p.id = x.position_id WHERE x.task_id || ',' || "
     "x.position_id = ?1"},
};

// Fields whose column does not say it well enough, by table and field, or by field alone.
const std::map<std::string_view, const char*> kFields = {
    {"parts.place", "where it is kept"},
    {"parts.cost_minor", "what it cost"},
    {"parts.quantity", "pieces and how many are used"},
    {"parts.within_id", "the assembly it is a piece of"},
    {"parts.contact_id", "whom it came from"},
    {"positions.chosen_part_id", "the part to use"},
    {"positions.parts_group", "group"},
    {"tasks.least_temperature_c", "least temperature, °C"},
    {"tasks.estimate_hours", "estimated hours"},
    {"tasks.waits_for", "what it waits for"},
    {"tasks.needs", "what it needs"},
    {"entries.on_date", "day"},
    {"costs.part_id", "what it was for"},
    {"costs.contact_id", "to whom it was paid"},
    {"ties.photo_id", "what it is tied to"},
    {"evidence.photo_id", "what shows it"},
    {"marks.x", "where it stands"},
    {"worked_results.sheet", "what was worked out"},
    {"measurements.sheet", "what was read and found"},
    {"consignment_items.quantity", "what went and came back"},
    {"consignments.settled_on", "whether it is settled"},
    {"day_conditions.temperature_c", "temperature, °C"},
    {"day_conditions.humidity", "humidity"},
    {"clocks.ahead_ms", "how far it is ahead, ms, and its zone"},
    {"value_minor", "declared value"},
    {"amount_minor", "amount"},
    {"on_date", "day"},
    {"in_credits", "named in the credits"},
};

// Tables that a column ending in _id speaks of.
const std::map<std::string_view, std::string_view> kSpoken = {{"position_id", "positions"},
                                                              {"vehicle_id", "vehicles"},
                                                              {"maker_id", "makers"},
                                                              {"contact_id", "contacts"},
                                                              {"part_id", "parts"},
                                                              {"chosen_part_id", "parts"},
                                                              {"within_id", "parts"},
                                                              {"photo_id", "photos"},
                                                              {"onto_id", "photos"},
                                                              {"task_id", "tasks"},
                                                              {"needs_id", "tasks"},
                                                              {"entry_id", "entries"},
                                                              {"consignment_id", "consignments"}};

constexpr std::array kFreeText = {"name",    "note",    "place",          "text",    "title",
                                  "what",    "purpose", "carrier",        "reading", "spec",
                                  "sign",    "maker",   "carrier_number", "number",  "waits_for",
                                  "feature", "tag",     "parts_group"};
constexpr std::array kMayBeBlank = {"note", "place", "carrier",        "spec",
                                    "sign", "maker", "carrier_number", "waits_for"};

std::string spaced(std::string_view name) {
    std::string words(name);
    for (const char* ending : {"_id", "_minor", "_on"})
        if (words.ends_with(ending)) words.resize(words.size() - std::string(ending).size());
    std::ranges::replace(words, '_', ' ');
    return words;
}

std::string scalar_words(store::Database& database, const std::string& column, const json& value) {
    if (value.is_null()) return "nothing";
    if (const auto spoken = kSpoken.find(column);
        spoken != kSpoken.end() && value.is_number_integer())
        return record_words(database, std::string(spoken->second), value.get<std::int64_t>());
    if (!value.is_string()) return value.dump();
    auto text = value.get<std::string>();
    if (text.empty()) return "nothing";
    if (const auto day = parse_day(text); day && text.size() == 10) return to_words(*day);
    return text;
}

} // namespace

std::string record_words(store::Database& database, const std::string& table,
                         const store::RowKey& row) {
    const auto known = kRecords.find(table);
    if (known != kRecords.end())
        if (auto words = database.query(known->second, row); words.next())
            return words.get<std::string>(0);
    const auto number = std::get_if<std::int64_t>(&row);
    return spaced(table) + ' ' + (number ? std::to_string(*number) : std::get<std::string>(row)) +
           (known == kRecords.end() ? "" : ", which is no longer there");
}

std::string field_words(const std::string& table, const std::string& field) {
    for (const auto& name : {table + '.' + field, field})
        if (const auto known = kFields.find(name); known != kFields.end()) return known->second;
    return spaced(field);
}

std::string values_words(store::Database& database, const std::string& table,
                         const std::string& text) {
    const auto values = json::parse(text, nullptr, false);
    if (!values.is_object() || values.empty()) return {};
    std::vector<std::string> words;
    for (const auto& [column, value] : values.items()) {
        if (column == "answer" || column == "at" || column == "plugin_version") continue;
        if (column.ends_with("_minor") && value.is_number_integer()) {
            const auto currency = values.value("currency", json());
            words.push_back(currency.is_string()
                                ? to_words(Money{value.get<std::int64_t>(), currency})
                                : value.dump());
        } else if (column == "currency" && values.size() > 1) {
            if (value.is_null()) words.emplace_back("nothing");
        } else if (value.is_null() && values.size() > 1) {
            continue; // of several fields only those that are filled
        } else {
            auto said = scalar_words(database, column, value);
            words.push_back(values.size() > 1 && !column.ends_with("_id")
                                ? field_words(table, column) + ' ' + said
                                : said);
        }
    }
    return words.empty() ? "nothing" : join(words, ", ");
}

bool is_free_text(const std::string& table, const std::string& field) {
    if (table == "differences" || table == "same_rows") return false;
    return std::ranges::find(kFreeText, field) != kFreeText.end();
}

bool may_be_blank(const std::string& field) {
    return std::ranges::find(kMayBeBlank, field) != kMayBeBlank.end();
}

} // namespace fettle
