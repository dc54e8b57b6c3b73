#include "calc/display.h"

#include "base/quantity.h"
#include "base/text.h"
#include "calc/short_quantity.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace fettle::calc {
namespace {

struct KindUnits {
    std::string_view kind;
    std::string_view si;
    std::string_view metric;
    std::string_view inch; // empty: the same in both systems
};

// SI units as plugins/sdk/fettle_plugin.h lists them; the others as a workshop would say them.
constexpr std::array kKindUnits = {
    KindUnits{"number", "1", "", ""},
    KindUnits{"count", "1", "", ""},
    KindUnits{"ratio", "1", "%", ""},
    KindUnits{"length", "m", "mm", "in"},
    KindUnits{"area", "m2", "mm2", "in2"},
    KindUnits{"volume", "m3", "cm3", "in3"},
    KindUnits{"angle", "rad", "°", ""},
    KindUnits{"mass", "kg", "kg", "lb"},
    KindUnits{"force", "N", "N", "lbf"},
    KindUnits{"torque", "N.m", "N.m", "lbf.ft"},
    KindUnits{"pressure", "Pa", "MPa", "psi"},
    KindUnits{"spring_rate", "N/m", "N/mm", "lbf/in"},
    KindUnits{"temperature", "K", "°C", "°F"},
    KindUnits{"temperature_difference", "K", "K", "°F"},
    KindUnits{"time", "s", "s", ""},
    KindUnits{"frequency", "Hz", "Hz", ""},
    KindUnits{"speed", "m/s", "m/s", "ft/min"},
    KindUnits{"density", "kg/m3", "kg/m3", "lb/in3"},
    KindUnits{"expansion", "1/K", "1/K", "1/°F"},
};

KindUnits units_of(std::string_view kind) {
    const auto* found = std::ranges::find(kKindUnits, kind, &KindUnits::kind);
    return found == kKindUnits.end() ? KindUnits{kind, "1", "", ""} : *found;
}

// A sheet may ask for inches; then the metric side takes the usual unit of the kind.
bool is_inch(std::string_view kind, std::string_view unit) {
    static constexpr std::array<std::string_view, 24> kInchUnits = {
        "in",     "thou",   "ft",     "µin",    "in2",  "ft2",  "in3", "ft3",
        "lb",     "oz",     "lbf",    "ozf",    "psi",  "ksi",  "°F",  "lbf.ft",
        "lbf.in", "ozf.in", "lbf/in", "lbf/ft", "ft/s", "in/s", "mph", "lb/ft3"};
    return unit == inch_unit(kind) || std::ranges::find(kInchUnits, unit) != kInchUnits.end();
}

struct UnitPair {
    std::string_view metric;
    std::string_view inch;
};

// Units of another size than the usual one of their kind: a film in µm is thou, not inches.
constexpr std::array kPartners = {UnitPair{"µm", "thou"}, UnitPair{"m", "ft"},
                                  UnitPair{"m2", "ft2"}, UnitPair{"L", "US gal"},
                                  UnitPair{"mL", "US fl oz"}};

UnitPair unit_pair(std::string_view kind, std::string_view unit) {
    if (!inch_unit(kind).empty() && is_inch(kind, unit)) return {metric_unit(kind), unit};
    const auto* partner = std::ranges::find(kPartners, unit, &UnitPair::metric);
    return partner == kPartners.end() ? UnitPair{unit, inch_unit(kind)} : *partner;
}

BothUnits both(double si, std::string_view kind, std::string_view unit) {
    const UnitPair pair = unit_pair(kind, unit);
    return {short_quantity(si, kind, pair.metric),
            pair.inch.empty() ? "" : short_quantity(si, kind, pair.inch)};
}

// No digit finer than the first that the inputs leave open: 15.83 within 0.3 is 15.8.
int justified_digits(const AnsweredOutput& answered, std::string_view unit) {
    const Output& output = answered.output;
    if (!(answered.spread > 0)) return output.digits;
    const auto value = to_unit(*answered.si, output.quantity, unit);
    const auto moved = to_unit(*answered.si + answered.spread, output.quantity, unit);
    if (!value || !moved || *value == 0) return output.digits;
    const double open = std::floor(std::log10(std::abs(*moved - *value)));
    const double size = std::floor(std::log10(std::abs(*value)));
    return static_cast<int>(std::clamp(size - open + 1, 1.0, double(output.digits)));
}

DisplayRow display_row(const AnsweredOutput& answered) {
    const Output& output = answered.output;
    DisplayRow row{output.id, output.label, answered.text, {}, output.source};
    row.blank = !answered.si && answered.text.empty();
    row.in_words = !answered.si && !row.blank;
    if (answered.si) {
        row.metric = format_quantity(*answered.si, output.quantity, output.unit,
                                     justified_digits(answered, output.unit));
        if (!output.inch.empty())
            row.inch = format_quantity(*answered.si, output.quantity, output.inch,
                                       justified_digits(answered, output.inch));
    }
    if (row.blank) row.metric = "none";
    return row;
}

std::string heading(const Column& column, std::string_view unit) {
    const std::string label = unit.empty() ? "" : unit_label(column.quantity, unit);
    return label.empty() ? column.label : column.label + ", " + label;
}

std::string cell_text(const Cell& cell, const Column& column, std::string_view unit) {
    if (column.shape == Shape::text || !cell.si) return cell.text;
    if (!column.choices.empty()) return cell_word(cell, column);
    if (column.quantity == "count") // things are counted out, whatever the digits asked for
        return format_quantity(*cell.si, column.quantity, unit, column.digits);
    if (auto value = to_unit(*cell.si, column.quantity, unit))
        return format_number(*value, column.digits);
    return format_number(*cell.si, column.digits);
}

DisplayTable display_table(const AnsweredTable& answered) {
    DisplayTable shown_table{answered.table.id, answered.table.label, {}, {}, {}, {}};
    std::vector<UnitPair> pairs;
    bool differ = false;
    for (const Column& column : answered.table.columns) {
        UnitPair pair = unit_pair(column.quantity, column.unit);
        if (pair.inch.empty()) pair.inch = pair.metric;
        differ = differ || pair.inch != pair.metric;
        shown_table.headings.push_back(heading(column, pair.metric));
        shown_table.inch_headings.push_back(heading(column, pair.inch));
        pairs.push_back(pair);
    }
    for (const auto& cells : answered.rows) {
        auto& row = shown_table.rows.emplace_back();
        auto& inch_row = shown_table.inch_rows.emplace_back();
        for (std::size_t at = 0; at < cells.size(); ++at) {
            const Column& column = answered.table.columns[at];
            row.push_back(cell_text(cells[at], column, pairs[at].metric));
            inch_row.push_back(cell_text(cells[at], column, pairs[at].inch));
        }
    }
    if (!differ) {
        shown_table.inch_headings.clear();
        shown_table.inch_rows.clear();
    }
    return shown_table;
}

BothUnits both_of_list(const Input& input, const SiValue& value) {
    std::vector<std::string> metric, inch;
    for (double si : value.numbers) {
        BothUnits texts = both(si, input.quantity, input.unit);
        metric.push_back(std::move(texts.metric));
        if (!texts.inch.empty()) inch.push_back(std::move(texts.inch));
    }
    return {join(metric, "; "), join(inch, "; ")};
}

BothUnits both_of_table(const Input& input, const SiValue& value) {
    std::vector<std::string> metric_rows, inch_rows;
    for (std::size_t from = 0; from < value.numbers.size(); from += value.columns) {
        std::vector<std::string> metric, inch;
        for (std::size_t at = 0; at < value.columns; ++at) {
            const double si = value.numbers[from + at];
            const Column& column = input.columns[at];
            if (std::isnan(si)) continue;
            BothUnits texts = column.choices.empty() ? both(si, column.quantity, column.unit)
                                                     : BothUnits{cell_word({si, {}}, column), {}};
            inch.push_back(texts.inch.empty() ? texts.metric : texts.inch);
            metric.push_back(std::move(texts.metric));
        }
        metric_rows.push_back(join(metric, " | "));
        inch_rows.push_back(join(inch, " | "));
    }
    return {join(metric_rows, "; "), metric_rows == inch_rows ? "" : join(inch_rows, "; ")};
}

} // namespace

