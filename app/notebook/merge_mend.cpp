#include "base/tag.h"
#include "base/text.h"
#include "notebook/merge_ground.h"
#include "store/quoted_name.h"

#include <algorithm>
#include <set>

namespace fettle {
namespace {

constexpr int kMostRounds = 60; // each brings at least one record into order

class Mending {
  public:
    explicit Mending(MergeGround& ground) : ground_(ground), db_(ground.db) {}

    // True when there was something to mend.
    bool round() {
        mended_ = false;
        for (const auto& table : recorded_tables())
            if (!table.once.empty()) mend_doubles(table);
        mend_returned();
        for (const auto& reference : ground_.ask.references)
            mend_reference(reference);
        mend_needs();
        mend_within();
        mend_runs();
        return mended_;
    }

  private:
    void stamp_fresh(const std::string& table, const store::RowKey& row, const std::string& field) {
        ground_.put_stamp(table, row, field, ground_.ask.fresh);
        ground_.report.wrote = mended_ = true;
    }

    void drop(const std::string& table, const store::RowKey& row) {
        ground_.drop_row(table, row, ground_.ask.fresh);
        ground_.report.wrote = mended_ = true;
    }

    // Rows of the same thing: all become the first.
    void mend_doubles(const RecordedTable& table) {
        std::vector<std::string> once;
        const auto groups = groups_of_fields(table.once);
        for (const auto& column : groups.front())
            once.push_back(column == "tag" ? "tag COLLATE NOCASE" : column);
        const std::string name = table.name;
        auto row = db_.query("SELECT id, first FROM (SELECT id, min(id) OVER (PARTITION BY " +
                             join(once, ", ") + ") AS first FROM main." + store::in_quotes(name) +
                             ") WHERE id <> first ORDER BY id");
        std::vector<std::pair<std::int64_t, std::int64_t>> doubles;
        while (row.next())
            doubles.emplace_back(row.get<std::int64_t>(0), row.get<std::int64_t>(1));
        for (const auto& [id, first] : doubles) {
            if (name == "parts")
                tag_anew(id);
            else
                fold(name, id, first);
        }
    }

    // Two parts with one tag are two parts: the one with the higher id gets a number to its tag.
    void tag_anew(std::int64_t part) {
        const auto stamp = ground_.stamp("main", "parts", part, "tag");
        const auto before = ground_.values("main", "parts", part, "tag");
        auto tagged = db_.query("SELECT tag FROM main.parts WHERE id = ?", part);
        tagged.next();
        const auto tag = tagged.get<std::string>(0);
        std::string fresh;
        for (int count = 2; fresh.empty(); ++count) {
            const auto ending = '-' + std::to_string(count);
            const auto tried = tag.substr(0, kLongestTag - ending.size()) + ending;
            if (!db_.query("SELECT 1 FROM main.parts WHERE tag = ? COLLATE NOCASE", tried).next())
                fresh = tried;
        }
        db_.run("UPDATE main.parts SET tag = ? WHERE id = ?", fresh, part);
        stamp_fresh("parts", part, "tag");
        ground_.note_difference({"parts", part, "tag", "same tag", stamp, ground_.ask.fresh, before,
                                 ground_.values("main", "parts", part, "tag")});
    }

    // A record that became another one and came back, because the other side changed it meanwhile.
    void mend_returned() {
        auto row = db_.query("SELECT tab, row FROM main.same_rows");
        std::vector<std::pair<std::string, std::int64_t>> all;
        while (row.next())
            all.emplace_back(row.get<std::string>(0), row.get<std::int64_t>(1));
        for (const auto& [table, id] : all) {
            if (!recorded_table(table) || !ground_.shape(table).has_id()) continue;
            if (!ground_.there("main", table, id)) continue;
            const auto first = what_became_of(table, id);
            if (first != id && ground_.there("main", table, first))
                fold(table, id, first);
            else
                drop("same_rows", table + ',' + std::to_string(id)); // it is itself again
        }
    }

    std::int64_t what_became_of(const std::string& table, std::int64_t id) {
        std::set<std::int64_t> passed;
        while (passed.insert(id).second) {
            auto same = db_.query("SELECT same_as FROM main.same_rows WHERE tab = ? AND row = ?",
                                  table, id);
            if (!same.next()) break;
            id = same.get<std::int64_t>(0);
        }
        return id;
    }

    // Both records' fields go into `into`: the later value stands, the other is a difference.
    void fold(const std::string& table, std::int64_t id, std::int64_t into) {
        for (const auto& field : ground_.fields(table))
            fold_field(table, id, into, field);
        for (const auto& reference : ground_.ask.references)
            if (reference.to == table) lead_over(reference, id, into);
        if (table != "differences") {
            lead_differences(table, id, into);
            note_became(table, id, into);
        }
        drop(table, id);
    }

