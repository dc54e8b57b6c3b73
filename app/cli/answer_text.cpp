#include "cli/answer_text.h"

#include "base/text.h"
#include "calc/display.h"
#include "cli/print.h"

#include <algorithm>
#include <cctype>

namespace fettle::cli {
namespace {

std::string headed(const std::string& heading, const std::string& lines) {
    return lines.empty() ? std::string() : heading + '\n' + lines;
}

std::string input_lines(const calc::Answer& answer) {
    Columns columns;
    for (const auto& input : calc::display_inputs(answer))
        columns.row({input.label, input.typed, input.metric == input.typed ? "" : input.metric,
                     input.inch == input.typed ? "" : input.inch});
    return columns.text(2);
}

std::string output_lines(const calc::Answer& answer) {
    Columns columns;
    std::string in_words; // sentences would push the inches off the screen
    for (const auto& row : calc::display_rows(answer)) {
        if (row.in_words)
            in_words += indented(row.label + ": " + row.metric, 2);
        else if (!row.blank)
            columns.row({row.label, row.metric, row.inch});
    }
    return in_words + columns.text(2);
}

std::string table_lines(const calc::Answer& answer) {
    std::string lines;
    for (const auto& table : calc::display_tables(answer)) {
        Columns metric(table.headings);
        for (const auto& row : table.rows)
            metric.row(row);
        lines += headed(one_line(table.label), metric.text(2));
        if (table.inch_rows.empty()) continue;
        Columns inch(table.inch_headings);
        for (const auto& row : table.inch_rows)
            inch.row(row);
        lines += inch.text(2);
    }
    return lines;
}

// The level in capitals where it matters, so that it is seen in plain text.
std::string note_lines(const calc::Answer& answer) {
    std::string lines;
    for (const auto& note : answer.notes) {
        std::string level = calc::note_level_name(note.level);
        std::ranges::transform(level, level.begin(),
                               [](unsigned char c) { return std::toupper(c); });
        if (note.level == calc::NoteLevel::info) level = "Note";
        lines += one_line(level + ": " + note.text) + '\n';
    }
    return lines;
}

std::string plain_lines(const std::vector<std::string>& texts) {
    std::string lines;
    for (const auto& text : texts)
        lines += indented(text, 2);
    return lines;
}

} // namespace

std::string answer_text(const calc::Answer& answer) {
    return one_line(answer.sheet_id + "  " + answer.sheet_title + ", " + answer.plugin_name + ' ' +
                    answer.plugin_version) +
           '\n' + headed("from", input_lines(answer)) + headed("result", output_lines(answer)) +
           table_lines(answer) + note_lines(answer) +
           headed("working", plain_lines(answer.working)) +
           headed("sources", plain_lines(answer.sources));
}

std::string sheet_text(const calc::Plugin& plugin, const calc::Sheet& sheet) {
    Columns inputs;
    for (const auto& input : sheet.inputs) {
        std::string preset = input.required ? "needed" : "may be left out";
        if (!input.preset.empty()) preset = "without it " + input.preset;
        inputs.row({input.id, input.label, calc::accepted(input), preset});
    }
    Columns outputs;
    for (const auto& output : sheet.outputs)
        outputs.row({output.id, output.label, output.unit});
    return one_line(sheet.id + "  " + sheet.title + ", " + plugin.name + ' ' + plugin.version) +
           '\n' + indented(sheet.answers, 2) + headed("inputs", inputs.text(2)) +
           headed("result", outputs.text(2)) +
           (sheet.caution.empty() ? "" : one_line("CAUTION: " + sheet.caution) + '\n');
}

} // namespace fettle::cli
