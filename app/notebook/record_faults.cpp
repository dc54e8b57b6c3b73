#include "notebook/record_faults.h"

#include "base/text.h"
#include "notebook/consignments.h"
#include "notebook/credits.h"
#include "notebook/entries.h"
#include "notebook/marks.h"
#include "notebook/parts.h"
#include "notebook/photos.h"
#include "notebook/positions.h"
#include "notebook/schema/schema.h"
#include "notebook/search.h"
#include "notebook/task_graph.h"
#include "notebook/tasks.h"
#include "notebook/vehicles.h"
#include "notebook/written_rows.h"
#include "store/migrate.h"
#include "store/soundness.h"

#include <map>

namespace fettle {
namespace {

const std::string kRestore = std::string(kHowToSave);
const std::string kLookAndWrite =
    "Look at it and write it anew; or restore the newest backup into a "
    "new folder: fettlebook restore FILE DIR.";

std::string word_rows(FoundKind kind) {
    const auto number = std::to_string(static_cast<int>(kind));
    return "SELECT id * 16 + " + number + " AS at, '" + std::string(word(kind)) +
           "' AS kind, text FROM says_" + std::string(word(kind));
}

// Whether the words kept for each record are those it says now.
bool words_agree(store::Database& database) {
    std::int64_t all = 0;
    for (const FoundKind kind : kFoundKinds) {
        auto odd =
            database.query("SELECT count(*), ifnull(sum(w.text IS NOT s.text OR w.kind IS NOT "
                           "s.kind), 0) FROM (" +
                           word_rows(kind) + ") s LEFT JOIN words w ON w.rowid = s.at");
        odd.next();
        all += odd.get<std::int64_t>(0);
        if (odd.get<std::int64_t>(1) > 0) return false;
    }
    auto count = database.query("SELECT count(*) FROM words");
    count.next();
    return count.get<std::int64_t>(0) == all;
}

// The index against the words it is of; FTS5's own check, which SQLite's leaves out. Writes nothing
// but counts as writing: for a copy.
bool index_is_whole(store::Database& copy) {
    try {
        copy.run("INSERT INTO words(words) VALUES ('integrity-check')");
        return words_agree(copy);
    } catch (const store::Trouble&) {
        return false;
    }
}

// Tables, indexes, views and triggers must be word for word those of a notebook made anew.
std::vector<std::string> odd_in_schema(store::Database& copy) {
    const auto all_of = [](store::Database& database) {
        std::map<std::string, std::string> all;
        auto rows = database.query("SELECT type || ' ' || name, ifnull(sql, '') FROM sqlite_schema "
                                   "WHERE name NOT LIKE 'sqlite\\_stat%' ESCAPE '\\'");
        while (rows.next())
            all[rows.get<std::string>(0)] = rows.get<std::string>(1);
        return all;
    };
    store::Database fresh({}, store::Access::write);
    store::migrate(fresh, kApplicationId, kSchemaSteps);
    const auto wanted = all_of(fresh), there = all_of(copy);
    std::vector<std::string> odd;
    for (const auto& [name, sql] : wanted)
        if (const auto found = there.find(name); found == there.end())
            odd.push_back("the " + name + " is missing");
        else if (found->second != sql)
            odd.push_back("the " + name + " is not as this program makes it");
    for (const auto& [name, sql] : there)
        if (!wanted.contains(name)) odd.push_back("the " + safe_utf8(name) + " is none of ours");
    return odd;
}

std::vector<RecordFault> faults_of(store::Database& database) {
    std::vector<RecordFault> faults;
    store::Database copy = store::private_copy(database);
    for (const auto& line : store::integrity_faults(copy))
        faults.push_back({"The database is damaged: " + line + ".", kRestore});
    if (!faults.empty()) return faults; // what follows would trip over it
    for (const auto& odd : odd_in_schema(copy))
        faults.push_back({"The database is damaged: " + odd + ".", kRestore});
    if (!faults.empty()) return faults;
    for (const auto& [table, refers_to] : store::dangling_references(copy))
        faults.push_back(
            {"A row of " + table + " speaks of a row of " + refers_to + " that is not there.",
             kRestore});
    if (!index_is_whole(copy))
        faults.push_back({"The index of words does not agree with the records: finding may miss "
                          "something.",
                          "Mend (" + std::string(kHowToMend) + ") makes it anew.", true});
    for (auto& sentence : faults_against_changes(copy))
        faults.push_back({std::move(sentence), kLookAndWrite});
    return faults;
}

std::optional<std::string> circle_of_tasks(store::Database& database) {
    std::map<std::int64_t, TaskPlace> places;
    std::vector<std::string> titles;
    TaskGraph graph;
    auto tasks = database.query("SELECT id, title FROM tasks");
    while (tasks.next()) {
        places.emplace(tasks.get<std::int64_t>(0), TaskPlace(titles.size()));
        titles.push_back(tasks.get<std::string>(1));
    }
    graph.resize(titles.size());
    auto needs = database.query("SELECT task_id, needs_id FROM task_needs");
    while (needs.next())
        graph[places.at(needs.get<std::int64_t>(0))].needs.push_back(
            places.at(needs.get<std::int64_t>(1)));
    std::string names;
    for (const TaskPlace place : circle_in(graph))
        names += (names.empty() ? "" : " → ") + titles[place];
    if (names.empty()) return {};
    return "Tasks wait for each other in a circle: " + names + ".";
}

std::optional<std::string> circle_of_assemblies(store::Database& database) {
    auto row = database.query(
        "WITH RECURSIVE up(start, at) AS (SELECT id, within_id FROM parts WHERE within_id IS NOT "
        "NULL UNION SELECT start, p.within_id FROM up JOIN parts p ON p.id = up.at "
        "WHERE p.within_id IS NOT NULL) "
        "SELECT tag FROM up JOIN parts ON parts.id = start WHERE start = at LIMIT 1");
    if (!row.next()) return {};
    return "The part " + row.get<std::string>(0) +
           " is a piece of itself by way of its assemblies.";
}

template <class T>
void hear(std::vector<std::string>& faults, const Result<T>& list) {
    if (!list) faults.push_back(list.failure().sentence);
}

} // namespace

std::vector<std::string> rule_faults(const Notebook& notebook) {
    std::vector<std::string> faults;
    hear(faults, notebook.read([&](store::Database& database) {
        for (auto circle : {circle_of_tasks(database), circle_of_assemblies(database)})
            if (circle) faults.push_back(*circle);
        return Nothing{};
    }));
    if (!faults.empty()) return faults;
    auto vehicles = list_vehicles(notebook);
    hear(faults, vehicles);
    if (vehicles)
        for (const auto& vehicle : *vehicles)
            hear(faults, list_positions(notebook, vehicle.id));
    hear(faults, list_parts(notebook));
    hear(faults, each_photo(notebook, [](const Photo&) { return done(); }));
    hear(faults, list_tasks(notebook, today()));
    hear(faults, list_entries(notebook));
    hear(faults, list_marks(notebook));
    hear(faults, list_consignments(notebook, today()));
    hear(faults, list_people(notebook));
    return faults;
}

Result<std::vector<RecordFault>> record_faults(const Notebook& notebook) {
    auto faults = notebook.read(faults_of);
    if (!faults) return faults;
    if (!notebook.opening_notice().empty())
        faults->insert(
            faults->begin(),
            {notebook.opening_notice(),
             "Whatever is written next begins a new log. Before that: " + std::string(kHowToSave)});
    if (faults->empty())
        for (const auto& sentence : rule_faults(notebook))
            faults->push_back({sentence, "Change one of them in the window."});
    return faults;
}

Done remake_words(Notebook& notebook) {
    return notebook.write_aside([](store::Database& database) {
        store::Transaction transaction(database);
        database.run("INSERT INTO words(words) VALUES ('rebuild')");
        database.run("DELETE FROM words");
        for (const FoundKind kind : kFoundKinds)
            database.run("INSERT INTO words(rowid, kind, text) " + word_rows(kind));
        transaction.commit();
    });
}

Done copy_database_to(const Notebook& notebook, const std::filesystem::path& file,
                      const std::stop_token& stop, const std::function<void(int, int)>& progress) {
    auto copied = notebook.read([&](store::Database& database) {
        store::Database copy(file, store::Access::write);
        const bool whole = store::copy_database(database, copy, stop, progress);
        copy.gather();
        return whole;
    });
    if (!copied) return copied.failure();
    if (!*copied) return Failure{FailureKind::cancelled, "The copying was stopped."};
    return done();
}

Result<int> look_at_database(const std::filesystem::path& file) {
    try {
        store::Database database(file, store::Access::read);
        const int schema = store::known_schema(database, kApplicationId, kNewestSchema);
        const auto faults = store::integrity_faults(database, 1);
        if (schema == 0 || !faults.empty() || !store::dangling_references(database, 1).empty())
            return Failure{FailureKind::damaged, "The database is damaged.",
                           faults.empty() ? std::string() : faults.front()};
        return schema;
    } catch (const store::Trouble& trouble) {
        return trouble.failure();
    }
}

} // namespace fettle
