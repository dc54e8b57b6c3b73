// Data given from outside as files (`data in`) and the zip of a backup.
#include "desk/archive.h"
#include "desk/backup_contents.h"
#include "desk/data_rows.h"
#include "desk/data_values.h"
#include "fuzz/targets.h"
#include "notebook/making.h"
#include "notebook/record_faults.h"
#include "notebook/row_rules.h"
#include "notebook/schema/schema.h"
#include "temp_folder.h"

#include <cmath>
#include <map>

namespace fuzz {
namespace {

using namespace fettle;
namespace fs = std::filesystem;

NotebookInMaking begun(const fs::path& folder) {
    fs::remove_all(folder);
    fs::create_directories(folder);
    auto making = NotebookInMaking::begin(folder, kNewestSchema);
    must(making.ok());
    return std::move(*making);
}

const std::map<std::string, store::Table>& tables() {
    static const auto all = [] {
        const TempFolder folder;
        auto making = begun(folder / "book");
        std::map<std::string, store::Table> named;
        for (const auto& said : described_tables())
            if (auto table = making.table(std::string(said.name)))
                named.emplace(table->name, std::move(*table));
        return named;
    }();
    return all;
}

// A value that was taken stands the same when it is given out and taken again.
void must_come_back(const Cell& cell, store::Holding holding) {
    if (const auto* number = std::get_if<double>(&cell)) must(std::isfinite(*number));
    const auto from_words = desk::from_csv(desk::to_csv(cell), holding);
    const auto from_object = desk::from_json(desk::to_json(cell), holding);
    must(from_words && *from_words == cell);
    must(from_object && *from_object == cell);
}

// A notebook of these rows, when they keep all rules.
void make_notebook(const TempFolder& folder, const store::Table& table,
                   const std::vector<desk::DataRow>& rows) {
    auto making = begun(folder / "book");
    for (const auto& row : rows) {
        const auto breach = making.put(table, row.columns, row.cells);
        if (!breach || *breach) return;
    }
    const auto missing = making.missing();
    if (!missing || *missing || !making.finish()) return;
    const auto book = Notebook::open(folder / "book", store::Access::write);
    must(book.ok());
    (void)rule_faults(*book);
}

void read_rows(const TempFolder& folder, desk::DataForm form, const store::Table& table) {
    auto source = desk::DataRows::open(folder.path(), form, table);
    must(source.ok());
    const auto* said = described_table(table.name);
    std::vector<desk::DataRow> rows;
    bool fit = true;
    for (;;) {
        auto row = (*source)->next();
        if (!row) return must_be_text(row.failure().sentence);
        if (!*row) break;
        for (std::size_t at = 0; at < (*row)->cells.size(); ++at)
            for (const auto& column : table.columns)
                if (column.name == (*row)->columns[at])
                    must_come_back((*row)->cells[at], column.holding);
        fit = fit && !row_fault(said, (*row)->columns, (*row)->cells);
        rows.push_back(std::move(**row));
    }
    if (fit && !rows.empty()) make_notebook(folder, table, rows);
}

} // namespace

// The first line says of what: "jsonl TABLE", "csv TABLE" or anything else for the head.
void given_data(Input input) {
    const std::string text(reinterpret_cast<const char*>(input.data()), input.size());
    const auto end = text.find('\n');
    if (end == std::string::npos) return;
    const auto of = text.substr(0, end);
    const bool is_csv = of.starts_with("csv ");
    const bool is_json = of.starts_with("jsonl ");
    const TempFolder folder;
    if (!is_csv && !is_json) {
        write_file(folder / desk::kDataHead, text.substr(end + 1));
        const auto head = desk::read_head(folder.path());
        return must(!head || (head->schema >= 1 && head->schema <= kNewestSchema));
    }
    const auto table = tables().find(of.substr(of.find(' ') + 1));
    if (table == tables().end()) return;
    const auto form = is_csv ? desk::DataForm::csv : desk::DataForm::json_lines;
    fs::create_directories(folder / desk::data_folder(form));
    write_file(folder / desk::data_file(form, table->first), text.substr(end + 1));
    read_rows(folder, form, table->second);
}

// The input as the zip file; whatever is written stays below the folder given.
void archive(Input input) {
    const TempFolder folder;
    const auto zip = folder / "backup.zip", into = folder / "into";
    write_file(zip, {reinterpret_cast<const char*>(input.data()), input.size()});
    fs::create_directories(into);
    const auto contents = desk::read_through(zip, into, {});
    if (!contents) must_be_text(contents.failure().sentence);
    must(!contents || desk::is_backup(zip));
    for (const auto& entry : fs::directory_iterator(folder.path()))
        must(entry.path() == zip || entry.path() == into);
    for (const auto& entry : fs::recursive_directory_iterator(into))
        must(!entry.is_symlink());
}

} // namespace fuzz
