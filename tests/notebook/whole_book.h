// All that a notebook's database holds, as text to compare; and what is wrong with it.
#pragma once

#include "notebook/notebook.h"

#include <string>
#include <vector>

namespace notebook_tests {

namespace detail {

inline std::vector<std::string> column_of(fettle::store::Database& database,
                                          const std::string& sql) {
    std::vector<std::string> values;
    auto rows = database.query(sql);
    while (rows.next())
        values.push_back(rows.get<std::string>(0));
    return values;
}

// A table's rows as lines, without the moments at which they were written.
inline std::string rows_of(fettle::store::Database& database, const std::string& table) {
    std::string columns;
    for (const auto& column :
         column_of(database, "SELECT name FROM pragma_table_info('" + table +
                                 "') WHERE name NOT IN ('written', 'changed', 'made', 'changes')"))
        columns += (columns.empty() ? "quote(" : " || ',' || quote(") + column + ")";
    std::string text = "\n" + table + '\n';
    for (const auto& line :
         column_of(database, "SELECT " + columns + " AS line FROM " + table + " ORDER BY line"))
        text += line + '\n';
    return text;
}

} // namespace detail

inline std::string content_of(fettle::store::Database& database) {
    std::string text;
    for (const auto& table : detail::column_of(
             database, "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE "
                       "'sqlite%' AND name NOT LIKE 'words_%' ORDER BY name"))
        text += detail::rows_of(database, table);
    return text;
}

inline std::string content_of(const fettle::Notebook& book) {
    auto content =
        book.read([](fettle::store::Database& database) { return content_of(database); });
    return content ? *content : content.failure().sentence;
}

// Empty, or what SQLite finds wrong with the file, with what refers to what, or with the index of
// words. The notebook must be open for writing.
inline std::string what_is_wrong_with(const fettle::Notebook& book) {
    auto wrong = book.read([](fettle::store::Database& database) {
        std::string all;
        for (const auto& line : detail::column_of(database, "PRAGMA integrity_check"))
            if (line != "ok") all += line + '\n';
        for (const auto& table : detail::column_of(database, "PRAGMA foreign_key_check"))
            all += "a row of " + table + " refers to none\n";
        database.run_script("INSERT INTO words(words) VALUES ('integrity-check')");
        return all;
    });
    return wrong ? *wrong : wrong.failure().sentence + " / " + wrong.failure().detail;
}

} // namespace notebook_tests
