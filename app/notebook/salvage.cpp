#include "notebook/salvage.h"

#include "base/text.h"
#include "notebook/making.h"
#include "notebook/record_faults.h"
#include "notebook/row_rules.h"
#include "notebook/schema/schema.h"
#include "notebook/written_rows.h"
#include "store/log_mark.h"
#include "store/migrate.h"
#include "store/page_rows.h"
#include "store/write_ahead_log.h"

#include <algorithm>
#include <set>

namespace fettle {
namespace {

namespace fs = std::filesystem;
using store::PageRows;
using store::RawRow;
using store::RawTable;
using store::RowKey;

// A table's shape as its schema has it, and the page it begins at in a notebook just made.
struct Shape {
    store::Table table;
    const TableSaid* said = nullptr;
    std::uint32_t root = 0;
    std::optional<std::size_t> number_column; // that stands for the rowid
    std::size_t least_columns = 0;            // in rows written before columns were added
};

struct SavedRow {
    std::vector<Cell> cells; // the first so many of the table's columns
};

// The row as the table has it, or nothing when it cannot be one of that table.
std::optional<SavedRow> fitted(const Shape& shape, const RawRow& raw) {
    const auto& columns = shape.table.columns;
    if (raw.cells.size() < shape.least_columns || raw.cells.size() > columns.size())
        return std::nullopt;
    SavedRow row{raw.cells};
    if (shape.number_column) {
        if (!std::holds_alternative<std::monostate>(row.cells[*shape.number_column]))
            return std::nullopt; // SQLite keeps it as the rowid alone
        row.cells[*shape.number_column] = raw.number;
    }
    std::vector<std::string> names;
    for (std::size_t at = 0; at < row.cells.size(); ++at) {
        Cell& cell = row.cells[at];
        if (columns[at].holding == store::Holding::real)
            if (const auto* whole = std::get_if<std::int64_t>(&cell))
                cell = static_cast<double>(*whole); // how SQLite stores a number without fraction
        const bool fits = std::holds_alternative<std::monostate>(cell)
                              ? !columns[at].required
                              : cell.index() == static_cast<std::size_t>(columns[at].holding) + 1;
        if (!fits) return std::nullopt;
        if (const auto* text = std::get_if<std::string>(&cell); text && safe_utf8(*text) != *text)
            return std::nullopt;
        names.push_back(columns[at].name);
    }
    if (row_fault(shape.said, names, row.cells)) return std::nullopt;
    return row;
}

std::string key_text(const RowKey& key) {
    const auto* number = std::get_if<std::int64_t>(&key);
    return number ? std::to_string(*number) : safe_utf8(std::get<std::string>(key));
}

struct Gathered {
    Shape shape;
    std::map<RowKey, SavedRow> rows;
    bool is_damaged = false;
    SalvagedTable told;
};

Shape shape_of(store::Database& fresh, const std::string& name, std::int64_t root) {
    Shape shape{
        store::table_of(fresh, name), described_table(name), static_cast<std::uint32_t>(root), {}};
    const auto& columns = shape.table.columns;
    shape.least_columns = columns.size();
    if (shape.table.key.size() != 1) return shape;
    const auto key = std::ranges::find(columns, shape.table.key.front(), &store::Column::name);
    if (key->holding == store::Holding::integer)
        shape.number_column = static_cast<std::size_t>(key - columns.begin());
    return shape;
}

// The shape of every table of that schema, taken from an empty notebook.
std::map<std::string, Shape> shapes_of(int schema) {
    std::map<std::string, Shape> shapes;
    store::Database fresh({}, store::Access::write);
    for (int step = 1; step <= schema; ++step) {
        store::migrate(fresh, kApplicationId,
                       std::span(kSchemaSteps).first(static_cast<std::size_t>(step)));
        auto roots = fresh.query("SELECT name, rootpage FROM sqlite_schema WHERE type = 'table' "
                                 "AND rootpage > 0");
        while (roots.next()) {
            const auto name = roots.get<std::string>(0);
            Shape shape = shape_of(fresh, name, roots.get<std::int64_t>(1));
            if (const auto older = shapes.find(name); older != shapes.end())
                shape.least_columns = older->second.least_columns;
            shapes.insert_or_assign(name, std::move(shape));
        }
    }
    return shapes;
}
class Salvaging {
  public:
    Salvaging(PageRows pages, NotebookInMaking& making, int schema)
        : pages_(std::move(pages)), making_(making), schema_(schema) {}

