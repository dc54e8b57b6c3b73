#include "notebook/parts_list.h"

#include "base/text.h"
#include "notebook/rules.h"

#include <algorithm>
#include <charconv>
#include <map>

namespace fettle {
namespace {

// Headings as parts lists have them, the glossary's word first; compared in small letters without
// anything but letters.
const std::array<std::vector<std::string_view>, kListColumns.size()> kHeadings{{
    {"group", "partsgroup", "section", "assembly", "chapter"},
    {"number", "no", "partno", "partnumber", "item", "itemno", "ref", "position"},
    {"name", "description", "part", "title", "designation"},
    {"quantity", "qty", "noff", "off", "count", "pieces"},
    {"spec", "specification", "size", "remarks", "note", "notes"},
}};

std::string letters_of(std::string_view heading) {
    std::string letters = lower_ascii(heading);
    std::erase_if(letters, [](char letter) { return letter < 'a' || letter > 'z'; });
    return letters;
}

std::string field_of(const CsvRow& row, const std::optional<std::size_t>& column) {
    if (!column || *column >= row.fields.size()) return {};
    std::string text(trim(row.fields[*column]));
    std::ranges::replace_if(
        text, [](char sign) { return sign == '\n' || sign == '\r' || sign == '\t'; }, ' ');
    return text;
}

std::string name_of_column(const CsvTable& table, const ListColumns& columns, ListColumn which) {
    const auto& from = columns[which];
    if (!from) return kListColumns[static_cast<std::size_t>(which)];
    if (columns.has_heading && !table.rows.empty())
        if (auto heading = field_of(table.rows.front(), from); !heading.empty()) return heading;
    return "column " + std::to_string(*from + 1);
}

// A whole number of pieces; spreadsheets write 2 as 2.0 or 2,00 where the column is a number.
std::optional<int> pieces(std::string_view text) {
    int count = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), count);
    if (error != std::errc() || count < 1) return {};
    std::string_view rest(end, static_cast<std::size_t>(text.data() + text.size() - end));
    if (!rest.empty() && rest.front() != '.' && rest.front() != ',') return {};
    if (!rest.empty()) rest.remove_prefix(1);
    if (!std::ranges::all_of(rest, [](char digit) { return digit == '0'; })) return {};
    return count;
}

bool is_same(const Position& one, const Position& other) {
    return one.group == other.group && one.name == other.name && one.quantity == other.quantity &&
           one.spec == other.spec;
}

// Reads the rows one by one against what the vehicle has and what came before in the table.
class Reading {
  public:
    Reading(const CsvTable& table, const ListColumns& columns, std::vector<PositionFill> held)
        : table_(table), columns_(columns) {
        for (auto& fill : held)
            held_.emplace(fill.position.number, std::move(fill.position));
    }

    ListPreview read(VehicleId vehicle) {
        const std::size_t first = columns_.has_heading ? 1 : 0;
        for (std::size_t at = first; at < table_.rows.size(); ++at)
            read_row(table_.rows[at], vehicle);
        return std::move(preview_);
    }

  private:
    void trouble(const CsvRow& row, ListColumn column, const std::string& what) {
        const auto name = name_of_column(table_, columns_, column);
        preview_.troubles.push_back(
            {row.number, name, "Row " + std::to_string(row.number) + ", " + name + ": " + what});
    }

    void read_row(const CsvRow& row, VehicleId vehicle) {
        const auto before = preview_.troubles.size();
        Position position{.vehicle = vehicle,
                          .group = field_of(row, columns_[ListColumn::group]),
                          .number = needed(row, ListColumn::number),
                          .name = needed(row, ListColumn::name),
                          .quantity = quantity_of(row),
                          .spec = field_of(row, columns_[ListColumn::spec])};
        if (preview_.troubles.size() > before) return;
        if (const auto [first, fresh] = seen_.emplace(position.number, row.number); !fresh)
            return trouble(row, ListColumn::number,
                           fettle::quoted(position.number) + " stands in row " +
                               std::to_string(first->second) + " already.");
        add(row.number, std::move(position));
    }

