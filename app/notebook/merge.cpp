#include "base/text.h"
#include "notebook/merge_ground.h"
#include "store/quoted_name.h"

#include <algorithm>

namespace fettle {
namespace {

constexpr const char* kMain = "main";

std::string unseen(const SeenBySide& seen) {
    std::string sql = "moment > CASE side";
    for (const auto& [side, moment] : seen)
        sql += " WHEN " + std::to_string(side) + " THEN " + std::to_string(moment);
    return sql + " ELSE 0 END";
}

bool knows(const SeenBySide& seen, const Stamp& stamp) {
    if (stamp.moment == 0) return true;
    const auto side = seen.find(stamp.side);
    return side != seen.end() && stamp.moment <= side->second;
}

// One record of which the other side has written something that is not known here.
class Row {
  public:
    Row(MergeGround& ground, std::string table, store::RowKey row)
        : ground_(ground), table_(std::move(table)), row_(std::move(row)) {}

    void join(const std::vector<std::string>& written) {
        const bool mine = ground_.there(kMain, table_, row_);
        const bool theirs = ground_.there("theirs", table_, row_);
        if (mine && theirs)
            join_fields(written);
        else if (theirs)
            take_record();
        else if (mine)
            give_up_record();
        else
            join_gone();
    }

  private:
    // What two machines say to each other about records is no news of its own.
    bool is_told() const { return table_ != "differences" && table_ != "same_rows"; }
    Stamp mine(const std::string& field) { return ground_.stamp(kMain, table_, row_, field); }
    Stamp theirs(const std::string& field) { return ground_.stamp("theirs", table_, row_, field); }

    void join_fields(const std::vector<std::string>& written) {
        const bool made_anew = std::ranges::find(written, "") != written.end();
        bool changed = false;
        const Stamp my_making = mine(""), their_making = theirs("");
        for (const auto& field : made_anew ? ground_.fields(table_) : written) {
            changed |= join_field(field);
            if (made_anew) ground_.put_stamp(table_, row_, field, std::max(mine(field), my_making));
        }
        if (made_anew) ground_.put_stamp(table_, row_, "", std::max(my_making, their_making));
        ground_.report.changed += changed && is_told();
    }

    bool join_field(const std::string& field) {
        const Stamp my = mine(field), their = theirs(field);
        if (my == their || knows(ground_.ask.mine_seen, their)) return false;
        const auto my_value = ground_.values(kMain, table_, row_, field);
        const auto their_value = ground_.values("theirs", table_, row_, field);
        const bool same = my_value == their_value;
        const bool both = !knows(ground_.ask.theirs_seen, my);
        const bool take = !both || my < their;
        if (both && !same)
            ground_.note_difference({table_, row_, field, "changed", take ? my : their,
                                     take ? their : my, take ? my_value : their_value,
                                     take ? their_value : my_value});
        if (!take) return false;
        ground_.copy_field("theirs", row_, table_, row_,
                           field); // the same in words may differ in bits
        ground_.put_stamp(table_, row_, field, their);
        return !same;
    }

    void take_record() {
        const Stamp removed = mine(""); // unless it was never here
        const bool was_removed = removed.moment > 0;
        ground_.copy_row("theirs", table_, row_);
        if (was_removed && !knows(ground_.ask.theirs_seen, removed)) {
            keep_against(removed);
            return;
        }
        ground_.report.made += is_told();
    }

    void give_up_record() {
        const Stamp removed = theirs("");
        auto changed = ground_.db.query(
            "SELECT 1 FROM main.stamps WHERE tab = ? AND row = ? AND gone = 0 AND " +
                unseen(ground_.ask.theirs_seen),
            table_, row_);
        if (changed.next()) {
            keep_against(removed);
            return;
        }
        ground_.drop_row(table_, row_, removed);
        ground_.report.removed += is_told();
    }