    Result<Salvaged> all() {
        for (auto& [name, shape] : shapes_of(schema_))
            tables_[name] = {.shape = std::move(shape), .told = {.name = name}};
        if (pages_.roots().damaged)
            notices_.push_back("The list of tables is damaged: they were looked for where a new "
                               "notebook has them.");
        for (auto& [name, table] : tables_)
            read(name, table);
        place_strays();
        read_changes();
        for (auto& [name, table] : tables_)
            if (table.shape.said) bring_back(table);
        return write();
    }

  private:
    void read(const std::string& name, Gathered& into) {
        const auto known = pages_.roots().tables.find(name);
        const bool is_guess = known == pages_.roots().tables.end();
        into.is_damaged = is_guess;
        auto raw = pages_.table(is_guess ? into.shape.root : known->second);
        std::size_t odd = 0;
        std::map<RowKey, SavedRow> rows;
        for (const auto& row : raw.rows) {
            if (auto fits = fitted(into.shape, row))
                rows.emplace(store::row_key(into.shape.table, padded(into.shape, *fits)),
                             std::move(*fits));
            else
                ++odd;
        }
        if (is_guess && odd > rows.size()) { // another table begins there
            if (!raw.rows.empty()) strays_.push_back(std::move(raw.rows));
            return;
        }
        into.rows = std::move(rows);
        into.told.unread = raw.damaged + odd;
        if (into.told.unread > 0) into.is_damaged = true;
    }

    static std::vector<Cell> padded(const Shape& shape, const SavedRow& row) {
        auto cells = row.cells;
        cells.resize(shape.table.columns.size());
        return cells;
    }

    // A page of rows goes to the one damaged table that all of them fit.
    void place_strays() {
        for (auto& page : pages_.stray_pages())
            strays_.push_back(std::move(page));
        std::size_t nowhere = 0;
        for (const auto& page : strays_) {
            Gathered* home = nullptr;
            bool is_doubtful = false;
            for (auto& [name, table] : tables_) {
                const bool may = table.is_damaged && table.shape.number_column &&
                                 (table.shape.said || name == "history");
                if (!may || !std::ranges::all_of(page, [&](const auto& row) {
                        return fitted(table.shape, row).has_value();
                    }))
                    continue;
                is_doubtful = home != nullptr;
                if (is_doubtful) break;
                home = &table;
            }
            if (!home || is_doubtful) {
                nowhere += page.size();
                continue;
            }
            for (const auto& row : page)
                if (auto fits = fitted(home->shape, row))
                    home->told.strays += home->rows.try_emplace(RowKey(row.number), *fits).second;
        }
        if (nowhere > 0)
            notices_.push_back(std::to_string(nowhere) +
                               " rows stand on pages that nothing leads to and fit no table, or "
                               "more than one: they were left out.");
    }

    void read_changes() {
        const auto history = tables_.find("history");
        if (history == tables_.end()) return;
        changes_whole_ = !history->second.is_damaged;
        std::size_t acts = 0, damaged = 0;
        for (const auto& [key, row] : history->second.rows) {
            const auto& cells = row.cells; // id, step, words, made, schema, undone, changes, met
            if (cells.size() < 7 || cells[5] != Cell(std::int64_t{0})) continue;
            if (cells.size() > 7 && cells[7] != Cell(std::int64_t{0})) {
                written_.forget();
                continue;
            }
            try {
                written_.take(std::get<store::Blob>(cells[6]));
                ++acts;
            } catch (const store::Trouble&) {
                ++damaged;
            }
        }
        if (damaged > 0) changes_whole_ = false;
        if (!changes_whole_)
            notices_.push_back("Of the changes kept only those of " + std::to_string(acts) +
                               " acts can be read: what they bring back may have been changed or "
                               "removed later.");
    }

