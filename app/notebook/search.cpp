#include "notebook/search.h"

#include "base/marked_text.h"
#include "base/text.h"
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

// Of each kind in the order of FoundKind; `id` stands for the record's id.
struct KindSql {
    const char* title;
    const char* within; // blank: the id itself
    const char* day;
    const char* parts; // the ids of the parts it touches
};

constexpr std::array<KindSql, 11> kSql = {{
    {"SELECT tag || ' ' || name FROM parts WHERE id = $id", "",
     "SELECT acquired FROM parts WHERE id = $id", "SELECT $id AS part"},
    {"SELECT title FROM tasks WHERE id = $id", "", "SELECT done_on FROM tasks WHERE id = $id",
     "SELECT a.id AS part FROM task_positions t JOIN parts a ON a.position_id = t.position_id "
     "WHERE t.task_id = $id UNION SELECT p.part_id FROM entry_tasks t JOIN entry_parts p "
     "ON p.entry_id = t.entry_id WHERE t.task_id = $id"},
    {"SELECT on_date FROM entries WHERE id = $id", "", "SELECT on_date FROM entries WHERE id = $id",
     "SELECT part_id AS part FROM entry_parts WHERE entry_id = $id"},
    {"SELECT 'mark ' || reading FROM marks WHERE id = $id", "",
     "SELECT p.taken FROM marks m JOIN photos p ON p.id = m.photo_id WHERE m.id = $id",
     "SELECT part_id AS part FROM marks WHERE id = $id"},
    {"SELECT original_name FROM photos WHERE id = $id", "",
     "SELECT taken FROM photos WHERE id = $id",
     "SELECT part_id AS part FROM ties WHERE photo_id = $id UNION "
     "SELECT part_id FROM marks WHERE photo_id = $id"},
    {"SELECT number || ' ' || name FROM positions WHERE id = $id", "", "NULL",
     "SELECT id AS part FROM parts WHERE position_id = $id"},
    {"SELECT 'consignment ' || g.id || iif(g.inward, ' from ', ' to ') || ifnull(c.name, '') "
     "FROM consignments g LEFT JOIN contacts c ON c.id = g.contact_id WHERE g.id = $id",
     "", "SELECT ifnull(sent_on, due_on) FROM consignments WHERE id = $id",
     "SELECT part_id AS part FROM consignment_items WHERE consignment_id = $id"},
    {"SELECT feature || ' of ' || a.tag || ', ' || verdict FROM measurements m "
     "JOIN parts a ON a.id = m.part_id WHERE m.id = $id",
     "SELECT part_id FROM measurements WHERE id = $id",
     "SELECT on_date FROM measurements WHERE id = $id",
     "SELECT part_id AS part FROM measurements WHERE id = $id"},
    {"SELECT what FROM costs WHERE id = $id", "", "SELECT on_date FROM costs WHERE id = $id",
     "SELECT part_id AS part FROM costs WHERE id = $id"},
    {"SELECT name FROM contacts WHERE id = $id", "", "NULL",
     "SELECT id AS part FROM parts WHERE contact_id = $id"},
    {"SELECT ifnull(iif(json_valid(answer), json_extract(answer, '$.sheet.title'), NULL), sheet) "
     "FROM worked_results WHERE id = $id",
     "SELECT entry_id FROM worked_results WHERE id = $id",
     "SELECT e.on_date FROM worked_results r JOIN entries e ON e.id = r.entry_id WHERE r.id = $id",
     "SELECT p.part_id AS part FROM worked_results r JOIN entry_parts p ON p.entry_id = r.entry_id "
     "WHERE r.id = $id"},
}};

std::string with_id(std::string_view sql) {
    std::string text(sql);
    for (std::size_t at = 0; (at = text.find("$id", at)) != std::string::npos;)
        text.replace(at, 3, "(w.rowid / 16)");
    return text;
}

// CASE over the kinds, each with what `of` gives for it.
template <class Of>
std::string by_kind(Of of) {
    std::string sql = "CASE w.rowid % 16";
    for (std::size_t kind = 0; kind < kSql.size(); ++kind)
        sql += " WHEN " + std::to_string(kind + 1) + " THEN " + of(kSql[kind]);
    return sql + " END";
}

std::string titles() {
    return by_kind([](const KindSql& kind) { return "(" + with_id(kind.title) + ")"; });
}

std::string owners() {
    return by_kind([](const KindSql& kind) {
        return "(" + with_id(*kind.within != '\0' ? kind.within : "SELECT $id") + ")";
    });
}

std::string days() {
    return by_kind(
        [](const KindSql& kind) { return "substr((" + with_id(kind.day) + "), 1, 10)"; });
}

std::string parts() {
    return by_kind([](const KindSql& kind) {
        return "EXISTS (SELECT 1 FROM (" + with_id(kind.parts) + ") WHERE part $in)";
    });
}

// Whether the record touches one of the parts.
std::string touches(std::string_view in) {
    std::string sql = parts();
    for (std::size_t at = 0; (at = sql.find("$in", at)) != std::string::npos;)
        sql.replace(at, 3, in);
    return sql;
}

// What more records than this hold, as most do the first letter of a word being typed, does not
// tell one from another: ranking them would take longer than a key press, and says nothing.
constexpr int kMostRanked = 500;

enum class FindBy {
    nearness,
    newest,
    listed, // the newest by their ids: going through the index again would take as long as before
    day
};

