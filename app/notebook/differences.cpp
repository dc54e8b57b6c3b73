#include "notebook/differences.h"

#include "base/tag.h"
#include "base/text.h"
#include "notebook/difference_words.h"
#include "notebook/recorded_tables.h"
#include "notebook/rules.h"
#include "notebook/sides.h"
#include "notebook/states.h"
#include "store/quoted_name.h"

#include <nlohmann/json.hpp>

namespace fettle {
namespace {

struct Stored {
    DifferenceId id;
    std::string table;
    store::RowKey row;
    std::string field, kind;
    int other_side = 0, stands_side = 0;
    std::int64_t other_moment = 0, stands_moment = 0;
    std::string before, other, stands, settled;
};

Stored stored_of(const store::Statement& row) {
    return {row.get<DifferenceId>(0), row.get<std::string>(1),  row.get<store::RowKey>(2),
            row.get<std::string>(3),  row.get<std::string>(4),  row.get<int>(5),
            row.get<int>(7),          row.get<std::int64_t>(6), row.get<std::int64_t>(8),
            row.get<std::string>(9),  row.get<std::string>(10), row.get<std::string>(11),
            row.get<std::string>(12)};
}

constexpr std::string_view kColumns =
    "SELECT id, tab, row, field, kind, other_side, other_moment, stands_side, stands_moment, "
    "before, other, stands, settled FROM differences ";

DifferenceKind kind_of(const std::string& kind) {
    if (kind == "same tag") return DifferenceKind::same_tag;
    if (kind == "removed") return DifferenceKind::removed;
    return kind == "circle" ? DifferenceKind::circle : DifferenceKind::changed;
}

// True when the value that stands was written here. Both may be of one side, where a third was
// merged.
bool stands_here(const Stored& stored, int own) {
    return stored.stands_side == own || stored.other_side != own;
}

Difference difference_of(store::Database& database, const Sides& sides, const Stored& stored) {
    Difference one;
    one.id = stored.id;
    one.kind = kind_of(stored.kind);
    one.table = stored.table;
    if (const auto number = std::get_if<std::int64_t>(&stored.row)) one.record = *number;
    one.of = record_words(database, stored.table, stored.row);
    if (!stored.field.empty()) one.field = field_words(stored.table, stored.field);
    one.before = values_words(database, stored.table, stored.before);
    const auto named = [&](int number) {
        const auto side = sides.at(number);
        return side ? side->name : std::string("another machine");
    };
    OneSide other{named(stored.other_side), day_of_moment(stored.other_moment),
                  values_words(database, stored.table, stored.other), false};
    OneSide stands{named(stored.stands_side), day_of_moment(stored.stands_moment),
                   values_words(database, stored.table, stored.stands), true};
    const bool here = stands_here(stored, sides.own);
    one.here = here ? stands : other;
    one.there = here ? other : stands;
    one.free_text = is_free_text(stored.table, stored.field);
    one.settled = stored.settled;
    return one;
}

Failure no_such(DifferenceId id) {
    return {FailureKind::not_found, "There is no difference " + std::to_string(id.value) +
                                        ": `fettlebook differences list` shows them."};
}

// The columns of a field, all of them our own: what is in the set is no column by its own word.
std::vector<std::string> columns_of_field(const RecordedTable& table, const std::string& field) {
    for (auto& group : groups_of_fields(table.together))
        if (group.front() == field) return group;
    return {field};
}

Done write_values(store::Database& database, const Stored& stored, const std::string& values) {
    const auto table = recorded_table(stored.table);
    const auto shape = shape_of(database, "main", stored.table);
    if (!table || std::ranges::find(shape.columns, stored.field) == shape.columns.end())
        return done(); // no field: the record as such
    std::vector<std::string> sets;
    for (const auto& column : columns_of_field(*table, stored.field))
        sets.push_back(column + " = json_extract(?2, '$." + column + "')");
    try {
        database.run("UPDATE " + store::in_quotes(stored.table) + " SET " + join(sets, ", ") +
                         " WHERE " + shape.where_row(),
                     stored.row, values);
    } catch (const store::Trouble& trouble) {
        if (trouble.failure().detail.find("constraint") == std::string::npos) throw;
        return Failure{FailureKind::refused,
                       "The " + field_words(stored.table, stored.field) + " of " +
                           record_words(database, stored.table, stored.row) +
                           " cannot be that any longer: it stands elsewhere already, or what it "
                           "speaks of is gone. Choose the other, or change it where it stands.",
                       trouble.failure().detail};
    }
    return done();
}

// `values_of(stored)` gives the JSON to write; "": it stays as it stands.
template <class ValuesOf>
Done settle(Notebook& notebook, DifferenceId id, ValuesOf values_of) {
    return notebook.act("settled a difference", [&](store::Database& database) -> Done {
        auto row = database.query(std::string(kColumns) + "WHERE id IS ?", id);
        if (!row.next()) return no_such(id);
        const auto stored = stored_of(row);
        if (!stored.settled.empty())
            return Failure{FailureKind::refused,
                           "This difference is settled already: " + stored.settled + '.'};
        std::string how;
        auto values = values_of(database, stored, how);
        if (!values) return values.failure();
        if (!values->empty())
            if (auto written = write_values(database, stored, *values); !written) return written;
        database.run("UPDATE differences SET settled = ? WHERE id = ?", how, id);
        return done();
    });
}

Done check_text(const Stored& stored, const std::string& text) {
    if (!is_free_text(stored.table, stored.field) || kind_of(stored.kind) == DifferenceKind::circle)
        return Failure{FailureKind::invalid,
                       "No other text is accepted here: choose what stands here or there."};
    if (stored.field == "tag" && !is_tag(text))
        return Failure{FailureKind::invalid, "The tag " + fettle::quoted(text) +
                                                 " is not accepted: 1 to 16 letters, digits and "
                                                 "hyphens are, such as H7."};
    if (may_be_blank(stored.field)) return done();
    return require_text(field_words(stored.table, stored.field), text);
}

} // namespace

std::string Difference::said() const {
    switch (kind) {
    case DifferenceKind::changed:
        return {};
    case DifferenceKind::same_tag:
        return "Two parts came by one tag, each on its own machine. This one got a number to it: "
               "write it on its card, or type another tag.";
    case DifferenceKind::removed:
        return "It was removed on one machine and changed or used on the other. It was kept: "
               "remove "
               "it again if it is not wanted.";
    case DifferenceKind::circle:
        return "Together with what was told on the other machine it would have gone round in a "
               "circle. This was left out.";
    }
    return {};
}

Result<std::vector<Difference>> list_differences(const Notebook& notebook, bool settled_too) {
    return notebook.read([&](store::Database& database) {
        const auto sides = stored_sides(database);
        const auto all = all_rows(
            database.query(std::string(kColumns) + "WHERE ?1 OR settled = '' ORDER BY settled <> "
                                                   "'', max(other_moment, stands_moment) DESC, id",
                           settled_too),
            stored_of);
        std::vector<Difference> list;
        for (const auto& stored : all)
            list.push_back(difference_of(database, sides, stored));
        return list;
    });
}

Result<int> count_differences(const Notebook& notebook) {
    return notebook.read([](store::Database& database) {
        auto row = database.query("SELECT count(*) FROM differences WHERE settled = ''");
        row.next();
        return row.get<int>(0);
    });
}

Done settle_difference(Notebook& notebook, DifferenceId id, Settle how) {
    return settle(notebook, id,
                  [&](store::Database& database, const Stored& stored,
                      std::string& said) -> Result<std::string> {
                      if (how == Settle::as_it_stands) {
                          said = "as it stands";
                          return std::string();
                      }
                      if (kind_of(stored.kind) != DifferenceKind::changed)
                          return Failure{FailureKind::invalid,
                                         "This is no choice between two values: it can be left as "
                                         "it stands."};
                      const auto sides = stored_sides(database);
                      const bool stands = (how == Settle::here) == stands_here(stored, sides.own);
                      const auto side = sides.at(stands ? stored.stands_side : stored.other_side);
                      said = "as on " + (side ? side->name : std::string("another machine"));
                      return stands ? stored.stands : stored.other;
                  });
}

Done settle_with_text(Notebook& notebook, DifferenceId id, const std::string& text) {
    return settle(
        notebook, id,
        [&](store::Database&, const Stored& stored, std::string& said) -> Result<std::string> {
            const std::string typed(trim(text));
            if (auto fine = check_text(stored, typed); !fine) return fine.failure();
            said = "as typed";
            return nlohmann::json{{stored.field, safe_utf8(typed)}}.dump();
        });
}

} // namespace fettle
