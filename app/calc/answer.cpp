#include "calc/answer.h"

#include "base/quantity.h"
#include "calc/chart_json.h"
#include "calc/display.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

namespace fettle::calc {
namespace {

using nlohmann::json;

bool agree(const std::optional<double>& one, const std::optional<double>& other) {
    constexpr double kRelative = 1e-9;
    if (!one || !other) return one.has_value() == other.has_value();
    return std::abs(*one - *other) <= kRelative * std::max(std::abs(*one), std::abs(*other));
}

bool agree_cell(const Cell& one, const Cell& other) {
    return one.text == other.text && agree(one.si, other.si);
}

bool agree_output(const AnsweredOutput& one, const AnsweredOutput& other) {
    return one.output.id == other.output.id && one.text == other.text && agree(one.si, other.si);
}

bool agree_table(const AnsweredTable& one, const AnsweredTable& other) {
    return one.table.id == other.table.id &&
           std::ranges::equal(one.rows, other.rows, [](const auto& left, const auto& right) {
               return std::ranges::equal(left, right, agree_cell);
           });
}

struct Shown {
    double value = 0;
    std::string unit;
};

// In the inch unit where there is one, else in SI.
Shown shown_in(double si, std::string_view kind, std::string_view inch, Units units) {
    if (units == Units::inch && !inch.empty())
        if (auto value = to_unit(si, kind, inch)) return {*value, std::string(inch)};
    return {si, std::string(si_unit(kind))};
}

json number_json(double si, std::string_view kind, std::string_view inch, Units units) {
    const Shown shown = shown_in(si, kind, inch, units);
    return {{"value", shown.value}, {"unit", shown.unit}};
}

json numbers_json(const AnsweredInput& answered, Units units) {
    const bool table = answered.input.shape == Shape::table;
    const std::size_t width = std::max<std::size_t>(answered.value.columns, 1);
    json values = json::array();
    for (std::size_t at = 0; at < answered.value.numbers.size(); ++at) {
        const std::string& kind =
            table ? answered.input.columns[at % width].quantity : answered.input.quantity;
        const double si = answered.value.numbers[at];
        if (table && at % width == 0) values.push_back(json::array());
        json& place = table ? values.back() : values;
        place.push_back(std::isnan(si) ? json()
                                       : json(shown_in(si, kind, inch_unit(kind), units).value));
    }
    return values;
}

json units_json(const Input& input, Units units) {
    if (input.shape != Shape::table)
        return shown_in(0, input.quantity, inch_unit(input.quantity), units).unit;
    json all = json::array();
    for (const Column& column : input.columns)
        all.push_back(shown_in(0, column.quantity, inch_unit(column.quantity), units).unit);
    return all;
}

json input_json(const AnsweredInput& answered, Units units) {
    const Input& input = answered.input;
    switch (input.shape) {
    case Shape::number:
        return number_json(answered.value.number, input.quantity, inch_unit(input.quantity), units);
    case Shape::list:
    case Shape::table:
        return {{"value", numbers_json(answered, units)}, {"unit", units_json(input, units)}};
    case Shape::text:
    case Shape::choice:
        break;
    }
    return {{"value", answered.value.text}, {"unit", ""}};
}

json output_json(const AnsweredOutput& answered, const DisplayRow& row, Units units) {
    json shown = {{"value", json()}, {"unit", ""}};
    if (answered.si)
        shown = number_json(*answered.si, answered.output.quantity, answered.output.inch, units);
    shown["text"] = units == Units::inch && !row.inch.empty() ? row.inch : row.metric;
    return shown;
}

json cell_json(const Cell& cell, const Column& column, Units units) {
    if (column.shape == Shape::text) return cell.text;
    if (!cell.si) return json();
    if (!column.choices.empty()) return cell_word(cell, column);
    return shown_in(*cell.si, column.quantity, inch_unit(column.quantity), units).value;
}

json table_json(const AnsweredTable& answered, Units units) {
    json columns = json::array();
    for (const Column& column : answered.table.columns) {
        const bool text = column.shape == Shape::text;
        const std::string unit =
            text ? "" : shown_in(0, column.quantity, inch_unit(column.quantity), units).unit;
        columns.push_back({{"id", column.id}, {"unit", unit}});
    }
    json rows = json::array();
    for (const auto& cells : answered.rows) {
        json& row = rows.emplace_back(json::array());
        for (std::size_t at = 0; at < cells.size(); ++at)
            row.push_back(cell_json(cells[at], answered.table.columns[at], units));
    }
    return {{"columns", columns}, {"rows", rows}};
}

} // namespace

std::string note_level_name(NoteLevel level) {
    switch (level) {
    case NoteLevel::info:
        return "info";
    case NoteLevel::caution:
        return "caution";
    case NoteLevel::reached:
        return "reached";
    case NoteLevel::stop:
        break;
    }
    return "stop";
}

TypedInputs typed_inputs(const Answer& answer) {
    TypedInputs typed;
    for (const auto& answered : answer.inputs)
        typed.emplace(answered.input.id, answered.typed);
    return typed;
}

std::string cell_word(const Cell& cell, const Column& column) {
    if (!cell.si || *cell.si < 0) return {};
    const auto at = static_cast<std::size_t>(*cell.si);
    return at < column.choices.size() ? column.choices[at] : std::string();
}

bool has_note(const Answer& answer, NoteLevel level) {
    return std::ranges::find(answer.notes, level, &Note::level) != answer.notes.end();
}

std::optional<double> output_si(const Answer& answer, std::string_view output_id) {
    for (const auto& answered : answer.outputs)
        if (answered.output.id == output_id) return answered.si;
    return std::nullopt;
}

bool agree(const Answer& one, const Answer& other) {
    return one.sheet_id == other.sheet_id && one.failed == other.failed &&
           std::ranges::equal(one.outputs, other.outputs, agree_output) &&
           std::ranges::equal(one.tables, other.tables, agree_table);
}

nlohmann::json command_line_json(const Answer& answer, Units units) {
    json inputs = json::object();
    for (const auto& answered : answer.inputs)
        if (answered.value.given) inputs[answered.input.id] = input_json(answered, units);
    json outputs = json::object();
    const auto rows = display_rows(answer);
    for (std::size_t at = 0; at < rows.size(); ++at)
        outputs[rows[at].id] = output_json(answer.outputs[at], rows[at], units);
    json tables = json::object();
    for (const auto& answered : answer.tables)
        tables[answered.table.id] = table_json(answered, units);
    json charts = json::object();
    for (const AnsweredChart& chart : answer.charts)
        charts[chart.chart.id] = drawn_json(chart);
    json notes = json::array();
    for (const Note& note : answer.notes)
        notes.push_back({{"level", note_level_name(note.level)}, {"text", note.text}});
    return {{"sheet", answer.sheet_id},  {"plugin_version", answer.plugin_version},
            {"inputs", inputs},          {"outputs", outputs},
            {"tables", tables},          {"charts", charts},
            {"working", answer.working}, {"notes", notes},
            {"sources", answer.sources}, {"failed", answer.failed}};
}

} // namespace fettle::calc
