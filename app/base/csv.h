// Tables as comma separated values (RFC 4180), read by libcsv and written by our own few lines.
// Pure; any thread.
#pragma once

#include "base/result.h"

#include <iosfwd>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace fettle {

struct CsvRow {
    int number = 0; // as a spreadsheet counts: from 1, blank rows included
    std::vector<std::string> fields;
};

struct CsvTable {
    char separator = ',';
    std::vector<CsvRow> rows; // blank ones left out; rows may differ in length
};

// The separator is whichever of comma, semicolon and tab the first row has most of outside quotes.
// A byte order mark is dropped. The text is in UTF-8 unless it is said to be in Windows-1252, as
// spreadsheets on older machines write it; that is never guessed. Quotes, line ends in quotes, and
// CR, LF or CRLF as RFC 4180 has them; a last line end may be missing. Failures (invalid) are the
// rest of a sentence that begins with the file's name: no UTF-8, a stray or open quote, with the
// row.
enum class CsvText { utf8, windows_1252 };
Result<CsvTable> read_csv(std::string_view text, CsvText in = CsvText::utf8);

// The same row by row, in UTF-8, with memory for little more than one row: for files of any length.
class CsvReader {
  public:
    // Reads from `in`, which must outlive it. The separator is chosen by the first row.
    explicit CsvReader(std::istream& in);
    CsvReader(CsvReader&&) noexcept;
    ~CsvReader();
    // Nothing at the end. Failures as above; besides, a row of more than 64 MiB.
    Result<std::optional<CsvRow>> next();

  private:
    struct Reading;
    std::unique_ptr<Reading> reading_;
};

// One row with its CRLF; fields are quoted where they must be, or could be taken for a row with
// another separator.
std::string csv_row(const std::vector<std::string>& fields);

} // namespace fettle