// What narrows the search to the filter, and nothing where it does not: reading the query takes
// longer than a small one does. Parameters: 3 and 4 first and last day, where there is either.
Conditions narrowed(const FindFilter& filter) {
    Conditions where;
    if (filter.kind) where.add("w.rowid % 16 = " + std::to_string(static_cast<int>(*filter.kind)));
    if (filter.from || filter.to)
        where.add("(?3 = '' OR " + days() + " >= ?3) AND (?4 = '' OR " + days() + " <= ?4)");
    if (filter.part) where.add(touches("= " + std::to_string(filter.part.value)));
    if (filter.maker) {
        const std::string maker = std::to_string(filter.maker.value);
        where.add(
            "(" + touches("IN (SELECT id FROM of_maker)") +
            " OR (w.rowid % 16 = 4 AND "
            "     (SELECT maker_id FROM marks WHERE id = w.rowid / 16) = " +
            maker +
            ") OR (w.rowid % 16 = 5 AND "
            "      EXISTS (SELECT 1 FROM marks WHERE photo_id = w.rowid / 16 AND maker_id = " +
            maker + ")))");
    }
    return where;
}

std::string of_maker(MakerId maker) {
    if (!maker) return "";
    const std::string id = std::to_string(maker.value);
    return "WITH of_maker AS MATERIALIZED (SELECT id FROM parts WHERE maker_id = " + id +
           " UNION SELECT part_id FROM marks WHERE maker_id = " + id + " AND part_id IS NOT NULL) ";
}

std::string joined(const std::vector<std::int64_t>& ids) {
    std::vector<std::string> numbers;
    for (const std::int64_t id : ids)
        numbers.push_back(std::to_string(id));
    return join(numbers, ", ");
}

// Parameters: 1 words, 2 most, and those of narrowed().
std::string find_sql(FindBy by, const FindFilter& filter,
                     const std::vector<std::int64_t>& listed = {}) {
    const bool by_words = by == FindBy::nearness || by == FindBy::newest;
    Conditions where = narrowed(filter);
    where.add(by_words ? "words MATCH ?1" : by == FindBy::listed ? "?1 <> ''" : "?1 = ''");
    if (by == FindBy::listed) where.add("w.rowid IN (" + joined(listed) + ")");
    return of_maker(filter.maker) + "SELECT w.rowid % 16, w.rowid / 16, ifnull(" + titles() +
           ", ''), " +
           (by_words ? "snippet(words, 1, '', '', '…', 16), " : "substr(w.text, 1, 120), ") +
           owners() + ", " + days() + " AS day FROM words w " + where.sql() + "ORDER BY " +
           (by == FindBy::nearness ? "rank"
            : by == FindBy::day    ? "day IS NULL, day DESC, w.rowid"
                                   : "w.rowid DESC") +
           " LIMIT ?2";
}

// The newest that hold the words, one more than are ranked at most.
std::vector<std::int64_t> newest(store::Database& database, const std::string& query) {
    return all_rows(database.query("SELECT rowid FROM words WHERE words MATCH ? "
                                   "ORDER BY rowid DESC LIMIT ?",
                                   query, kMostRanked + 1),
                    [](const store::Statement& row) { return row.get<std::int64_t>(0); });
}

std::string find_sql_for(store::Database& database, const std::string& query,
                         const FindFilter& filter, int most) {
    if (query.empty()) return find_sql(FindBy::day, filter);
    auto found = newest(database, query);
    if (std::ssize(found) <= kMostRanked) return find_sql(FindBy::nearness, filter);
    if (filter.narrows() || most < 0 || most > kMostRanked) return find_sql(FindBy::newest, filter);
    found.resize(std::size_t(most));
    return find_sql(FindBy::listed, filter, found);
}

} // namespace

std::string_view word(FoundKind kind) {
    constexpr std::array<std::string_view, 12> kWords = {
        "",         "part",        "task",        "entry", "mark",    "photo",
        "position", "consignment", "measurement", "cost",  "contact", "result"};
    return kWords[static_cast<std::size_t>(kind)];
}

Result<FoundKind> found_kind(std::string_view text) {
    std::vector<std::string> accepted;
    for (const FoundKind kind : kFoundKinds) {
        if (word(kind) == text) return kind;
        accepted.emplace_back(word(kind));
    }
    return Failure{FailureKind::invalid, quoted(text) + " is no kind of record: accepted are " +
                                             join(accepted, ", ") + "."};
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

Result<std::vector<Found>> find(const Notebook& notebook, const FindFilter& filter, int most) {
    if (filter.from && filter.to && *filter.to < *filter.from)
        return Failure{FailureKind::invalid, "The first day " + to_words(*filter.from) +
                                                 " is after the last, " + to_words(*filter.to) +
                                                 ": an earlier one is accepted."};
    const auto query = to_query(filter.words);
    if (query.empty() && !filter.narrows()) return std::vector<Found>{};
    const auto iso = [](const std::optional<Day>& day) { return day ? to_iso(*day) : ""; };
    return notebook.read([&](store::Database& database) {
        const std::string sql = find_sql_for(database, query, filter, most);
        auto rows = filter.from || filter.to
                        ? database.query(sql, query, most, iso(filter.from), iso(filter.to))
                        : database.query(sql, query, most);
        return all_rows(std::move(rows), [](const store::Statement& row) {
            Found found{static_cast<FoundKind>(row.get<int>(0)), row.get<std::int64_t>(1),
                        row.get<std::string>(2), row.get<std::string>(3), row.get<std::int64_t>(4)};
            if (found.kind == FoundKind::entry) {
                found.title = entry_name(found.title);
                found.excerpt = words_of_marked(found.excerpt);
            }
            if (auto day = parse_day(row.get<std::string>(5))) found.day = *day;
            return found;
        });
    });
}

Result<std::vector<Found>> find(const Notebook& notebook, std::string_view words, int most) {
    return find(notebook, FindFilter{.words = std::string(words)}, most);
}

} // namespace fettle
