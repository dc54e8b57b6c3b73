#include "calc/typed_items.h"

#include "base/quantity.h"
#include "base/text.h"

#include <algorithm>
#include <cctype>
#include <limits>

namespace fettle::calc {
namespace {

constexpr std::size_t kMostItems = 10'000;
constexpr std::string_view kBlanks = " \t\r";

using Texts = std::vector<std::string>;

Failure problem(std::string sentence) {
    return {FailureKind::invalid, std::move(sentence)};
}

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

// Pieces between any of the separators; a last one that is blank counts for nothing.
Texts pieces_of(std::string_view text, std::string_view separators) {
    Texts pieces;
    for (std::size_t from = 0; from <= text.size();) {
        const std::size_t to = std::min(text.find_first_of(separators, from), text.size());
        pieces.emplace_back(trim(text.substr(from, to - from)));
        from = to + 1;
    }
    if (pieces.back().empty()) pieces.pop_back();
    return pieces;
}

// Between semicolons and on lines; blank lines count for nothing, a blank between semicolons does.
Texts rows_of(std::string_view text) {
    Texts rows;
    for (const std::string& line : pieces_of(text, "\n")) {
        if (line.empty()) continue;
        Texts pieces = pieces_of(line, ";");
        rows.insert(rows.end(), pieces.begin(), pieces.end());
    }
    return rows;
}

Texts words_of(std::string_view text) {
    Texts words = pieces_of(text, kBlanks);
    std::erase(words, std::string());
    return words;
}

bool is_whole(std::string_view word) {
    return !word.empty() && std::ranges::all_of(word, is_digit);
}

// 3/4, 3/4", 15/16in: a fraction below one at the front, or one of the signs ½ ¼ ⅜.
bool begins_with_fraction(std::string_view word) {
    if (word.starts_with("\xC2")) return word.size() > 1 && word[1] >= '\xBC' && word[1] <= '\xBE';
    if (word.starts_with("\xE2\x85")) return true;
    const std::size_t slash = word.find('/');
    if (slash > 6 || !is_whole(word.substr(0, slash))) return false;
    std::size_t end = slash + 1;
    while (end < word.size() && is_digit(word[end]))
        ++end;
    const std::size_t below = end - slash - 1;
    if (below == 0 || below > 6) return false;
    return std::stol(std::string(word)) < std::stol(std::string(word.substr(slash + 1)));
}

bool begins_like_number(std::string_view word) {
    return is_digit(word[0]) || (std::string_view("+-.").find(word[0]) != std::string_view::npos) ||
           begins_with_fraction(word) || parse_number(word).ok();
}

// Commas within a word of a blank-split list: items when nothing else can be meant.
Result<Texts> split_at_commas(std::string_view word) {
    while (word.ends_with(','))
        word.remove_suffix(1);
    Texts pieces = pieces_of(word, ",");
    if (pieces.size() < 2) return pieces;
    const bool points = word.find('.') != std::string_view::npos;
    const bool thousands = std::all_of(pieces.begin() + 1, pieces.end(), [](const auto& piece) {
        return piece.size() == 3 && is_whole(piece);
    });
    if (points || (pieces.size() > 2 && !thousands)) return pieces;
    return problem(fettle::quoted(word) +
                   " could be one number or several; separate items with \";\" and write a decimal "
                   "comma as a point.");
}

// Items between blanks and commas; words that do not begin like a number belong to the item before.
Result<Texts> items_between_blanks(std::string_view text) {
    Texts items;
    bool after_whole = false;
    for (const std::string& word : words_of(text)) {
        if (word == ",") continue;
        if (!begins_like_number(word)) {
            if (items.empty())
                return problem(fettle::quoted(word) + " is not a number; accepted are numbers "
                                                      "such as 8 12 20, with a unit after each "
                                                      "or at the very end.");
            items.back() += " " + word;
            continue;
        }
        auto pieces = split_at_commas(word);
        if (!pieces) return pieces.failure();
        if (after_whole && begins_with_fraction(word))
            return problem(fettle::quoted(items.back() + " " + word) +
                           " could be one number or two; write one as " + items.back() + "-" +
                           word + ", or separate items with \";\".");
        after_whole = is_whole(word);
        items.insert(items.end(), pieces->begin(), pieces->end());
    }
    return items;
}

Result<Texts> items_of(std::string_view text) {
    if (text.find_first_of(";\n") == std::string_view::npos) return items_between_blanks(text);
    return rows_of(text);
}

// The unit that bare items are taken in: the one at the very end, if that is the only one.
Result<std::string> unit_for_bare(const Input& input, const Texts& items) {
    const auto is_bare = [](const std::string& item) { return parse_number(item).ok(); };
    const auto bare = std::ranges::count_if(items, is_bare);
    if (bare == 0 || bare == std::ssize(items)) return input.unit;
    if (bare + 1 < std::ssize(items) || is_bare(items.back()))
        return problem("some items carry a unit and some do not; give each its unit, or one at the "
                       "very end for all of them.");
    auto last = parse_quantity(items.back(), input.quantity, input.unit);
    if (!last) return last.failure();
    return last->unit;
}

// The cells of one row. Between blanks a whole number followed by a fraction may be one cell or
// two; that is asked back when the row would be complete either way.
Result<Texts> cells_of(const Input& input, const std::string& row, std::size_t least) {
    if (row.find('|') != std::string::npos) {
        Texts cells = pieces_of(row, "|");
        if (cells.size() > input.columns.size() && cells.front().empty())
            cells.erase(cells.begin()); // a bar before the first cell, too
        return cells;
    }
    Texts cells = words_of(row);
    for (std::size_t at = 0; at + 1 < cells.size(); ++at)
        if (is_whole(cells[at]) && begins_with_fraction(cells[at + 1]) && cells.size() > least)
            return problem(fettle::quoted(cells[at] + " " + cells[at + 1]) +
                           " could be one cell or two; write one as " + cells[at] + "-" +
                           cells[at + 1] + ", or separate cells with \"|\".");
    return cells;
}

void add(SiValue& value, const Measured& measured) {
    value.numbers.push_back(measured.si);
    value.half_steps.push_back(measured.half_step);
}

// A cell of words holds the index of its word.
Result<Measured> read_cell(const Column& column, const std::string& cell) {
    if (column.choices.empty()) return parse_quantity(cell, column.quantity, column.unit);
    const auto typed = lower_ascii(cell);
    for (std::size_t at = 0; at < column.choices.size(); ++at)
        if (lower_ascii(column.choices[at]) == typed) return Measured{double(at), ""};
    return problem(fettle::quoted(cell) + " is not known; accepted are " +
                   join(column.choices, ", ") + ".");
}

// A row's cells in SI appended to `value`.
Done read_row(const Input& input, const std::string& row, SiValue& value) {
    const auto& columns = input.columns;
    std::size_t least = columns.size();
    while (least > 0 && !columns[least - 1].required)
        --least;
    auto cells = cells_of(input, row, least);
    if (!cells) return cells.failure();
    if (cells->size() > columns.size())
        return problem("it has " + std::to_string(cells->size()) + " cells; at most " +
                       std::to_string(columns.size()) +
                       " are accepted. Write a unit without a blank (36in) or separate cells with "
                       "\"|\".");
    cells->resize(columns.size());
    for (std::size_t at = 0; at < columns.size(); ++at) {
        const std::string& cell = (*cells)[at];
        if (cell.empty() && columns[at].required)
            return problem(columns[at].label + " (" + columns[at].id + ") is missing.");
        if (cell.empty()) {
            add(value, {.si = std::numeric_limits<double>::quiet_NaN()});
            continue;
        }
        auto measured = read_cell(columns[at], cell);
        if (!measured) return problem(columns[at].label + ": " + measured.failure().sentence);
        add(value, *measured);
    }
    return done();
}

// Most lists are typed without decimals that would say how fine they were measured.
void drop_empty_steps(SiValue& value) {
    const bool none = std::ranges::all_of(value.half_steps, [](double step) { return step == 0; });
    if (none) value.half_steps.clear();
}

Failure too_many(const char* what) {
    return problem("it has more than " + std::to_string(kMostItems) + " " + what + ".");
}

} // namespace

Result<SiValue> read_list(const Input& input, std::string_view text) {
    auto items = items_of(text);
    if (!items) return items.failure();
    if (items->empty()) return problem("there is no item in it.");
    if (items->size() > kMostItems) return too_many("items");
    for (std::size_t at = 0; at < items->size(); ++at)
        if ((*items)[at].empty()) return problem("item " + std::to_string(at + 1) + " is blank.");
    auto unit = unit_for_bare(input, *items);
    if (!unit) return unit.failure();
    SiValue value{.given = true, .columns = 1};
    for (const std::string& item : *items) {
        auto measured = parse_quantity(item, input.quantity, *unit);
        if (!measured) return measured.failure();
        if (value.numbers.empty()) value.typed_unit = measured->unit;
        add(value, *measured);
    }
    value.rows = static_cast<std::uint32_t>(value.numbers.size());
    drop_empty_steps(value);
    return value;
}

Result<SiValue> read_table(const Input& input, std::string_view text) {
    const Texts rows = rows_of(text);
    if (rows.size() > kMostItems) return too_many("rows");
    SiValue value{.given = true,
                  .rows = static_cast<std::uint32_t>(rows.size()),
                  .columns = static_cast<std::uint32_t>(input.columns.size())};
    for (std::size_t at = 0; at < rows.size(); ++at) {
        if (rows[at].empty()) return problem("row " + std::to_string(at + 1) + " is blank.");
        if (auto read = read_row(input, rows[at], value); !read)
            return problem("row " + std::to_string(at + 1) + ": " + read.failure().sentence);
    }
    drop_empty_steps(value);
    return value;
}

} // namespace fettle::calc
