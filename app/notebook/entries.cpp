#include "notebook/entries.h"

#include "notebook/rules.h"
#include "store/quoted_name.h"

#include <map>

namespace fettle {
namespace {

Done check_entry(const Entry& entry) {
    const bool bare = !require_text("text", entry.text) && entry.parts.empty() &&
                      entry.tasks.empty() && entry.photos.empty() && entry.results.empty();
    if (bare)
        return Failure{FailureKind::invalid,
                       "The entry is empty: write some text, or attach a photo or a worked sheet."};
    if (entry.hours && !(*entry.hours >= 0 && *entry.hours <= 24))
        return Failure{FailureKind::invalid, "The hours of an entry are accepted from 0 to 24."};
    return done();
}

Done require_row(store::Database& database, const char* kind, const char* sql, std::int64_t id) {
    if (database.query(sql, id).next()) return done();
    return nothing_called(kind, std::to_string(id));
}

void insert_result(store::Database& database, EntryId entry, const WorkedResult& result) {
    database.run("INSERT INTO worked_results(id, entry_id, sheet, plugin_version, answer) "
                 "VALUES (next_id('worked_results'), ?, ?, ?, ?)",
                 entry, result.sheet, result.plugin_version, result.answer);
}

void clear_attachments(store::Database& database, EntryId id) {
    for (const char* table : {"entry_parts", "entry_tasks", "ties"})
        database.run("DELETE FROM " + store::in_quotes(table) + " WHERE entry_id = ?", id);
}

// Those that are the same stay the rows they were: another machine may have changed the entry, too,
// and would have each twice.
void write_results(store::Database& database, EntryId id, std::vector<WorkedResult> wanted) {
    auto kept = database.query("SELECT id, sheet, plugin_version, answer FROM worked_results "
                               "WHERE entry_id = ? ORDER BY id",
                               id);
    std::vector<std::int64_t> dropped;
    while (kept.next()) {
        const auto same = std::ranges::find_if(wanted, [&](const WorkedResult& result) {
            return result.sheet == kept.get<std::string>(1) &&
                   result.plugin_version == kept.get<std::string>(2) &&
                   result.answer == kept.get<std::string>(3);
        });
        if (same == wanted.end())
            dropped.push_back(kept.get<std::int64_t>(0));
        else
            wanted.erase(same);
    }
    for (const auto row : dropped)
        database.run("DELETE FROM worked_results WHERE id = ?", row);
    for (const auto& result : wanted)
        insert_result(database, id, result);
}

Done write_attachments(store::Database& database, const Entry& entry, EntryId id) {
    for (auto part : entry.parts) {
        auto there = require_row(database, "part", "SELECT 1 FROM parts WHERE id = ?", part.value);
        if (!there) return there;
        database.run("INSERT OR IGNORE INTO entry_parts VALUES (?, ?)", id, part);
    }
    for (auto task : entry.tasks) {
        auto there = require_row(database, "task", "SELECT 1 FROM tasks WHERE id = ?", task.value);
        if (!there) return there;
        database.run("INSERT OR IGNORE INTO entry_tasks VALUES (?, ?)", id, task);
    }
    for (const auto& [photo, stage] : entry.photos) {
        auto there =
            require_row(database, "photo", "SELECT 1 FROM photos WHERE id = ?", photo.value);
        if (!there) return there;
        database.run("INSERT OR IGNORE INTO ties(id, photo_id, entry_id, stage) VALUES "
                     "(next_id('ties'), ?, ?, ?)",
                     photo, id, word(stage));
    }
    write_results(database, id, entry.results);
    return done();
}

// Reads a two-column query (entry id, something) into the entries it belongs to.
template <class Add>
void attach(std::map<EntryId, Entry*>& entries, store::Statement rows, Add add) {
    while (rows.next()) {
        auto entry = entries.find(rows.get<EntryId>(0));
        if (entry != entries.end()) add(*entry->second, rows);
    }
}

constexpr std::size_t kFew = 200;

void read_attachments(store::Database& database, std::vector<Entry>& entries) {
    std::map<EntryId, Entry*> by_id;
    for (auto& entry : entries)
        by_id[entry.id] = &entry;
    // A few entries are asked for often, all of them at once seldom: both by the same queries.
    std::string where = " WHERE entry_id IS NOT NULL";
    if (entries.size() <= kFew) {
        std::string ids;
        for (const auto& entry : entries)
            ids += (ids.empty() ? "" : ", ") + std::to_string(entry.id.value);
        where = " WHERE entry_id IN (" + ids + ")";
    }
    attach(by_id, database.query("SELECT entry_id, part_id FROM entry_parts" + where),
           [](Entry& entry, const store::Statement& row) {
               entry.parts.push_back(row.get<PartId>(1));
           });
    attach(by_id, database.query("SELECT entry_id, task_id FROM entry_tasks" + where),
           [](Entry& entry, const store::Statement& row) {
               entry.tasks.push_back(row.get<TaskId>(1));
           });
    attach(by_id,
           database.query("SELECT entry_id, photo_id, stage FROM ties" + where + " ORDER BY id"),
           [](Entry& entry, const store::Statement& row) {
               entry.photos.push_back({row.get<PhotoId>(1), stored_word<Stage>(row, 2)});
           });
    attach(by_id,
           database.query("SELECT entry_id, id, sheet, plugin_version, answer FROM worked_results" +
                          where + " ORDER BY id"),
           [](Entry& entry, const store::Statement& row) {
               entry.results.push_back({row.get<WorkedResultId>(1), row.get<EntryId>(0),
                                        row.get<std::string>(2), row.get<std::string>(3),
                                        row.get<std::string>(4)});
           });
}

constexpr std::string_view kColumns = "SELECT id, on_date, hours, text FROM entries e ";

Entry entry_of(const store::Statement& row) {
    Entry entry;
    entry.id = row.get<EntryId>(0);
    if (auto day = parse_day(row.get<std::string>(1))) entry.day = *day;
    entry.hours = row.get<std::optional<double>>(2);
    entry.text = row.get<std::string>(3);
    return entry;
}

} // namespace

Result<EntryId> write_entry(Notebook& notebook, const Entry& entry) {
    const auto day = to_words(entry.day);
    return notebook.act(
        (entry.id ? "changed the entry of " : "wrote the entry of ") + day,
        [&](store::Database& database) -> Result<EntryId> {
            if (auto fine = check_entry(entry); !fine) return fine.failure();
            auto id = entry.id;
            if (!id)
                id = {database.insert("INSERT INTO entries(id, on_date, hours, text, written) "
                                      "VALUES (next_id('entries'), ?, ?, ?, ?)",
                                      to_iso(entry.day), entry.hours, entry.text, to_iso(now()))};
            else {
                database.run("UPDATE entries SET on_date = ?, hours = ?, text = ? WHERE id = ?",
                             to_iso(entry.day), entry.hours, entry.text, id);
                if (database.rows_changed() == 0)
                    return nothing_called("entry", std::to_string(id.value));
                clear_attachments(database, id);
            }
            if (auto written = write_attachments(database, entry, id); !written)
                return written.failure();
            return id;
        });
}

Done remove_entry(Notebook& notebook, EntryId id) {
    auto entry = entry_by_id(notebook, id);
    if (!entry) return entry.failure();
    return notebook.act("removed the entry of " + to_words(entry->day),
                        [&](store::Database& database) -> Done {
                            clear_attachments(database, id);
                            write_results(database, id, {});
                            database.run("DELETE FROM entries WHERE id = ?", id);
                            return done();
                        });
}

Result<WorkedResultId> add_result(Notebook& notebook, EntryId entry, const WorkedResult& result) {
    return notebook.act("added a worked result, " + result.sheet,
                        [&](store::Database& database) -> Result<WorkedResultId> {
                            auto there =
                                require_row(database, "entry", "SELECT 1 FROM entries WHERE id = ?",
                                            entry.value);
                            if (!there) return there.failure();
                            insert_result(database, entry, result);
                            return WorkedResultId{database.last_row()};
                        });
}

Result<WorkedResult> result_by_id(const Notebook& notebook, WorkedResultId id) {
    return one_row(
        notebook, "worked result", std::to_string(id.value),
        [](const store::Statement& row) {
            return WorkedResult{row.get<WorkedResultId>(0), row.get<EntryId>(1),
                                row.get<std::string>(2), row.get<std::string>(3),
                                row.get<std::string>(4)};
        },
        "SELECT id, entry_id, sheet, plugin_version, answer FROM worked_results WHERE id IS ?", id);
}

Result<Entry> entry_by_id(const Notebook& notebook, EntryId id) {
    auto entry = one_row(notebook, "entry", std::to_string(id.value), entry_of,
                         std::string(kColumns) + "WHERE id IS ?", id);
    if (!entry) return entry;
    return notebook.read([&](store::Database& database) {
        std::vector<Entry> one{std::move(*entry)};
        read_attachments(database, one);
        return std::move(one.front());
    });
}

Result<std::vector<EntryOnDay>> list_entry_days(const Notebook& notebook) {
    return notebook.read([](store::Database& database) {
        return all_rows(
            database.query("SELECT id, on_date FROM entries ORDER BY on_date DESC, id DESC"),
            [](const store::Statement& row) {
                EntryOnDay line{row.get<EntryId>(0), {}};
                if (auto day = parse_day(row.get<std::string>(1))) line.day = *day;
                return line;
            });
    });
}

Result<std::vector<Entry>> list_entries(const Notebook& notebook, const EntryFilter& filter) {
    const auto where =
        Conditions()
            .among("e.id", "SELECT entry_id FROM entry_parts WHERE part_id =", filter.part)
            .among("e.id", "SELECT entry_id FROM entry_tasks WHERE task_id =", filter.task);
    return notebook.read([&](store::Database& database) {
        auto entries = all_rows(database.query(std::string(kColumns) + where.sql() +
                                               "ORDER BY e.on_date DESC, e.id DESC"),
                                entry_of);
        read_attachments(database, entries);
        return entries;
    });
}

} // namespace fettle