    // Rows that are not in the table but were written; and values that are not those written last.
    void bring_back(Gathered& table) {
        const auto written = written_.tables().find(table.told.name);
        if (written == written_.tables().end()) return;
        for (const auto& [key, row] : written->second) {
            const auto found = table.rows.find(key);
            if (found != table.rows.end()) {
                compare(table, key, row, found->second);
                continue;
            }
            if (row.is_removed || (!table.is_damaged && !changes_whole_)) continue;
            if (auto fits = row.is_whole ? from_changes(table.shape, row) : std::nullopt) {
                table.rows.emplace(key, std::move(*fits));
                ++table.told.from_changes;
            } else {
                table.told.lost.push_back(key_text(key));
            }
        }
    }

    std::optional<SavedRow> from_changes(const Shape& shape, const WrittenRows::Row& row) {
        RawRow raw;
        for (const auto& value : row.values)
            raw.cells.push_back(value.value_or(Cell()));
        if (shape.number_column && *shape.number_column < raw.cells.size()) {
            auto& number = raw.cells[*shape.number_column];
            if (const auto* whole = std::get_if<std::int64_t>(&number)) raw.number = *whole;
            number = std::monostate();
        }
        return fitted(shape, raw);
    }

    void compare(Gathered& table, const RowKey& key, const WrittenRows::Row& row,
                 const SavedRow& saved) {
        if (!changes_whole_ || row.is_removed) return;
        for (std::size_t at = 0; at < std::min(row.values.size(), saved.cells.size()); ++at)
            if (row.values[at] && !same_value(*row.values[at], saved.cells[at]))
                table.told.doubtful.push_back(key_text(key) + ": " +
                                              table.shape.table.columns[at].name);
    }

    Result<Salvaged> write() {
        std::size_t rows = 0;
        for (const auto& said : described_tables()) {
            const std::string name(said.name);
            const auto into = making_.table(name);
            const auto table = tables_.find(name);
            if (!into || table == tables_.end()) continue;
            if (auto put = write_table(*into, table->second); !put) return put.failure();
            rows += table->second.told.saved;
        }
        if (rows == 0)
            return Failure{FailureKind::damaged, "Not one row of the notebook can be read: restore "
                                                 "the newest backup into a new folder: fettlebook "
                                                 "restore FILE DIR."};
        if (auto gone = let_go(); !gone) return gone.failure();
        if (auto finished = making_.finish(); !finished) return finished.failure();
        return told();
    }

    Done write_table(const store::Table& into, Gathered& table) {
        std::vector<std::string> names;
        for (const auto& column : table.shape.table.columns)
            names.push_back(column.name);
        for (const auto& [key, row] : table.rows) {
            auto breach = making_.put(into, std::span(names).first(row.cells.size()), row.cells);
            if (!breach) return breach.failure();
            if (*breach)
                table.told.lost.push_back(key_text(key));
            else
                ++table.told.saved;
        }
        return done();
    }

    Done let_go() {
        auto gone = making_.let_go_of_missing();
        if (!gone) return gone.failure();
        for (auto& [name, what] : *gone) {
            auto& told = tables_[name].told;
            told.unnamed = what.references;
            told.left_out = what.rows;
            told.saved -= std::min(told.saved, what.rows);
            for (const auto number : what.missing)
                told.lost.push_back(std::to_string(number));
        }
        return done();
    }

