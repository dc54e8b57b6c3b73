#include "calc/check_plugin.h"

#include "base/quantity.h"
#include "base/text.h"
#include "calc/typed_inputs.h"

#include <algorithm>
#include <set>

namespace fettle::calc {
namespace {

Failure fault(std::string sentence) {
    return {FailureKind::plugin, std::move(sentence)};
}

bool is_id(std::string_view text) {
    if (text.empty() || text.size() > 60 || text[0] < 'a' || text[0] > 'z') return false;
    return std::ranges::all_of(
        text, [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_'; });
}

// `what`: "input", "output", ... of `where`: "the sheet shim.stack".
template <class Element>
Done check_ids(const std::vector<Element>& elements, const std::string& what,
               const std::string& where) {
    std::set<std::string_view> seen;
    for (const auto& element : elements) {
        if (!is_id(element.id))
            return fault(where + " has an " + what + " with the id " + fettle::quoted(element.id) +
                         "; ids are lower case letters, digits and underscores.");
        if (!seen.insert(element.id).second)
            return fault(where + " has two of one id: " + what + " " + fettle::quoted(element.id) +
                         ".");
        if (element.label.empty())
            return fault(where + " has no label for its " + what + " " +
                         fettle::quoted(element.id) + ".");
    }
    return done();
}

Done check_unit(std::string_view quantity, std::string_view unit, const std::string& where) {
    if (!is_quantity_kind(quantity))
        return fault(where + " names the kind of quantity " + fettle::quoted(quantity) +
                     ", which does not exist.");
    if (auto known = to_unit(1.0, quantity, unit); !known)
        return fault(where + " gives " + fettle::quoted(unit) + ", which is no unit of " +
                     std::string(quantity) + ".");
    return done();
}

Done check_digits(int digits, const std::string& where) {
    if (digits >= 1 && digits <= 15) return done();
    return fault(where + " asks for " + std::to_string(digits) +
                 " significant digits; 1 to 15 are accepted.");
}

Done check_columns(const std::vector<Column>& columns, bool in_answer, const std::string& where) {
    if (columns.empty()) return fault(where + " has no columns.");
    if (auto ids = check_ids(columns, "column", where); !ids) return ids;
    for (const Column& column : columns) {
        const std::string here = where + ", column " + column.id + ",";
        if (in_answer && column.shape == Shape::text) continue;
        if (column.shape != Shape::number)
            return fault(here + " has a shape that a column cannot have.");
        if (auto unit = check_unit(column.quantity, column.unit, here); !unit) return unit;
        if (!column.choices.empty() && column.quantity != "count")
            return fault(here + " has words to choose from and is no count.");
        if (!in_answer) continue;
        if (auto digits = check_digits(column.digits, here); !digits) return digits;
    }
    return done();
}

Done check_bounds(const Input& input, const std::string& where) {
    if (input.least && input.greatest && *input.least > *input.greatest)
        return fault(where + " has a least value above its greatest.");
    return done();
}

Done check_choices(const Input& input, const std::string& where) {
    if (input.choices.empty()) return fault(where + " offers no choices.");
    std::set<std::string_view> seen;
    for (const auto& choice : input.choices)
        if (choice.empty() || !seen.insert(choice).second)
            return fault(where + " offers a choice twice, or an empty one.");
    return done();
}

Done check_shape(const Input& input, const std::string& where) {
    switch (input.shape) {
    case Shape::number:
    case Shape::list:
        if (auto unit = check_unit(input.quantity, input.unit, where); !unit) return unit;
        return check_bounds(input, where);
    case Shape::text:
        return done();
    case Shape::choice:
        return check_choices(input, where);
    case Shape::table:
        return check_columns(input.columns, false, where);
    }
    return fault(where + " has an unknown shape.");
}

Done check_when(const Sheet& sheet, const Input& input, const std::string& where) {
    if (input.when.input.empty()) return done();
    const Input* other = find_by_id(sheet.inputs, input.when.input);
    if (!other || other->shape != Shape::choice || other >= &input)
        return fault(where + " depends on " + fettle::quoted(input.when.input) +
                     ", which is no choice that stands before it.");
    for (const std::string& choice : input.when.choices)
        if (std::ranges::find(other->choices, choice) == other->choices.end())
            return fault(where + " depends on " + fettle::quoted(choice) +
                         ", which cannot be chosen there.");
    return done();
}

// A table goes on from an answer's table with the same columns; everything else from itself.
Done check_continues(const Sheet& sheet, const Input& input, const std::string& where) {
    if (input.continues.empty()) return done();
    if (input.shape != Shape::table) {
        if (input.continues == "same") return done();
        return fault(where + " continues " + fettle::quoted(input.continues) +
                     "; only a table can continue another.");
    }
    const Table* table = find_by_id(sheet.tables, input.continues);
    const bool fits = table && std::ranges::equal(table->columns, input.columns,
                                                  [](const Column& one, const Column& other) {
                                                      return one.id == other.id &&
                                                             one.quantity == other.quantity &&
                                                             one.choices == other.choices;
                                                  });
    if (fits) return done();
    return fault(where + " continues " + fettle::quoted(input.continues) +
                 ", which is no table of the answer with the same columns.");
}

Done check_day(const Input& input, const std::string& where) {
    if (input.day.empty()) return done();
    const bool fits = input.shape == Shape::number &&
                      ((input.day == "air_temperature" && input.quantity == "temperature") ||
                       (input.day == "humidity" && input.quantity == "ratio"));
    if (fits) return done();
    return fault(where + " takes " + fettle::quoted(input.day) +
                 " from the day; accepted are air_temperature for a temperature and humidity for "
                 "a ratio.");
}

Done check_inputs(const Sheet& sheet, const std::string& where) {
    if (auto ids = check_ids(sheet.inputs, "input", where); !ids) return ids;
    for (const Input& input : sheet.inputs) {
        const std::string here = where + ", input " + input.id + ",";
        if (auto shape = check_shape(input, here); !shape) return shape;
        if (auto when = check_when(sheet, input, here); !when) return when;
        if (auto continues = check_continues(sheet, input, here); !continues) return continues;
        if (auto day = check_day(input, here); !day) return day;
        if (input.preset.empty()) continue;
        if (auto preset = read_input(input, input.preset); !preset)
            return fault(here + " has a preset that it would not accept itself: " +
                         preset.failure().sentence);
    }
    return done();
}

Done check_outputs(const Sheet& sheet, const std::string& where) {
    if (sheet.outputs.empty() && sheet.tables.empty())
        return fault(where + " gives neither outputs nor tables.");
    if (auto ids = check_ids(sheet.outputs, "output", where); !ids) return ids;
    for (const Output& output : sheet.outputs) {
        const std::string here = where + ", output " + output.id + ",";
        if (output.shape == Shape::text) continue;
        if (output.shape != Shape::number)
            return fault(here + " has a shape that an output cannot have.");
        if (auto unit = check_unit(output.quantity, output.unit, here); !unit) return unit;
        if (!output.inch.empty())
            if (auto inch = check_unit(output.quantity, output.inch, here); !inch) return inch;
        if (auto digits = check_digits(output.digits, here); !digits) return digits;
    }
    return done();
}

Done check_tables(const Sheet& sheet, const std::string& where) {
    if (auto ids = check_ids(sheet.tables, "table", where); !ids) return ids;
    for (const Table& table : sheet.tables)
        if (auto columns = check_columns(table.columns, true, where + ", table " + table.id + ",");
            !columns)
            return columns;
    return done();
}

Done check_axis(const Axis& axis, const std::string& where) {
    if (auto unit = check_unit(axis.quantity, axis.unit, where); !unit) return unit;
    if (axis.inch.empty()) return done();
    return check_unit(axis.quantity, axis.inch, where);
}

Done check_charts(const Sheet& sheet, const std::string& where) {
    if (auto ids = check_ids(sheet.charts, "chart", where); !ids) return ids;
    for (const Chart& chart : sheet.charts) {
        const std::string here = where + ", chart " + chart.id + ",";
        if (auto x = check_axis(chart.x, here); !x) return x;
        if (auto y = check_axis(chart.y, here); !y) return y;
        if (chart.to_scale && chart.x.quantity != chart.y.quantity)
            return fault(here + " is drawn to scale and measures two kinds of quantity.");
    }
    return done();
}

Done check_sheet(const Plugin& plugin, const Sheet& sheet) {
    const std::string prefix = plugin.id + ".";
    if (!sheet.id.starts_with(prefix) || !is_id(std::string_view(sheet.id).substr(prefix.size())))
        return fault("it has a sheet with the id " + fettle::quoted(sheet.id) + "; sheet ids are " +
                     prefix + " and a name in lower case letters, digits and underscores.");
    const std::string where = "the sheet " + sheet.id;
    if (sheet.title.empty()) return fault(where + " has no title.");
    if (auto inputs = check_inputs(sheet, where); !inputs) return inputs;
    if (auto outputs = check_outputs(sheet, where); !outputs) return outputs;
    if (auto tables = check_tables(sheet, where); !tables) return tables;
    return check_charts(sheet, where);
}

} // namespace

Done check_plugin(const Plugin& plugin, std::string_view file_name) {
    if (!is_id(plugin.id))
        return fault("it calls itself " + fettle::quoted(plugin.id) +
                     "; ids are lower case letters, digits and underscores.");
    if (plugin.id != file_name)
        return fault("it calls itself " + fettle::quoted(plugin.id) + ", but its file is named " +
                     fettle::quoted(file_name) + "; the two must be equal.");
    if (plugin.name.empty() || plugin.version.empty())
        return fault("it gives no name or no version of its own.");
    if (plugin.sheets.empty()) return fault("it offers no worked sheets.");
    std::set<std::string_view> seen;
    for (const Sheet& sheet : plugin.sheets) {
        if (auto checked = check_sheet(plugin, sheet); !checked) return checked;
        if (!seen.insert(sheet.id).second)
            return fault("it has two of one id: sheet " + fettle::quoted(sheet.id) + ".");
    }
    return done();
}

} // namespace fettle::calc
