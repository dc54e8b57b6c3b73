// Small rules and reading habits that the notebook's subjects share. For this room only.
#pragma once

#include "base/date.h"
#include "notebook/notebook.h"
#include "notebook/words.h"

#include <algorithm>
#include <cctype>
#include <type_traits>
#include <vector>

namespace fettle {

inline Done require_text(std::string_view field, std::string_view text) {
    const bool blank = std::ranges::all_of(
        text, [](char letter) { return std::isspace(static_cast<unsigned char>(letter)); });
    if (!blank) return done();
    return Failure{FailureKind::invalid,
                   "The " + std::string(field) + " is empty: write something there."};
}

// True when each blank-separated word of `words` stands somewhere in `text`, in any case.
bool holds_every_word(std::string_view text, std::string_view words);

// The enum value of a stored word; throws Trouble when the database holds another one.
template <class E>
E stored_word(const store::Statement& row, int column) {
    auto value = from_word<E>(row.get<std::string>(column));
    if (!value) throw store::Trouble(value.failure());
    return *value;
}

// How an entry is called where it is one line among others: "entry of 7 Mar 2026".
inline std::string entry_name(const std::string& on_date) {
    auto day = parse_day(on_date);
    return "entry of " + (day ? to_words(*day) : on_date);
}

inline Failure nothing_called(std::string_view kind, std::string_view name) {
    return {FailureKind::not_found, "There is no " + std::string(kind) + " \"" + std::string(name) +
                                        "\" in this notebook."};
}

// What narrows a list, as SQL: only what is asked for, so that an index can serve it. A condition
// that holds for anything when nothing is asked ("?1 IS NULL OR ...") reads the whole table.
class Conditions {
  public:
    template <class Tag>
    Conditions& is(std::string_view column, Id<Tag> id) {
        return id ? add(std::string(column) + " = " + std::to_string(id.value)) : *this;
    }
    // `ids`: a query for ids that the one asked for is put to the end of, such as
    // "SELECT part_id FROM ties WHERE photo_id =".
    template <class Tag>
    Conditions& among(std::string_view column, std::string_view ids, Id<Tag> id) {
        return id ? add(std::string(column) + " IN (" + std::string(ids) + " " +
                        std::to_string(id.value) + ")")
                  : *this;
    }
    Conditions& add(std::string_view condition) {
        sql_ += (sql_.empty() ? "WHERE " : "AND ") + std::string(condition) + " ";
        return *this;
    }
    const std::string& sql() const { return sql_; } // blank, or ending in one

  private:
    std::string sql_;
};

template <class Make>
auto all_rows(store::Statement rows, Make make) {
    std::vector<std::invoke_result_t<Make, const store::Statement&>> records;
    while (rows.next())
        records.push_back(make(rows));
    return records;
}

// The one record a query gives, or not_found naming what was asked for.
template <class Make, class... Values>
auto one_row(const Notebook& notebook, std::string_view kind, std::string_view name, Make make,
             std::string_view sql, const Values&... values)
    -> Result<std::invoke_result_t<Make, const store::Statement&>> {
    using Record = std::invoke_result_t<Make, const store::Statement&>;
    auto found = notebook.read([&](store::Database& database) -> std::optional<Record> {
        auto row = database.query(sql, values...);
        if (!row.next()) return std::nullopt;
        return make(row);
    });
    if (!found) return found.failure();
    if (!*found) return nothing_called(kind, name);
    return std::move(**found);
}

} // namespace fettle