    // Removed on one side, changed on the other: it stays.
    void keep_against(const Stamp& removed) {
        ground_.put_stamp(table_, row_, "", ground_.ask.fresh);
        ground_.report.wrote = true;
        if (ground_.became_another(table_, row_)) return; // and is none: mending sees to it
        ground_.note_difference(
            {table_, row_, "", "removed", removed, ground_.ask.fresh, "{}", "{}"});
    }

    void join_gone() {
        const Stamp latest = std::max(mine(""), theirs(""));
        ground_.put_stamp(table_, row_, "", latest, true);
    }

    MergeGround& ground_;
    std::string table_;
    store::RowKey row_;
};

} // namespace

MergeGround::MergeGround(const MergeAsk& asked) : db(open_state(asked.mine)), ask(asked) {
    attach(db, ask.before, "mine");
    attach(db, ask.theirs, "theirs");
    if (!ask.base.empty()) attach(db, ask.base, "base");
    has_base_ = !ask.base.empty();
    for (const auto& table : state_tables())
        shapes_[table] = shape_of(db, kMain, table);
}

bool MergeGround::there(const std::string& schema, const std::string& table,
                        const store::RowKey& row) {
    return db
        .query("SELECT 1 FROM " + store::in_quotes(schema, table) + " WHERE " +
                   shape(table).where_row(),
               row)
        .next();
}

Stamp MergeGround::stamp(const std::string& schema, const std::string& table,
                         const store::RowKey& row, const std::string& field) {
    auto found = db.query("SELECT moment, side FROM " + store::in_quotes(schema) +
                              ".stamps WHERE tab = ? AND row = ? AND field IN (?, '') "
                              "ORDER BY field DESC",
                          table, row, field);
    if (!found.next()) return {};
    return {found.get<std::int64_t>(0), found.get<int>(1)};
}

void MergeGround::put_stamp(const std::string& table, const store::RowKey& row,
                            const std::string& field, const Stamp& stamp, bool gone) {
    if (stamp.moment == 0) return;
    db.run("INSERT OR REPLACE INTO main.stamps(tab, row, field, side, moment, gone) "
           "VALUES (?, ?, ?, ?, ?, ?)",
           table, row, field, stamp.side, stamp.moment, gone);
}

void MergeGround::copy_row(const std::string& from, const std::string& table,
                           const store::RowKey& row) {
    db.run("INSERT OR REPLACE INTO main." + store::in_quotes(table) + " SELECT * FROM " +
               store::in_quotes(from, table) + " WHERE " + shape(table).where_row(),
           row);
    db.run("DELETE FROM main.stamps WHERE tab = ? AND row = ?", table, row);
    db.run("INSERT INTO main.stamps SELECT * FROM " + store::in_quotes(from) +
               ".stamps WHERE tab = ? AND row = ?",
           table, row);
}

void MergeGround::drop_row(const std::string& table, const store::RowKey& row, const Stamp& stamp) {
    db.run("DELETE FROM main." + store::in_quotes(table) + " WHERE " + shape(table).where_row(),
           row);
    db.run("DELETE FROM main.stamps WHERE tab = ? AND row = ?", table, row);
    put_stamp(table, row, "", stamp, true);
}

std::vector<std::string> MergeGround::columns(const std::string& table,
                                              const std::string& field) const {
    for (auto& group : groups_of_fields(recorded_table(table)->together))
        if (group.front() == field) return group;
    return {field};
}

std::vector<std::string> MergeGround::fields(const std::string& table) const {
    std::vector<std::string> fields;
    const auto& key = shape(table).key;
    for (const auto& column : shape(table).columns)
        if (field_of(*recorded_table(table), column) == column &&
            std::ranges::find(key, column) == key.end())
            fields.push_back(column);
    return fields;
}

std::string MergeGround::values(const std::string& schema, const std::string& table,
                                const store::RowKey& row, const std::string& field) {
    std::vector<std::string> pairs;
    for (const auto& column : columns(table, field))
        pairs.push_back('\'' + column + "', " + column);
    auto found =
        db.query("SELECT json_object(" + fettle::join(pairs, ", ") + ") FROM " +
                     store::in_quotes(schema, table) + " WHERE " + shape(table).where_row(),
                 row);
    return found.next() ? found.get<std::string>(0) : std::string();
}

void MergeGround::copy_field(const std::string& from, const store::RowKey& source,
                             const std::string& table, const store::RowKey& row,
                             const std::string& field) {
    const auto named = fettle::join(columns(table, field), ", ");
    auto where = shape(table).where_row();
    auto of_source = where;
    for (auto at = of_source.find("?1"); at != std::string::npos; at = of_source.find("?1", at + 2))
        of_source[at + 1] = '2';
    db.run("UPDATE main." + store::in_quotes(table) + " SET (" + named + ") = (SELECT " + named +
               " FROM " + store::in_quotes(from, table) + " WHERE " + of_source + ") WHERE " +
               where,
           row, source);
}

std::int64_t MergeGround::next_id(const std::string& table) {
    auto last = db.query("SELECT max(ifnull((SELECT max(id) FROM main." + store::in_quotes(table) +
                             "), 0), ifnull((SELECT max(row) FROM main.stamps WHERE tab = ?), 0))",
                         table);
    last.next();
    return next_of_side(last.get<std::int64_t>(0), ask.fresh.side);
}

void MergeGround::note_difference(const Told& told) {
    if (is_quiet(*recorded_table(told.table), told.field)) return;
    auto noted =
        db.query("SELECT 1 FROM main.differences WHERE tab = ? AND row = ? AND field = ? "
                 "AND other_side = ? AND other_moment = ?",
                 told.table, told.row, told.field, told.other_stamp.side, told.other_stamp.moment);
    if (noted.next()) return;
    std::string before;
    const auto& fields_there = shape(told.table).columns;
    if (has_base_ && std::ranges::find(fields_there, told.field) != fields_there.end())
        before = values("base", told.table, told.row, told.field);
    const auto id = next_id("differences");
    db.run("INSERT INTO main.differences(id, tab, row, field, kind, other_side, other_moment, "
           "stands_side, stands_moment, before, other, stands, settled) "
           "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, '')",
           id, told.table, told.row, told.field, told.kind, told.other_stamp.side,
           told.other_stamp.moment, told.stands_stamp.side, told.stands_stamp.moment, before,
           told.other, told.stands);
    put_stamp("differences", id, "", ask.fresh);
    report.wrote = true;
    ++report.differences;
}

std::vector<Reference> references(store::Database& live) {
    std::vector<Reference> all;
    for (const auto& table : recorded_tables()) {
        auto row =
            live.query("SELECT \"from\", \"table\" FROM pragma_foreign_key_list(?)", table.name);
        while (row.next())
            all.push_back({table.name, row.get<std::string>(0), row.get<std::string>(1)});
    }
    return all;
}

bool MergeGround::became_another(const std::string& table, const store::RowKey& row) {
    return db.query("SELECT 1 FROM main.same_rows WHERE tab = ? AND row = ?", table, row).next();
}

namespace {

void join_table(MergeGround& ground, const std::string& table) {
    // Read before anything of the table is joined. What names no field of ours is left aside.
    std::map<store::RowKey, std::vector<std::string>> written;
    const auto fields = ground.fields(table);
    auto stamp = ground.db.query("SELECT row, field FROM theirs.stamps WHERE tab = ? AND " +
                                     unseen(ground.ask.mine_seen),
                                 table);
    while (stamp.next()) {
        const auto field = stamp.get<std::string>(1);
        if (field.empty() || std::ranges::find(fields, field) != fields.end())
            written[stamp.get<store::RowKey>(0)].push_back(field);
    }
    for (const auto& [row, named] : written)
        Row(ground, table, row).join(named);
}

} // namespace

Merged merge_states(const MergeAsk& ask) {
    MergeGround ground(ask);
    store::Transaction transaction(ground.db);
    join_table(ground, "same_rows"); // what became of records bears on all other tables
    for (const auto& table : recorded_tables())
        if (table.name != std::string_view("same_rows")) join_table(ground, table.name);
    mend(ground);
    transaction.commit();
    return ground.report;
}

} // namespace fettle
