#include "desk/book_strips.h"

#include <algorithm>
#include <numeric>

namespace fettle::desk {
namespace {

using namespace grid;

constexpr Type kCell{.size = 3.1, .lead = 4.8, .most = 30};
constexpr Type kHeadCell{.size = 2.8, .lead = 3.6, .colour = kPencil, .most = 3};
constexpr Type kSmallCell{.size = 2.7, .lead = 3.6, .colour = kPencil, .most = 30};
constexpr double kBetween = 3, kLeast = 9;

// Words may break, so a column needs no more than this at first; figures are never broken.
constexpr double kMostNatural = 70;

bool is_figure(const std::string& cell) {
    return !cell.empty() && (cell[0] == '-' || cell[0] == '+' ||
                             (cell[0] >= '0' && cell[0] <= '9') || cell.starts_with("−"));
}

struct Columns {
    std::vector<double> left, width;
    std::vector<bool> figures;
};

std::size_t columns_in(const TableOf& table) {
    std::size_t count = table.headings.size();
    for (const auto& row : table.rows)
        count = std::max(count, row.size());
    return count;
}

std::vector<double> natural_widths(const TableOf& table, Typesetter& types, std::size_t count) {
    std::vector<double> widths(count, kLeast);
    const auto grow = [&](const std::vector<std::string>& cells, const Type& type, double most) {
        for (std::size_t at = 0; at < cells.size() && at < count; ++at)
            widths[at] = std::max(widths[at], std::min(most, types.width(cells[at], type)));
    };
    grow(table.headings, kHeadCell, 30);
    for (const auto& row : table.rows)
        grow(row, kCell, kMostNatural);
    for (const auto& row : table.small)
        grow(row, kSmallCell, kMostNatural);
    return widths;
}

// What is wide gives way first, down to what is fair.
void narrow_down(std::vector<double>& widths, double room) {
    double sum = std::accumulate(widths.begin(), widths.end(), 0.0);
    double most = *std::ranges::max_element(widths);
    while (sum > room && most > kLeast) {
        most *= 0.97;
        for (auto& width : widths)
            width = std::min(width, most);
        sum = std::accumulate(widths.begin(), widths.end(), 0.0);
    }
    if (sum > room)
        for (auto& width : widths)
            width *= room / sum;
}

Columns columns_of(const TableOf& table, std::vector<double> widths, double left, double width) {
    const double room = width - kBetween * (static_cast<double>(widths.size()) - 1);
    if (table.shares.size() == widths.size()) {
        const double sum = std::accumulate(table.shares.begin(), table.shares.end(), 0.0);
        for (std::size_t at = 0; at < widths.size(); ++at)
            widths[at] = room * table.shares[at] / sum;
    } else {
        narrow_down(widths, room);
    }
    Columns columns;
    columns.width = widths;
    for (std::size_t at = 0; at < widths.size(); ++at) {
        columns.left.push_back(left);
        left += widths[at] + kBetween;
        columns.figures.push_back(
            table.shares.empty() && !table.rows.empty() &&
            std::ranges::all_of(table.rows, [at](const std::vector<std::string>& row) {
                return at >= row.size() || row[at].empty() || is_figure(row[at]);
            }));
    }
    return columns;
}

// The cells below what stands in their columns already; gives the height of the tallest column.
double set_cells(const std::vector<std::string>& cells, const Columns& columns, Type type,
                 std::vector<double>& tops, Typesetter& types, Strip& strip) {
    tops.resize(columns.left.size());
    for (std::size_t at = 0; at < cells.size() && at < columns.left.size(); ++at) {
        if (cells[at].empty()) continue;
        type.set = columns.figures[at] ? Set::right : Set::left;
        const int lines = types.lines(cells[at], type, columns.width[at]);
        strip.placed.push_back(
            text_at(cells[at], type, {columns.left[at], tops[at], columns.width[at], 0, lines}));
        tops[at] += lines * type.lead;
    }
    return *std::ranges::max_element(tops);
}

// What the small line says anew; the rest blank.
std::vector<std::string> differing(std::vector<std::string> small,
                                   const std::vector<std::string>& above) {
    for (std::size_t at = 0; at < small.size() && at < above.size(); ++at)
        if (small[at] == above[at]) small[at].clear();
    return small;
}

} // namespace

TableStrips table_strips(const TableOf& table, Typesetter& types, bool in_sheet) {
    TableStrips made;
    const std::size_t count = columns_in(table);
    if (count == 0) return made;
    const auto widths = natural_widths(table, types, count);
    const double natural = std::accumulate(widths.begin(), widths.end(), 0.0) +
                           kBetween * (static_cast<double>(count) - 1);
    made.whole_width = !in_sheet || natural > kBodyWidth * 1.25;
    const double left = made.whole_width ? kLeft : kBody;
    const double width = made.whole_width ? kWidth : kBodyWidth;
    const auto columns = columns_of(table, widths, left, width);
    const double right = columns.left.back() + columns.width.back();
    if (!table.headings.empty()) {
        Strip head{.before = kStep, .whole_width = made.whole_width};
        std::vector<double> tops;
        const double tall = set_cells(table.headings, columns, kHeadCell, tops, types, head);
        head.height = on_grid(tall + 0.8);
        head.placed.push_back(
            RuleAt{left, head.height - 0.4, right, head.height - 0.4, 0.25, kPencil});
        made.head = std::move(head);
    }
    for (std::size_t at = 0; at < table.rows.size(); ++at) {
        Strip row{.whole_width = made.whole_width};
        std::vector<double> tops;
        double tall = set_cells(table.rows[at], columns, kCell, tops, types, row);
        if (at < table.small.size())
            tall = set_cells(differing(table.small[at], table.rows[at]), columns, kSmallCell, tops,
                             types, row);
        row.height = std::max(on_grid(tall), 2 * kStep);
        row.placed.push_back(RuleAt{left, row.height, right, row.height, 0.1, kRule});
        made.rows.push_back(std::move(row));
    }
    return made;
}

} // namespace fettle::desk
