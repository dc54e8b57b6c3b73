#include "notebook/row_rules.h"

#include "base/date.h"
#include "base/text.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>
#include <limits>

namespace fettle {
namespace {

bool is_day(const std::string& text) {
    const auto day = parse_day(text);
    return day && to_iso(*day) == text;
}

bool is_hash(const std::string& text) {
    return text.size() == 32 && std::ranges::all_of(text, [](char sign) {
               return (sign >= '0' && sign <= '9') || (sign >= 'a' && sign <= 'f');
           });
}

bool is_currency(const std::string& text) {
    return text.size() == 3 &&
           std::ranges::all_of(text, [](char sign) { return sign >= 'A' && sign <= 'Z'; });
}

std::optional<std::string> accepted_text(const ColumnSaid& column, const std::string& text) {
    switch (column.holds) {
    case Holds::word:
        if (std::ranges::find(column.words(), text) != column.words().end()) return {};
        return join(column.words(), ", ");
    case Holds::day:
        if (is_day(text)) return {};
        return "a day such as 2026-03-07";
    case Holds::moment:
        if (parse_moment(text)) return {};
        return "a time such as 2026-03-07T19:42:05.250+01:00";
    case Holds::hash:
        if (is_hash(text)) return {};
        return "32 digits of 0 to 9 and a to f";
    case Holds::currency:
        if (is_currency(text)) return {};
        return "three capital letters such as GBP";
    case Holds::json:
        if (nlohmann::json::accept(text)) return {};
        return "JSON";
    default:
        return {};
    }
}

std::optional<std::string> accepted_number(const ColumnSaid& column, std::int64_t number) {
    using Bounds = std::numeric_limits<std::int32_t>;
    const bool fits = number >= Bounds::min() && number <= Bounds::max();
    switch (column.holds) {
    case Holds::count:
        if (fits) return {};
        return "a whole number of up to 32 bits";
    case Holds::positive:
        if (fits && number > 0) return {};
        return "a whole number, at least 1";
    case Holds::flag:
        if (number == 0 || number == 1) return {};
        return "1 for yes, 0 for no";
    case Holds::id:
    case Holds::reference:
        if (number > 0) return {};
        return "the number of a record, at least 1";
    default:
        return {};
    }
}

std::optional<std::string> accepted_instead(const ColumnSaid& column, const Cell& cell) {
    if (std::holds_alternative<std::monostate>(cell)) {
        if (column.always)
            return "something: " + std::string(in_words(column.holds)) + ", " +
                   std::string(column.meaning);
        return {};
    }
    if (const auto* text = std::get_if<std::string>(&cell)) return accepted_text(column, *text);
    if (const auto* number = std::get_if<std::int64_t>(&cell))
        return accepted_number(column, *number);
    return {};
}

// A photo's file may stand outside the notebook only where it was left in place.
std::optional<RowFault> file_fault(const Cell& file, const Cell* in_place) {
    const auto* text = std::get_if<std::string>(&file);
    if (!text) return {};
    const bool outside = in_place && *in_place == Cell(std::int64_t{1});
    if (outside ? text->starts_with('/') : stays_within(*text)) return {};
    return RowFault{"file", outside ? "an absolute path, as the photo was left in place"
                                    : "a path below photos/, without .., such as "
                                      "photos/2026/2026-03-07/a.jpg"};
}

} // namespace

std::optional<RowFault> row_fault(const TableSaid* table, std::span<const std::string> columns,
                                  std::span<const Cell> cells) {
    if (!table) return {};
    const Cell *file = nullptr, *in_place = nullptr;
    for (std::size_t at = 0; at < columns.size(); ++at) {
        const auto said = std::ranges::find(table->columns, columns[at], &ColumnSaid::name);
        if (said == table->columns.end()) continue;
        if (auto accepted = accepted_instead(*said, cells[at]))
            return RowFault{columns[at], *accepted};
        if (said->holds == Holds::file) file = &cells[at];
        if (said->name == "in_place") in_place = &cells[at];
    }
    return file ? file_fault(*file, in_place) : std::nullopt;
}

bool stays_within(const std::string& text) {
    if (text.find('\0') != std::string::npos) return false;
    const std::filesystem::path file(text);
    const bool climbs =
        std::ranges::any_of(file, [](const auto& part) { return part == ".." || part == "."; });
    return file.is_relative() && !climbs && text.starts_with("photos/") && file.has_filename();
}

} // namespace fettle