    void lead_differences(const std::string& table, std::int64_t id, std::int64_t into) {
        auto row =
            db_.query("SELECT id FROM main.differences WHERE tab = ? AND row = ?", table, id);
        std::vector<std::int64_t> told;
        while (row.next())
            told.push_back(row.get<std::int64_t>(0));
        for (const auto one : told) {
            db_.run("UPDATE main.differences SET row = ? WHERE id = ?", into, one);
            stamp_fresh("differences", one, "row");
        }
    }

    void note_became(const std::string& table, std::int64_t id, std::int64_t into) {
        db_.run("INSERT OR REPLACE INTO main.same_rows(tab, row, same_as) VALUES (?, ?, ?)", table,
                id, into);
        const store::RowKey row = table + ',' + std::to_string(id);
        db_.run("DELETE FROM main.stamps WHERE tab = 'same_rows' AND row = ?", row);
        stamp_fresh("same_rows", row, "");
    }

    bool is_empty(const std::string& table, const store::RowKey& row, const std::string& field) {
        std::vector<std::string> empty;
        for (const auto& column : ground_.columns(table, field))
            empty.push_back("ifnull(" + column + ", '') IN ('', '{}', '[]')");
        return db_
            .query("SELECT 1 FROM main." + store::in_quotes(table) + " WHERE " +
                       ground_.shape(table).where_row() + " AND " + join(empty, " AND "),
                   row)
            .next();
    }

    void fold_field(const std::string& table, const store::RowKey& id, const store::RowKey& into,
                    const std::string& field) {
        const auto going = ground_.values("main", table, id, field);
        const auto standing = ground_.values("main", table, into, field);
        if (going == standing || is_empty(table, id, field)) return;
        const auto going_stamp = ground_.stamp("main", table, id, field);
        const auto standing_stamp = ground_.stamp("main", table, into, field);
        const bool quietly = is_empty(table, into, field);
        const bool take = quietly || standing_stamp < going_stamp;
        if (take) {
            ground_.copy_field("main", id, table, into, field);
            stamp_fresh(table, into, field);
        }
        if (!quietly)
            ground_.note_difference({table, into, field, "changed",
                                     take ? standing_stamp : going_stamp,
                                     take ? going_stamp : standing_stamp, take ? standing : going,
                                     take ? going : standing});
    }

    // What speaks of one record speaks of the other.
    void lead_over(const Reference& reference, std::int64_t id, std::int64_t into) {
        const auto& shape = ground_.shape(reference.table);
        auto row =
            db_.query("SELECT " + shape.row() + " FROM main." + store::in_quotes(reference.table) +
                          " WHERE " + store::in_quotes(reference.column) + " = ?",
                      id);
        std::vector<store::RowKey> rows;
        while (row.next())
            rows.push_back(row.get<store::RowKey>(0));
        for (const auto& one : rows) {
            if (std::ranges::find(shape.key, reference.column) != shape.key.end())
                rename_key(reference, one, into);
            else
                point(reference, one, into);
        }
    }

    void point(const Reference& reference, const store::RowKey& row, std::int64_t to) {
        db_.run("UPDATE main." + store::in_quotes(reference.table) + " SET " +
                    store::in_quotes(reference.column) + " = ?2 WHERE " +
                    ground_.shape(reference.table).where_row(),
                row, to);
        stamp_fresh(reference.table, row,
                    field_of(*recorded_table(reference.table), reference.column));
    }

    // A row named by what it ties is another row when it ties something else.
    void rename_key(const Reference& reference, const store::RowKey& row, std::int64_t to) {
        const auto& shape = ground_.shape(reference.table);
        const auto parts = split(std::get<std::string>(row), ',');
        const auto at = std::ranges::find(shape.key, reference.column) - shape.key.begin();
        const std::string kept(parts[static_cast<std::size_t>(1 - at)]), said = std::to_string(to);
        const store::RowKey renamed = at == 0 ? said + ',' + kept : kept + ',' + said;
        if (ground_.there("main", reference.table, renamed)) {
            for (const auto& field : ground_.fields(reference.table))
                fold_field(reference.table, row, renamed, field);
        } else {
            std::vector<std::string> values;
            for (const auto& column : shape.columns)
                values.push_back(column == reference.column ? said : column);
            db_.run("INSERT INTO main." + store::in_quotes(reference.table) + " SELECT " +
                        join(values, ", ") + " FROM main." + store::in_quotes(reference.table) +
                        " WHERE " + shape.where_row(),
                    row);
            db_.run("DELETE FROM main.stamps WHERE tab = ? AND row = ?", reference.table, renamed);
            stamp_fresh(reference.table, renamed, "");
        }
        drop(reference.table, row);
    }