    std::string needed(const CsvRow& row, ListColumn column) {
        auto text = field_of(row, columns_[column]);
        if (text.empty())
            trouble(row, column, "it is blank; each position needs a number and a name.");
        return text;
    }

    int quantity_of(const CsvRow& row) {
        const auto text = field_of(row, columns_[ListColumn::quantity]);
        if (text.empty()) return 1;
        if (const auto count = pieces(text)) return *count;
        trouble(row, ListColumn::quantity,
                fettle::quoted(text) + " is no quantity; whole numbers from 1 are accepted.");
        return 1;
    }

    void add(int row, Position position) {
        const auto there = held_.find(position.number);
        if (there == held_.end()) {
            ++preview_.adds;
            preview_.rows.push_back({row, std::move(position), RowDoes::adds});
            return;
        }
        position.id = there->second.id;
        const bool same = is_same(position, there->second);
        if (!same) ++preview_.changes;
        preview_.rows.push_back(
            {row, std::move(position), same ? RowDoes::nothing : RowDoes::changes});
    }

    const CsvTable& table_;
    const ListColumns& columns_;
    std::map<std::string, Position> held_;
    std::map<std::string, int> seen_; // numbers of the table, and their rows
    ListPreview preview_;
};

} // namespace

ListColumns match_columns(const CsvTable& table) {
    ListColumns columns;
    if (table.rows.empty()) return columns;
    const auto& heading = table.rows.front().fields;
    for (std::size_t which = 0; which < kHeadings.size(); ++which)
        for (const auto word : kHeadings[which])
            for (std::size_t at = 0; at < heading.size() && !columns.from[which]; ++at)
                if (letters_of(heading[at]) == word &&
                    std::ranges::find(columns.from, at) == columns.from.end())
                    columns.from[which] = at;
    columns.has_heading =
        std::ranges::any_of(columns.from, [](const auto& from) { return from.has_value(); });
    if (!columns.has_heading)
        for (std::size_t at = 0; at < std::min(heading.size(), columns.from.size()); ++at)
            columns.from[at] = at;
    return columns;
}

Result<ListPreview> preview_list(const Notebook& notebook, VehicleId vehicle, const CsvTable& table,
                                 const ListColumns& columns) {
    auto held = list_positions(notebook, vehicle);
    if (!held) return held.failure();
    return Reading(table, columns, std::move(*held)).read(vehicle);
}

Done take_in_list(Notebook& notebook, VehicleId vehicle, const ListPreview& preview) {
    if (!preview.troubles.empty()) {
        const auto more = preview.troubles.size() - 1;
        return Failure{FailureKind::invalid,
                       preview.troubles.front().sentence +
                           (more == 0 ? ""
                                      : " " + std::to_string(more) + " more field" +
                                            (more == 1 ? " is" : "s are") + " wrong.") +
                           " Nothing was taken in."};
    }
    if (preview.rows.empty())
        return Failure{FailureKind::invalid, "The parts list holds no positions."};
    const auto count = preview.adds + preview.changes;
    return notebook.act("took in a parts list, " + std::to_string(count) + " positions",
                        [&](store::Database& database) -> Done {
                            for (const auto& [row, position, does] : preview.rows) {
                                if (does == RowDoes::adds) {
                                    auto fresh = position;
                                    fresh.vehicle = vehicle;
                                    if (auto added = add_position(notebook, fresh); !added)
                                        return added.failure();
                                } else if (does == RowDoes::changes) {
                                    database.run("UPDATE positions SET parts_group = ?, name = ?, "
                                                 "quantity = ?, spec = ? WHERE id = ?",
                                                 position.group, position.name, position.quantity,
                                                 position.spec, position.id);
                                }
                            }
                            return done();
                        });
}

} // namespace fettle
