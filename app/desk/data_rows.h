// The rows of one table as they stand in a file of data, one by one, with memory for one row.
#pragma once

#include "desk/data_files.h"
#include "notebook/record_rows.h"

#include <memory>
#include <optional>

namespace fettle::desk {

struct DataRow {
    std::int64_t number = 0; // of the line, in CSV of the row as a spreadsheet counts, from 1
    std::vector<std::string> columns; // as they stand there
    std::vector<Cell> cells;
};

class DataRows {
  public:
    virtual ~DataRows() = default;
    // Nothing at the end. Failures say file, line, field, value and what is accepted.
    virtual Result<std::optional<DataRow>> next() = 0;

    // `columns` are those the table has; all must be there and no others.
    static Result<std::unique_ptr<DataRows>> open(const std::filesystem::path& folder,
                                                  DataForm form, const store::Table& table);
};

// `jsonl/parts.jsonl, line 3, field "condition": "rusty"`, the beginning of each such sentence.
std::string place_in_data(DataForm form, const std::string& table, std::int64_t number,
                          const std::string& column, const std::string& value);
std::string place_in_data(DataForm form, const std::string& table, std::int64_t number);
// As it stands in the file, in quotes where it is a text.
std::string shown(const Cell& cell);

} // namespace fettle::desk
