#include "desk/data_files.h"

#include "base/text.h"
#include "desk/data_values.h"
#include "notebook/described.h"
#include "notebook/schema/schema.h"

#include <fstream>
#include <iterator>

namespace fettle::desk {
namespace {

namespace fs = std::filesystem;

constexpr int kForm = 1; // one up when a file of today could no longer be read as it is meant

constexpr std::string_view kAbout =
    R"(# Everything of a notebook, as files

Written by `fettlebook data out DIR`; `fettlebook data in DIR FOLDER` makes a notebook of it again, equal
to the last field. Each table stands here twice, with the same rows:

- `jsonl/TABLE.jsonl`: JSON Lines, an object a line (RFC 8259), UTF-8. A value that is not there is
  `null`; whole numbers are written whole and have up to 64 bits; other numbers have as many digits as
  bring the same 64-bit number back.
- `csv/TABLE.csv`: comma separated values (RFC 4180), UTF-8, the names of the columns in the first row. A
  value that is not there is `\N`, and an empty field is an empty text (in a column of numbers an empty
  field is taken for a value that is not there, too). A text that begins with a backslash is written with
  one more before it.

Bytes that are no text in UTF-8 stand as `{"hex": "..."}` in JSON and as `\x` and hexadecimal digits
in CSV. `notebook.json` says under which schema it was written and how many rows each table has.
`photos/`, where it was asked for, has the photos as they are in the notebook, byte for byte, with the
place they were taken at where the camera wrote it, each with a sidecar (XMP) of what is known of it.
To hand photos to others use `fettlebook export`, which leaves the place out.

Not here: history (what could be undone) and what two machines know of each other (settle their
differences first), which hold for one database alone, and what is made anew from the rest (the index of
words, thumbnails).

Every table's `id` is its rows' own number; other columns name rows by it. What is always there is never
`null`; a text may be empty all the same.
)";

std::string cell(std::string_view text) {
    return text.empty() ? "" : std::string(text);
}

std::string said_of(const ColumnSaid& column) {
    std::string kind(in_words(column.holds));
    if (column.holds == Holds::reference) return "`id` in `" + std::string(column.detail) + '`';
    if (column.words) return kind + ": " + join(column.words(), ", ");
    return kind;
}

std::string table_text(const TableSaid& table) {
    std::string text =
        "\n## " + std::string(table.name) + "\n\n" + std::string(table.meaning) +
        "\n\n| column | stored as | always there | what it holds | unit | meaning |\n"
        "| --- | --- | --- | --- | --- | --- |\n";
    for (const auto& column : table.columns) {
        const bool has_unit = column.holds != Holds::reference;
        text += "| " + std::string(column.name) + " | " + std::string(stored_as(column.holds)) +
                " | " + (column.always ? "yes" : "no") + " | " + said_of(column) + " | " +
                (has_unit ? cell(column.detail) : "") + " | " + std::string(column.meaning) +
                " |\n";
    }
    return text;
}

} // namespace

fs::path data_folder(DataForm form) {
    return form == DataForm::csv ? "csv" : "jsonl";
}

fs::path data_file(DataForm form, std::string_view table) {
    return data_folder(form) / (std::string(table) + (form == DataForm::csv ? ".csv" : ".jsonl"));
}

std::string head_text(const DataHead& head) {
    DataJson rows = DataJson::object();
    for (const auto& table : described_tables())
        if (const auto found = head.rows.find(std::string(table.name)); found != head.rows.end())
            rows[found->first] = found->second;
    return DataJson{{"fettlebook_data", kForm},
                    {"schema", head.schema},
                    {"made", head.made},
                    {"rows", rows}}
               .dump(2) +
           '\n';
}

Result<DataHead> read_head(const fs::path& folder) {
    const auto file = folder / kDataHead;
    const std::string name = safe_utf8(file.native());
    std::error_code error;
    std::ifstream in;
    if (fs::is_regular_file(file, error)) in.open(file, std::ios::binary); // no pipe to wait for
    if (!in.is_open())
        return Failure{FailureKind::not_found,
                       "There is no " + name +
                           ": name a folder that `fettlebook data out` has written."};
    const auto json = DataJson::parse(std::istreambuf_iterator<char>(in), {}, nullptr, false);
    const auto number = [&](const char* key) {
        return json.is_object() && json.contains(key) && json[key].is_number_integer()
                   ? json[key].get<std::int64_t>()
                   : 0;
    };
    const auto form = number("fettlebook_data"), schema = number("schema");
    if (form > kForm || schema > kNewestSchema)
        return Failure{FailureKind::newer, name +
                                               " was written by a later version of Fettlebook "
                                               "(schema " +
                                               std::to_string(schema) + "; this one knows up to " +
                                               std::to_string(kNewestSchema) +
                                               "): take it in with that version."};
    if (form < 1 || schema < 1)
        return Failure{FailureKind::invalid,
                       name + " does not say its \"fettlebook_data\" and \"schema\": accepted are "
                              "whole numbers from 1, as `fettlebook data out` writes them."};
    DataHead head{int(schema), {}, {}};
    if (json.contains("rows") && json["rows"].is_object())
        for (const auto& [table, count] : json["rows"].items())
            if (count.is_number_integer()) head.rows[table] = count.get<std::int64_t>();
    return head;
}

std::string data_readme() {
    std::string text(kAbout);
    for (const auto& table : described_tables())
        text += table_text(table);
    return text;
}

} // namespace fettle::desk