    // What is spoken of is there: it became another record, or it comes back.
    void mend_reference(const Reference& reference) {
        auto row = db_.query("SELECT DISTINCT " + store::in_quotes(reference.column) +
                             " FROM main." + store::in_quotes(reference.table) + " WHERE " +
                             store::in_quotes(reference.column) + " IS NOT NULL AND " +
                             store::in_quotes(reference.column) + " NOT IN (SELECT id FROM main." +
                             reference.to + ")");
        std::vector<std::int64_t> missing;
        while (row.next())
            missing.push_back(row.get<std::int64_t>(0));
        for (const auto id : missing) {
            const auto became = what_became_of(reference.to, id);
            if (became != id && ground_.there("main", reference.to, became))
                lead_over(reference, id, became);
            else
                bring_back(reference.to, id);
        }
    }

    void bring_back(const std::string& table, std::int64_t id) {
        const auto removed = ground_.stamp("main", table, id, "");
        for (const char* from : {"theirs", "mine"}) {
            if (!ground_.there(from, table, id)) continue;
            ground_.copy_row(from, table, id);
            stamp_fresh(table, id, "");
            ground_.note_difference(
                {table, id, "", "removed", removed, ground_.ask.fresh, "{}", "{}"});
            return;
        }
        throw store::Trouble({FailureKind::damaged,
                              "What was carried speaks of a record that neither machine has; "
                              "nothing was changed. Carry everything, with --everything.",
                              table + ' ' + std::to_string(id)});
    }

    // Tasks that would wait for each other in a circle: the need that was told last is left out.
    void mend_needs() {
        struct Need {
            std::int64_t task, needs;
            Stamp stamp;
        };
        std::vector<Need> needs;
        auto row = db_.query("SELECT task_id, needs_id FROM main.task_needs");
        while (row.next())
            needs.push_back({row.get<std::int64_t>(0), row.get<std::int64_t>(1), {}});
        for (auto& need : needs)
            need.stamp = ground_.stamp("main", "task_needs", key(need.task, need.needs), "");
        std::ranges::stable_sort(needs, {}, &Need::stamp);
        std::map<std::int64_t, std::vector<std::int64_t>> leads;
        for (const auto& need : needs) {
            if (!reaches(leads, need.needs, need.task)) {
                leads[need.task].push_back(need.needs);
                continue;
            }
            const auto said =
                ground_.values("main", "task_needs", key(need.task, need.needs), "needs_id");
            drop("task_needs", key(need.task, need.needs));
            ground_.note_difference(
                {"tasks", need.task, "needs", "circle", need.stamp, ground_.ask.fresh, said, "{}"});
        }
    }

    static store::RowKey key(std::int64_t one, std::int64_t other) {
        return std::to_string(one) + ',' + std::to_string(other);
    }

    static bool reaches(const std::map<std::int64_t, std::vector<std::int64_t>>& leads,
                        std::int64_t from, std::int64_t to) {
        std::set<std::int64_t> seen;
        std::vector<std::int64_t> open{from};
        while (!open.empty()) {
            const auto at = open.back();
            open.pop_back();
            if (at == to) return true;
            if (!seen.insert(at).second) continue;
            if (const auto next = leads.find(at); next != leads.end())
                open.insert(open.end(), next->second.begin(), next->second.end());
        }
        return false;
    }

    // Parts that would lie within each other: the one put in last lies by itself.
    void mend_within() {
        std::map<std::int64_t, std::vector<std::int64_t>> lies_in;
        std::vector<std::pair<Stamp, std::int64_t>> parts;
        std::map<std::int64_t, std::int64_t> within;
        auto row = db_.query("SELECT id, within_id FROM main.parts WHERE within_id IS NOT NULL");
        while (row.next())
            within[row.get<std::int64_t>(0)] = row.get<std::int64_t>(1);
        for (const auto& [part, in] : within)
            parts.emplace_back(ground_.stamp("main", "parts", part, "within_id"), part);
        std::ranges::sort(parts);
        for (const auto& [stamp, part] : parts) {
            if (!reaches(lies_in, within[part], part)) {
                lies_in[part].push_back(within[part]);
                continue;
            }
            const auto said = ground_.values("main", "parts", part, "within_id");
            db_.run("UPDATE main.parts SET within_id = NULL WHERE id = ?", part);
            stamp_fresh("parts", part, "within_id");
            ground_.note_difference({"parts", part, "within_id", "circle", stamp, ground_.ask.fresh,
                                     said, ground_.values("main", "parts", part, "within_id")});
        }
    }

    // A run whose photos went to another one is none.
    void mend_runs() {
        auto row = db_.query("SELECT id FROM main.runs WHERE id NOT IN (SELECT run_id FROM "
                             "main.run_photos)");
        std::vector<std::int64_t> empty;
        while (row.next())
            empty.push_back(row.get<std::int64_t>(0));
        for (const auto id : empty)
            drop("runs", id);
    }

    MergeGround& ground_;
    store::Database& db_;
    bool mended_ = false;
};

} // namespace

void mend(MergeGround& ground) {
    Mending mending(ground);
    for (int round = 0; round < kMostRounds; ++round)
        if (!mending.round()) return;
    throw store::Trouble({FailureKind::damaged,
                          "The two notebooks could not be brought together; nothing was changed."});
}

} // namespace fettle
