#include "calc/worker/read_plugin.h"

#include "base/text.h"
#include "calc/check_plugin.h"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <stdexcept>

namespace fettle::calc {
namespace {

constexpr std::size_t kMostTextBytes = 10'000;

// Thrown and caught within this file: a description is a deep tree, and every leaf can be wrong.
struct Fault : std::runtime_error {
    using std::runtime_error::runtime_error;
};

std::string read_text(const char* text, const std::string& what) {
    if (!text) throw Fault("it has a null pointer for " + what + ".");
    const std::size_t length = strnlen(text, kMostTextBytes + 1);
    if (length > kMostTextBytes)
        throw Fault("it has a text of more than " + std::to_string(kMostTextBytes) + " bytes for " +
                    what + ".");
    std::string copy(text, length);
    if (safe_utf8(copy) != copy)
        throw Fault("it has a text that is not valid UTF-8 for " + what + ".");
    return copy;
}

// How long each struct was in the first edition of the contract.
template <class Struct>
constexpr std::size_t kFirstEdition = sizeof(Struct);
template <>
constexpr std::size_t kFirstEdition<fettle_column> = offsetof(fettle_column, choice_count);
template <>
constexpr std::size_t kFirstEdition<fettle_input> = offsetof(fettle_input, when);
template <>
constexpr std::size_t kFirstEdition<fettle_output> = offsetof(fettle_output, hands_to);
template <>
constexpr std::size_t kFirstEdition<fettle_sheet> = offsetof(fettle_sheet, smooth);

// A copy in which members that the library's edition did not have are nothing.
template <class Struct>
Struct checked_struct(const Struct* declared, const std::string& what) {
    if (!declared) throw Fault("it has a null pointer for " + what + ".");
    if (declared->struct_size < kFirstEdition<Struct>)
        throw Fault("it gives " + what + " in " + std::to_string(declared->struct_size) +
                    " bytes; " + std::to_string(kFirstEdition<Struct>) + " are needed.");
    Struct copy{};
    std::memcpy(&copy, declared, std::min<std::size_t>(declared->struct_size, sizeof(Struct)));
    return copy;
}

// Texts that came with the second edition may be left out.
std::string read_optional_text(const char* text, const std::string& what) {
    return text ? read_text(text, what) : std::string();
}

// Reads each element of a counted array of pointers.
template <class Pointer, class Read>
auto read_each(const Pointer* elements, std::uint32_t count, std::size_t most,
               const std::string& what, Read read) {
    if (count > most)
        throw Fault("it declares " + std::to_string(count) + " " + what + "; at most " +
                    std::to_string(most) + " are accepted.");
    if (count > 0 && !elements) throw Fault("it has a null pointer for the " + what + ".");
    std::vector<decltype(read(elements[0], std::string()))> all;
    for (std::uint32_t at = 0; at < count; ++at)
        all.push_back(read(elements[at], what + " number " + std::to_string(at + 1)));
    return all;
}

std::optional<double> read_bound(double bound, const std::string& what) {
    if (std::isinf(bound)) throw Fault("it has an infinite bound for " + what + ".");
    return std::isnan(bound) ? std::nullopt : std::optional(bound);
}

// A count of digits beyond any sense stays beyond it in an int.
int read_digits(std::uint32_t digits) {
    return static_cast<int>(std::min(digits, 1000u));
}

Column read_column(const fettle_column* declared, const std::string& what) {
    const auto column = checked_struct(declared, what);
    return {.id = read_text(column.id, "the id of " + what),
            .label = read_text(column.label, "the label of " + what),
            .shape = static_cast<Shape>(column.shape),
            .quantity = read_text(column.quantity, "the quantity of " + what),
            .unit = read_text(column.unit, "the unit of " + what),
            .required = column.required != 0,
            .digits = read_digits(column.digits),
            .choices = read_each(column.choices, column.choice_count, kMostInputs,
                                 "choices of " + what, read_text)};
}

// "basis=yield|proof"
When read_when(const char* text, const std::string& what) {
    const std::string written = read_optional_text(text, "the condition of " + what);
    if (written.empty()) return {};
    const auto equals = written.find('=');
    if (equals == std::string::npos) throw Fault("it has a condition without = for " + what + ".");
    When when{written.substr(0, equals), {}};
    for (const std::string_view choice : split(std::string_view(written).substr(equals + 1), '|'))
        when.choices.emplace_back(choice);
    return when;
}

// Members that the input's shape does not use may hold anything and are left alone.
Input read_input_declaration(const fettle_input* declared, const std::string& what) {
    const auto input = checked_struct(declared, what);
    const auto shape = static_cast<Shape>(input.shape);
    const bool measured = shape == Shape::number || shape == Shape::list;
    Input read;
    read.id = read_text(input.id, "the id of " + what);
    read.label = read_text(input.label, "the label of " + what);
    read.help = read_text(input.help, "the help of " + what);
    read.shape = shape;
    read.preset = read_text(input.preset, "the preset of " + what);
    read.required = input.required != 0;
    read.when = read_when(input.when, what);
    read.continues = read_optional_text(input.continues, "what continues " + what);
    read.day = read_optional_text(input.day, "the weather of " + what);
    if (measured) {
        read.quantity = read_text(input.quantity, "the quantity of " + what);
        read.unit = read_text(input.unit, "the unit of " + what);
        read.least = read_bound(input.least, what);
        read.greatest = read_bound(input.greatest, what);
    }
    if (shape == Shape::choice)
        read.choices = read_each(input.choices, input.choice_count, kMostInputs,
                                 "choices of " + what, read_text);
    if (shape == Shape::table)
        read.columns = read_each(input.columns, input.column_count, kMostInputs,
                                 "columns of " + what, read_column);
    return read;
}

Output read_output(const fettle_output* declared, const std::string& what) {
    const auto output = checked_struct(declared, what);
    return {.id = read_text(output.id, "the id of " + what),
            .label = read_text(output.label, "the label of " + what),
            .shape = static_cast<Shape>(output.shape),
            .quantity = read_text(output.quantity, "the quantity of " + what),
            .unit = read_text(output.unit, "the unit of " + what),
            .inch = read_text(output.inch, "the inch unit of " + what),
            .digits = read_digits(output.digits),
            .source = read_text(output.source, "the source of " + what),
            .hands_to = read_optional_text(output.hands_to, "what takes on " + what)};
}

Table read_table(const fettle_table* declared, const std::string& what) {
    const auto table = checked_struct(declared, what);
    return {.id = read_text(table.id, "the id of " + what),
            .label = read_text(table.label, "the label of " + what),
            .columns = read_each(table.columns, table.column_count, kMostInputs,
                                 "columns of " + what, read_column)};
}

Axis read_axis(const fettle_axis* declared, const std::string& what) {
    const auto axis = checked_struct(declared, what);
    return {.label = read_text(axis.label, "the label of " + what),
            .quantity = read_text(axis.quantity, "the quantity of " + what),
            .unit = read_text(axis.unit, "the unit of " + what),
            .inch = read_text(axis.inch, "the inch unit of " + what)};
}

Chart read_chart(const fettle_chart* declared, const std::string& what) {
    const auto chart = checked_struct(declared, what);
    return {.id = read_text(chart.id, "the id of " + what),
            .label = read_text(chart.label, "the label of " + what),
            .to_scale = chart.to_scale != 0,
            .x = read_axis(chart.x, "the x axis of " + what),
            .y = read_axis(chart.y, "the y axis of " + what)};
}

Sheet read_sheet(const fettle_sheet* declared, const std::string& what) {
    const auto sheet = checked_struct(declared, what);
    if (!sheet.compute)
        throw Fault("it has a null pointer for the compute function of " + what + ".");
    Sheet read;
    read.id = read_text(sheet.id, "the id of " + what);
    read.title = read_text(sheet.title, "the title of " + what);
    read.answers = read_text(sheet.answers, "the question answered by " + what);
    read.caution = read_text(sheet.caution, "the caution of " + what);
    read.revision = sheet.revision;
    read.inputs = read_each(sheet.inputs, sheet.input_count, kMostInputs, "inputs of " + read.id,
                            read_input_declaration);
    read.outputs = read_each(sheet.outputs, sheet.output_count, kMostInputs,
                             "outputs of " + read.id, read_output);
    read.tables =
        read_each(sheet.tables, sheet.table_count, kMostInputs, "tables of " + read.id, read_table);
    read.sources = read_each(sheet.sources, sheet.source_count, kMostInputs,
                             "sources of " + read.id, read_text);
    read.charts =
        read_each(sheet.charts, sheet.chart_count, kMostInputs, "charts of " + read.id, read_chart);
    read.smooth = sheet.smooth != 0;
    return read;
}

} // namespace

Result<Plugin> read_plugin(const fettle_plugin& declared) {
    try {
        const auto plugin = checked_struct(&declared, "its description");
        return Plugin{.id = read_text(plugin.id, "its id"),
                      .name = read_text(plugin.name, "its name"),
                      .version = read_text(plugin.version, "its version"),
                      .library = {},
                      .sheets = read_each(plugin.sheets, plugin.sheet_count, kMostSheets, "sheets",
                                          read_sheet)};
    } catch (const Fault& fault) {
        return Failure{FailureKind::plugin, fault.what()};
    }
}

} // namespace fettle::calc