std::string_view inch_unit(std::string_view kind) {
    return units_of(kind).inch;
}
std::string_view metric_unit(std::string_view kind) {
    return units_of(kind).metric;
}
std::string_view si_unit(std::string_view kind) {
    return units_of(kind).si;
}

BothUnits both_units(const Input& input, const SiValue& value) {
    if (!value.given) return {};
    switch (input.shape) {
    case Shape::number:
        return both(value.number, input.quantity, input.unit);
    case Shape::list:
        return both_of_list(input, value);
    case Shape::table:
        return both_of_table(input, value);
    case Shape::text:
    case Shape::choice:
        break;
    }
    return {value.text, {}};
}

std::vector<DisplayRow> display_rows(const Answer& answer) {
    std::vector<DisplayRow> rows;
    for (const auto& answered : answer.outputs)
        rows.push_back(display_row(answered));
    return rows;
}

std::vector<DisplayInput> display_inputs(const Answer& answer) {
    std::vector<DisplayInput> shown_inputs;
    for (const auto& [input, typed, value] : answer.inputs) {
        if (!value.given) continue;
        BothUnits texts = both_units(input, value);
        shown_inputs.push_back(
            {input.id, input.label, typed, std::move(texts.metric), std::move(texts.inch)});
    }
    return shown_inputs;
}

std::vector<HandOver> hand_overs(const Answer& answer) {
    std::vector<HandOver> all;
    for (const auto& [output, si, text, spread] : answer.outputs) {
        const auto dot = output.hands_to.rfind('.');
        if (dot == std::string::npos || (!si && text.empty())) continue;
        HandOver one{output.hands_to.substr(0, dot), output.hands_to.substr(dot + 1), text};
        if (si) one.typed = short_quantity(*si, output.quantity, output.unit);
        const auto before = std::ranges::find_if(all, [&](const HandOver& other) {
            return other.sheet == one.sheet && other.input == one.input;
        });
        if (before == all.end())
            all.push_back(std::move(one));
        else
            before->typed += "; " + one.typed;
    }
    return all;
}

std::vector<DisplayTable> display_tables(const Answer& answer) {
    std::vector<DisplayTable> tables;
    for (const auto& answered : answer.tables)
        tables.push_back(display_table(answered));
    return tables;
}

} // namespace fettle::calc
