#include "desk/data_rows.h"

#include "base/csv.h"
#include "base/text.h"
#include "desk/data_values.h"

#include <algorithm>
#include <fstream>
#include <set>

namespace fettle::desk {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kMostOfLine = 64 << 20;

std::string names_of(const store::Table& table) {
    std::vector<std::string> names;
    for (const auto& column : table.columns)
        names.push_back(column.name);
    return join(names, ", ");
}

const store::Column* column_named(const store::Table& table, const std::string& name) {
    const auto found = std::ranges::find(table.columns, name, &store::Column::name);
    return found == table.columns.end() ? nullptr : &*found;
}

Failure refused(std::string sentence) {
    return {FailureKind::invalid, std::move(sentence)};
}

Failure wrong_value(const std::string& place, const store::Column& column) {
    return refused(place + " is not accepted here; accepted is " + accepted_by(column.holding) +
                   (column.required ? "." : ", or nothing."));
}

Failure no_such_column(const std::string& place, const std::string& name,
                       const store::Table& table) {
    return refused(place + ": there is no column " + fettle::quoted(name) + "; accepted are " +
                   names_of(table) + ".");
}

std::string shown_json(const DataJson& value) {
    if (value.is_string()) return "the text " + fettle::quoted(value.get<std::string>());
    const std::string text = value.dump();
    return text.size() <= 60 ? text : fettle::quoted(text);
}

class JsonRows : public DataRows {
  public:
    JsonRows(const fs::path& file, store::Table table)
        : in_(file, std::ios::binary), table_(std::move(table)) {}

    Result<std::optional<DataRow>> next() override {
        do {
            auto more = read_line();
            if (!more) return more.failure();
            if (!*more) return std::optional<DataRow>();
            ++number_;
        } while (trim(line_).empty());
        std::set<std::string> names;
        std::string doubled; // of two fields of one name a parser would keep the last
        const auto see = [&](int depth, DataJson::parse_event_t event, DataJson& value) {
            if (event == DataJson::parse_event_t::key && depth == 1 &&
                !names.insert(value.get<std::string>()).second)
                doubled = value.get<std::string>();
            return true;
        };
        const auto object = DataJson::parse(line_, see, false);
        const auto place = place_in_data(DataForm::json_lines, table_.name, number_);
        if (!object.is_object())
            return refused(place + ", " + fettle::quoted(line_) +
                           ", is no JSON object in UTF-8: accepted is one whole object a line, "
                           "such as {\"id\": 1, ...}.");
        if (!doubled.empty())
            return refused(place + " has the field \"" + doubled +
                           "\" twice: accepted is each once.");
        return row_of(object);
    }

  private:
    // Into line_; false at the end.
    Result<bool> read_line() {
        line_.clear();
        for (int sign; (sign = in_.get()) != std::ifstream::traits_type::eof();) {
            if (sign == '\n') return true;
            line_ += static_cast<char>(sign);
            if (line_.size() > kMostOfLine)
                return refused(place_in_data(DataForm::json_lines, table_.name, number_ + 1) +
                               " is longer than the 64 MiB that are accepted.");
        }
        return !line_.empty();
    }

    Result<std::optional<DataRow>> row_of(const DataJson& object) {
        DataRow row{number_, {}, {}};
        const auto place = place_in_data(DataForm::json_lines, table_.name, number_);
        for (const auto& [name, value] : object.items()) {
            const auto* column = column_named(table_, name);
            if (!column) return no_such_column(place, name, table_);
            auto cell = from_json(value, column->holding);
            if (!cell)
                return wrong_value(place + ", field \"" + name + "\": " + shown_json(value),
                                   *column);
            row.columns.push_back(name);
            row.cells.push_back(std::move(*cell));
        }
        for (const auto& column : table_.columns)
            if (!object.contains(column.name))
                return refused(place + " has no field \"" + column.name +
                               "\": accepted are rows "
                               "with all of " +
                               names_of(table_) + ".");
        return std::optional(std::move(row));
    }

