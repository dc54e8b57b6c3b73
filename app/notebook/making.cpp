#include "notebook/making.h"

#include "notebook/schema/schema.h"
#include "store/migrate.h"

#include <algorithm>

namespace fettle {

namespace fs = std::filesystem;

struct NotebookInMaking::Parts {
    Parts(const fs::path& folder, int schema)
        : database(folder / "notebook.db", store::Access::write) {
        store::migrate(database, kApplicationId,
                       std::span(kSchemaSteps).first(static_cast<std::size_t>(schema)));
        transaction.emplace(database);
        database.run_script(
            "PRAGMA defer_foreign_keys = ON"); // parts and positions name each other
        for (auto& name : store::table_names(database))
            if (described_table(name)) tables.push_back(store::table_of(database, name));
    }

    store::Database database;
    std::optional<store::Transaction> transaction;
    std::vector<store::Table> tables;
    std::optional<store::RowWriter> writer; // of the table and columns below
    std::string writing;
    std::vector<std::string> columns;
};

NotebookInMaking::NotebookInMaking(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}
NotebookInMaking::NotebookInMaking(NotebookInMaking&&) noexcept = default;
NotebookInMaking::~NotebookInMaking() = default;

Result<NotebookInMaking> NotebookInMaking::begin(const fs::path& folder, int schema) {
    std::error_code error;
    fs::create_directories(folder / "photos", error);
    if (!error) fs::create_directories(folder / "cache", error);
    if (error)
        return Failure{FailureKind::io, "The folder " + folder.string() +
                                            " cannot be made: " + error.message() + "."};
    try {
        return NotebookInMaking(std::make_unique<Parts>(folder, schema));
    } catch (const store::Trouble& trouble) {
        return trouble.failure();
    }
}

std::optional<store::Table> NotebookInMaking::table(const std::string& name) {
    const auto found = std::ranges::find(parts_->tables, name, &store::Table::name);
    if (found == parts_->tables.end()) return std::nullopt;
    return *found;
}

Result<std::optional<store::Breach>> NotebookInMaking::put(const store::Table& table,
                                                           std::span<const std::string> columns,
                                                           std::span<const Cell> cells) {
    try {
        if (parts_->writing != table.name || !std::ranges::equal(parts_->columns, columns)) {
            parts_->writer.reset();
            parts_->writer.emplace(parts_->database, table, columns);
            parts_->writing = table.name;
            parts_->columns.assign(columns.begin(), columns.end());
        }
        return parts_->writer->put(cells);
    } catch (const store::Trouble& trouble) {
        return trouble.failure();
    }
}

Result<std::optional<MissingRecord>> NotebookInMaking::missing() {
    try {
        for (const auto& table : parts_->tables)
            for (const auto& column : table.columns) {
                if (column.refers_to.empty()) continue;
                if (auto number = store::missing_reference(parts_->database, table, column))
                    return std::optional<MissingRecord>(
                        {table.name, column.name, *number, column.refers_to});
            }
        return std::optional<MissingRecord>();
    } catch (const store::Trouble& trouble) {
        return trouble.failure();
    }
}

Result<std::map<std::string, store::LetGo>> NotebookInMaking::let_go_of_missing() {
    try {
        parts_->writer.reset();
        parts_->writing.clear();
        std::map<std::string, store::LetGo> all;
        for (bool again = true; again;) { // a row that goes may leave others speaking of it
            again = false;
            for (const auto& table : parts_->tables)
                for (const auto& column : table.columns) {
                    if (column.refers_to.empty()) continue;
                    auto gone = store::let_go_of_missing(parts_->database, table, column);
                    if (gone.missing.empty()) continue;
                    again = true;
                    all[table.name].references += gone.references;
                    all[table.name].rows += gone.rows;
                    auto& missing = all[column.refers_to].missing;
                    missing.insert(missing.end(), gone.missing.begin(), gone.missing.end());
                }
        }
        return all;
    } catch (const store::Trouble& trouble) {
        return trouble.failure();
    }
}

Done NotebookInMaking::finish() {
    try {
        parts_->writer.reset();
        parts_->transaction->commit();
        parts_.reset();
        return done();
    } catch (const store::Trouble& trouble) {
        return trouble.failure();
    }
}

} // namespace fettle