    Salvaged told() {
        Salvaged salvaged{schema_, {}, std::move(notices_)};
        for (const auto& said : described_tables()) {
            const auto table = tables_.find(std::string(said.name));
            if (table == tables_.end()) continue;
            auto& told = table->second.told;
            std::ranges::sort(told.lost);
            told.lost.erase(std::unique(told.lost.begin(), told.lost.end()), told.lost.end());
            if (told.saved > 0 || !told.is_whole()) salvaged.tables.push_back(std::move(told));
        }
        return salvaged;
    }

    PageRows pages_;
    NotebookInMaking& making_;
    int schema_;
    std::map<std::string, Gathered> tables_;
    std::vector<std::vector<RawRow>> strays_;
    WrittenRows written_;
    bool changes_whole_ = true;
    std::vector<std::string> notices_;
};

// The database and the log beside it, brought together in the copy: every page of the log that can
// be read. Returns what is to be told.
Result<std::string> copied_together(const fs::path& database, const fs::path& copy) {
    std::error_code error;
    fs::copy_file(database, copy, error);
    if (error)
        return Failure{FailureKind::io, "The database " + safe_utf8(database.native()) +
                                            " cannot be read: " + error.message() + "."};
    if (store::left_half_written(database)) {
        fs::copy_file(database.native() + "-journal", copy.native() + "-journal", error);
        try {
            store::settle_half_written(copy);
        } catch (const store::Trouble&) {
            return std::string("What was half written cannot be taken back: the last changes may "
                               "be there in part.");
        }
    }
    const auto log = store::WriteAheadLog::read(database);
    if (!log) return log.failure();
    if (auto laid = log->lay_over(copy); !laid) return laid.failure();
    const auto lost = store::lost_of_log(database);
    if (!lost) return lost.failure();
    if (*lost && (*lost)->is_gone)
        return std::string("The log of the last acts is gone: what stood in it alone is missing.");
    if (log->damaged() == 0) return std::string();
    return std::to_string(log->damaged()) + " of the pages in the log of the last acts cannot be "
                                            "read: what stood in them alone is missing.";
}

Result<Salvaged> salvaged_from(const fs::path& copy, const fs::path& folder) {
    auto pages = PageRows::read(copy);
    if (!pages) return pages.failure();
    const int said = pages->user_version();
    const bool known = said >= 1 && said <= kNewestSchema;
    const int schema = known ? said : kNewestSchema;
    try {
        auto making = NotebookInMaking::begin(folder, schema);
        if (!making) return making.failure();
        auto salvaged = Salvaging(std::move(*pages), *making, schema).all();
        if (!salvaged) return salvaged.failure();
        if (!known)
            salvaged->notices.push_back("The head of the database is damaged: it was taken for one "
                                        "of the newest schema.");
        auto book = Notebook::open(folder, store::Access::write); // which brings it up
        if (!book) return book.failure();
        if (auto words = remake_words(*book); !words) return words.failure();
        for (auto& fault : rule_faults(*book))
            salvaged->notices.push_back(std::move(fault));
        return salvaged;
    } catch (const store::Trouble& trouble) {
        return trouble.failure();
    }
}

} // namespace

bool Salvaged::is_whole() const {
    return notices.empty() &&
           std::ranges::all_of(tables, [](const auto& table) { return table.is_whole(); });
}

Result<Salvaged> salvage_record(const fs::path& database, const fs::path& folder) {
    std::error_code error;
    fs::create_directories(folder, error);
    if (error)
        return Failure{FailureKind::io, "The folder " + safe_utf8(folder.native()) +
                                            " cannot be made: " + error.message() + "."};
    const auto copy = folder / "damaged.db"; // while the notebook is made
    auto notice = copied_together(database, copy);
    if (!notice) return notice.failure();
    auto salvaged = salvaged_from(copy, folder);
    store::remove_database(copy);
    if (salvaged && !notice->empty()) salvaged->notices.push_back(std::move(*notice));
    return salvaged;
}

} // namespace fettle