    std::ifstream in_;
    store::Table table_;
    std::string line_;
    std::int64_t number_ = 0;
};

class CsvRows : public DataRows {
  public:
    CsvRows(const fs::path& file, store::Table table)
        : in_(file, std::ios::binary), reader_(in_), table_(std::move(table)) {}

    Result<std::optional<DataRow>> next() override {
        if (columns_.empty())
            if (auto head = read_head_row(); !head) return head.failure();
        auto row = reader_.next();
        if (!row) return cannot_be_read(row.failure());
        if (!*row) return std::optional<DataRow>();
        const auto& fields = (*row)->fields;
        const auto place = place_in_data(DataForm::csv, table_.name, (*row)->number);
        if (fields.size() != columns_.size())
            return refused(place + " has " + std::to_string(fields.size()) +
                           " fields; accepted are " + std::to_string(columns_.size()) +
                           ", as many as the first row has.");
        DataRow data{(*row)->number, columns_, {}};
        for (std::size_t at = 0; at < fields.size(); ++at) {
            const auto* column = column_named(table_, columns_[at]);
            auto cell = from_csv(fields[at], column->holding);
            if (!cell)
                return wrong_value(place + ", field \"" + columns_[at] +
                                       "\": " + fettle::quoted(fields[at]),
                                   *column);
            data.cells.push_back(std::move(*cell));
        }
        return std::optional(std::move(data));
    }

  private:
    Failure cannot_be_read(const Failure& why) {
        return refused("The file " + data_file(DataForm::csv, table_.name).string() + ' ' +
                       why.sentence + '.');
    }

    Done read_head_row() {
        auto head = reader_.next();
        if (!head) return cannot_be_read(head.failure());
        const auto place = place_in_data(DataForm::csv, table_.name, 1);
        if (!*head)
            return refused(place + " is missing: accepted are the names " + names_of(table_) + ".");
        for (const auto& name : (*head)->fields) {
            if (!column_named(table_, name)) return no_such_column(place, name, table_);
            if (std::ranges::count((*head)->fields, name) > 1)
                return refused(place + " names the column \"" + name +
                               "\" twice: accepted is each once.");
        }
        for (const auto& column : table_.columns)
            if (std::ranges::find((*head)->fields, column.name) == (*head)->fields.end())
                return refused(place + " has no column \"" + column.name + "\": accepted are " +
                               names_of(table_) + ".");
        columns_ = (*head)->fields;
        return done();
    }

    std::ifstream in_;
    CsvReader reader_;
    store::Table table_;
    std::vector<std::string> columns_;
};

} // namespace

Result<std::unique_ptr<DataRows>> DataRows::open(const fs::path& folder, DataForm form,
                                                 const store::Table& table) {
    const auto file = folder / data_file(form, table.name);
    std::error_code error; // a pipe would be waited for
    if (!fs::is_regular_file(file, error) || !std::ifstream(file, std::ios::binary))
        return Failure{FailureKind::io,
                       "The file " + safe_utf8(file.native()) + " cannot be read."};
    std::unique_ptr<DataRows> rows;
    if (form == DataForm::csv)
        rows = std::make_unique<CsvRows>(file, table);
    else
        rows = std::make_unique<JsonRows>(file, table);
    return rows;
}

std::string place_in_data(DataForm form, const std::string& table, std::int64_t number) {
    return data_file(form, table).string() + (form == DataForm::csv ? ", row " : ", line ") +
           std::to_string(number);
}

std::string place_in_data(DataForm form, const std::string& table, std::int64_t number,
                          const std::string& column, const std::string& value) {
    return place_in_data(form, table, number) + ", field \"" + column + "\": " + value;
}

std::string shown(const Cell& cell) {
    if (std::holds_alternative<std::monostate>(cell)) return "nothing";
    if (const auto* text = std::get_if<std::string>(&cell)) return fettle::quoted(*text);
    return to_json(cell).dump();
}

} // namespace fettle::desk
