#include "notebook/search.h"

#include "notebook/rules.h"

namespace fettle {
namespace {

// Each word in quotes, so that no sign of the query language is left in it, and open at its end.
std::string to_query(std::string_view words) {
    std::string query, current;
    auto close = [&] {
        if (!current.empty()) query += '"' + current + "\"* ";
        current.clear();
    };
    for (char letter : words) {
        if (std::isspace(static_cast<unsigned char>(letter)))
            close();
        else if (letter != '"' && letter != '\0')
            current += letter;
    }
    close();
    return query;
}

constexpr std::string_view kTitles =
    "CASE w.rowid % 8 "
    "WHEN 1 THEN (SELECT tag || ' ' || name FROM parts WHERE id = w.rowid / 8) "
    "WHEN 2 THEN (SELECT title FROM tasks WHERE id = w.rowid / 8) "
    "WHEN 3 THEN (SELECT on_date FROM entries WHERE id = w.rowid / 8) "
    "WHEN 4 THEN (SELECT 'mark ' || reading FROM marks WHERE id = w.rowid / 8) "
    "WHEN 5 THEN (SELECT original_name FROM photos WHERE id = w.rowid / 8) "
    "WHEN 6 THEN (SELECT number || ' ' || name FROM positions WHERE id = w.rowid / 8) END";

} // namespace

std::string_view word(FoundKind kind) {
    constexpr std::string_view kWords[] = {"",     "part",  "task",    "entry",
                                           "mark", "photo", "position"};
    return kWords[static_cast<int>(kind)];
}

bool holds_every_word(std::string_view text, std::string_view words) {
    auto lower = [](std::string_view from) {
        std::string folded(from);
        std::ranges::transform(folded, folded.begin(), [](unsigned char letter) {
            return static_cast<char>(std::tolower(letter));
        });
        return folded;
    };
    const auto haystack = lower(text);
    const auto needles = lower(words);
    for (std::size_t at = 0; at < needles.size();) {
        const auto end = std::min(needles.find(' ', at), needles.size());
        if (haystack.find(needles.substr(at, end - at)) == std::string::npos) return false;
        at = end + 1;
    }
    return true;
}

Result<std::vector<Found>> find(const Notebook& notebook, std::string_view words, int most) {
    const auto query = to_query(words);
    if (query.empty()) return std::vector<Found>{};
    return notebook.read([&](store::Database& database) {
        auto rows =
            database.query("SELECT w.rowid % 8, w.rowid / 8, ifnull(" + std::string(kTitles) +
                               ", ''), snippet(words, 1, '', '', '…', 16) "
                               "FROM words w WHERE words MATCH ? ORDER BY rank LIMIT ?",
                           query, most);
        return all_rows(std::move(rows), [](const store::Statement& row) {
            Found found{static_cast<FoundKind>(row.get<int>(0)), row.get<std::int64_t>(1),
                        row.get<std::string>(2), row.get<std::string>(3)};
            if (found.kind == FoundKind::entry) found.title = entry_name(found.title);
            return found;
        });
    });
}

} // namespace fettle
