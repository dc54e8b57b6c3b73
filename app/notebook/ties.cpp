#include "notebook/ties.h"

#include "base/text.h"
#include "notebook/rules.h"
#include "store/quoted_name.h"

namespace fettle {
namespace {

struct TargetKind {
    const char* column;
    const char* exists;
    const char* noun;
};

TargetKind kind_of(const TieTarget& target) {
    switch (target.index()) {
    case 0:
        return {"part_id", "SELECT tag FROM parts WHERE id = ?", "part"};
    case 1:
        return {"task_id", "SELECT title FROM tasks WHERE id = ?", "task"};
    default:
        return {"entry_id", "SELECT on_date FROM entries WHERE id = ?", "entry"};
    }
}

std::int64_t number_of(const TieTarget& target) {
    return std::visit([](auto id) { return id.value; }, target);
}

std::string photo_count(std::size_t count) {
    return count == 1 ? "1 photo" : std::to_string(count) + " photos";
}

Result<std::string> target_name(const Notebook& notebook, const TieTarget& target) {
    const auto kind = kind_of(target);
    return one_row(
        notebook, kind.noun, std::to_string(number_of(target)),
        [&](const store::Statement& row) {
            auto name = row.get<std::string>(0);
            return std::holds_alternative<EntryId>(target) ? entry_name(name) : name;
        },
        kind.exists, number_of(target));
}

Tie tie_of(const store::Statement& row) {
    Tie tie;
    tie.photo = row.get<PhotoId>(0);
    if (!row.is_null(1))
        tie.to = row.get<PartId>(1);
    else if (!row.is_null(2))
        tie.to = row.get<TaskId>(2);
    else
        tie.to = row.get<EntryId>(3);
    tie.stage = stored_word<Stage>(row, 4);
    tie.name = row.get<std::string>(5);
    if (std::holds_alternative<EntryId>(tie.to)) tie.name = entry_name(tie.name);
    return tie;
}

constexpr std::string_view kColumns =
    "SELECT t.photo_id, t.part_id, t.task_id, t.entry_id, t.stage, "
    "       coalesce(a.tag || ' ' || a.name, k.title, e.on_date) "
    "FROM ties t JOIN photos f ON f.id = t.photo_id LEFT JOIN parts a ON a.id = t.part_id "
    "            LEFT JOIN tasks k ON k.id = t.task_id LEFT JOIN entries e ON e.id = t.entry_id ";

} // namespace

Done tie_photos(Notebook& notebook, const std::vector<PhotoId>& photos, TieTarget to, Stage stage,
                const std::string& words) {
    const auto kind = kind_of(to);
    auto name = target_name(notebook, to);
    if (!name) return name.failure();
    const auto act_words =
        words.empty() ? "tied " + photo_count(photos.size()) + " to " + *name : words;
    return notebook.act(act_words, [&](store::Database& database) -> Done {
        const std::string column = kind.column;
        for (auto photo : photos) {
            if (!database.query("SELECT 1 FROM photos WHERE id IS ?", photo).next())
                return nothing_called("photo", std::to_string(photo.value));
            database.run("UPDATE ties SET stage = ? WHERE photo_id = ? AND " +
                             store::in_quotes(column) + " = ?",
                         word(stage), photo, number_of(to));
            if (database.rows_changed() == 0)
                database.run("INSERT INTO ties(id, photo_id, " + store::in_quotes(column) +
                                 ", stage) VALUES (next_id('ties'), ?, ?, ?)",
                             photo, number_of(to), word(stage));
        }
        return done();
    });
}

Done untie_photos(Notebook& notebook, const std::vector<PhotoId>& photos, TieTarget from) {
    auto name = target_name(notebook, from);
    if (!name) return name.failure();
    return notebook.act("untied " + photo_count(photos.size()) + " from " + *name,
                        [&](store::Database& database) -> Done {
                            for (auto photo : photos)
                                database.run("DELETE FROM ties WHERE photo_id = ? AND " +
                                                 store::in_quotes(kind_of(from).column) + " = ?",
                                             photo, number_of(from));
                            return done();
                        });
}

Result<std::vector<Tie>> ties_of_photo(const Notebook& notebook, PhotoId photo) {
    return ties_of_photos(notebook, {photo});
}

Result<std::vector<Tie>> ties_of_photos(const Notebook& notebook,
                                        const std::vector<PhotoId>& photos) {
    std::vector<std::string> values;
    for (const PhotoId photo : photos)
        values.push_back(std::to_string(photo.value));
    return notebook.read([&](store::Database& database) {
        return all_rows(database.query(std::string(kColumns) + "WHERE t.photo_id IN (" +
                                       join(values, ", ") + ") ORDER BY t.id"),
                        tie_of);
    });
}

Result<std::vector<Tie>> ties_to(const Notebook& notebook, TieTarget to) {
    return notebook.read([&](store::Database& database) {
        return all_rows(database.query(std::string(kColumns) + "WHERE t." +
                                           store::in_quotes(kind_of(to).column) +
                                           " = ? ORDER BY f.at IS NULL, f.at, f.id",
                                       number_of(to)),
                        tie_of);
    });
}

Result<std::vector<Target>> recent_targets(const Notebook& notebook, int most) {
    return notebook.read([&](store::Database& database) {
        // From the last tie back until there are enough: all ties are many.
        std::vector<Target> recent;
        auto row = database.query(std::string(kColumns) + "ORDER BY t.id DESC");
        while (std::ssize(recent) < most && row.next()) {
            auto tie = tie_of(row);
            if (std::ranges::find(recent, tie.to, &Target::to) == recent.end())
                recent.push_back({tie.to, std::move(tie.name)});
        }
        return recent;
    });
}

} // namespace fettle
