#include "notebook/stamps.h"

#include "notebook/recorded_tables.h"
#include "notebook/sides.h"
#include "store/quoted_name.h"

#include <algorithm>
#include <chrono>
#include <map>
#include <set>

namespace fettle {
namespace {

std::optional<std::int64_t> next_id(sqlite3* connection, std::string_view table) {
    store::Statement side(connection, "SELECT side FROM here");
    if (!side.next()) return std::nullopt;
    store::Statement last(connection, "SELECT max(ifnull((SELECT max(id) FROM " +
                                          store::in_quotes(table) +
                                          "), 0), ifnull((SELECT max(row) FROM stamps "
                                          "WHERE tab = ?), 0))");
    last.bind(table);
    last.next();
    return next_of_side(last.get<std::int64_t>(0), side.get<int>(0));
}

std::vector<std::string> columns_of(store::Database& database, const std::string& table) {
    std::vector<std::string> columns;
    auto row = database.query("SELECT name FROM pragma_table_info(?) ORDER BY cid", table);
    while (row.next())
        columns.push_back(row.get<std::string>(0));
    return columns;
}

class Stamping {
  public:
    Stamping(store::Database& database, const Stamp& stamp) : database_(database), stamp_(stamp) {}

    void note(const store::Change& change) {
        const auto table = recorded_table(change.table);
        if (!table) return;
        if (change.kind == store::Change::Kind::changed) {
            std::set<std::string> fields;
            const auto& columns = columns_known(change.table);
            for (const int column : change.columns)
                fields.insert(field_of(*table, columns.at(static_cast<std::size_t>(column))));
            fields.erase(std::string());
            for (const auto& field : fields)
                put(change, field, false);
            return;
        }
        database_.run("DELETE FROM stamps WHERE tab = ? AND row = ?", change.table, change.key);
        put(change, "", change.kind == store::Change::Kind::removed);
    }

  private:
    const std::vector<std::string>& columns_known(const std::string& table) {
        auto& columns = columns_[table];
        if (columns.empty()) columns = columns_of(database_, table);
        return columns;
    }

    void put(const store::Change& change, const std::string& field, bool gone) {
        database_.run("INSERT OR REPLACE INTO stamps(tab, row, field, side, moment, gone) "
                      "VALUES (?, ?, ?, ?, ?, ?)",
                      change.table, change.key, field, stamp_.side, stamp_.moment, gone);
    }

    store::Database& database_;
    Stamp stamp_;
    std::map<std::string, std::vector<std::string>> columns_;
};

} // namespace

std::int64_t next_of_side(std::int64_t last, int side) {
    const std::int64_t own = side % kMostSides;
    return last + 1 + (own - (last + 1) % kMostSides + kMostSides) % kMostSides;
}

int own_side(store::Database& database) {
    auto row = database.query("SELECT side FROM here");
    return row.next() ? row.get<int>(0) : 0;
}

Stamp stamp_after(store::Database& database, int side, std::int64_t least) {
    const auto clock = std::chrono::duration_cast<std::chrono::milliseconds>(
                           std::chrono::system_clock::now().time_since_epoch())
                           .count();
    auto known = database.query("SELECT ifnull(max(seen), 0) FROM sides");
    known.next();
    const auto after = std::max(least, known.get<std::int64_t>(0)) + 1;
    return {std::max<std::int64_t>(clock, after), side};
}

Stamp next_stamp(store::Database& database, int side) {
    const Stamp stamp = stamp_after(database, side, 0);
    database.run("UPDATE sides SET seen = ? WHERE side = ?", stamp.moment, side);
    return stamp;
}

void stamp_changes(store::Database& database, const store::Blob& changes) {
    const int side = own_side(database);
    if (side == 0) return;
    Stamping stamping(database, next_stamp(database, side));
    store::each_change(changes, [&](const store::Change& change) { stamping.note(change); });
}

void number_rows(store::Database& database) {
    database.define("next_id", next_id);
}

} // namespace fettle
