#include "base/text.h"
#include "base/whole_file.h"
#include "calc/plot_svg.h"
#include "calc/run_sheet.h"
#include "cli/answer_text.h"
#include "cli/typed.h"
#include "cli/verb.h"
#include "cli/verbs.h"
#include "desk/places.h"
#include "desk/worked.h"

#include <filesystem>
#include <ostream>

namespace fettle::cli {
namespace {

struct CalcWish {
    std::string sheet, entry, again, charts;
    std::vector<std::string> values;
    std::string units = "si";
    bool list = false;

    calc::Units in_units() const { return units == "inch" ? calc::Units::inch : calc::Units::si; }
    void check() const {
        if (!again.empty() && (list || !sheet.empty() || !entry.empty()))
            throw CLI::ValidationError("--again goes without SHEET, --entry and --list");
        if (again.empty() && !list && sheet.empty())
            throw CLI::ValidationError("SHEET, --list or --again is required");
        if (!charts.empty() && (list || !again.empty()))
            throw CLI::ValidationError("--charts goes with SHEET and its inputs");
        if (list && !(values.empty() && entry.empty()))
            throw CLI::ValidationError("--list goes with SHEET alone");
    }
};

void declare_calc(CLI::App& verb, CalcWish& wish) {
    verb.add_option("SHEET", wish.sheet, "The worked sheet, such as shim.stack");
    verb.add_option("name=value", wish.values,
                    "Inputs by name; units as typed in a workshop: 5/16 in, 12 thou, 25 N.m");
    verb.add_flag("--list", wish.list, "List the worked sheets, or the inputs of SHEET");
    verb.add_option("--entry", wish.entry, "Keep the worked result on this entry")
        ->option_text("ID");
    verb.add_option("--again", wish.again,
                    "Calculate a worked result again, by the number `log --list` shows, and show "
                    "both answers when they differ")
        ->option_text("ID");
    verb.add_option("--charts", wish.charts,
                    "Draw the charts of the answer into this folder, as SVG files")
        ->option_text("DIR");
    verb.add_option("--units", wish.units, "Units of the numbers in JSON: si or inch")
        ->check(CLI::IsMember({"si", "inch"}))
        ->option_text("WORD");
    verb.footer(
        "Text output shows metric and inch side by side.\n"
        "JSON: {sheet, plugin_version, inputs {value, unit}, outputs {value, unit, text}, tables "
        "{columns, rows},\ncharts {series, labels}, in SI, working, notes [{level, text}], "
        "sources, failed}, with --entry also entry and "
        "worked_result;\n--again: {worked_result, entry, agree, kept, fresh};\n--list: a list of "
        "{sheet, title, answers, caution, plugin, plugin_version, inputs, outputs}, inputs "
        "{name,\nlabel, accepts, preset, required}, outputs {name, label, unit}.");
}

calc::Catalogue installed() {
    return calc::Catalogue(desk::calc_program(), desk::plugin_folders());
}

Json sheet_json(const calc::Plugin& plugin, const calc::Sheet& sheet) {
    Json inputs = Json::array();
    for (const auto& input : sheet.inputs)
        inputs.push_back(Json{{"name", input.id},
                              {"label", input.label},
                              {"accepts", calc::accepted(input)},
                              {"preset", input.preset},
                              {"required", input.required}});
    Json outputs = Json::array();
    for (const auto& output : sheet.outputs)
        outputs.push_back(
            Json{{"name", output.id}, {"label", output.label}, {"unit", output.unit}});
    return {{"sheet", sheet.id},           {"title", sheet.title},
            {"answers", sheet.answers},    {"caution", sheet.caution},
            {"plugin", plugin.name},       {"plugin_version", plugin.version},
            {"inputs", std::move(inputs)}, {"outputs", std::move(outputs)}};
}

Result<Report> sheets_listed(const Call& call, const CalcWish& wish) {
    auto sheets = installed();
    if (!wish.sheet.empty()) {
        auto found = sheets.find_sheet(wish.sheet);
        if (!found) return found.failure();
        return Report{sheet_text(*found->plugin, *found->sheet),
                      Json::array({sheet_json(*found->plugin, *found->sheet)})};
    }
    for (const auto& refused : sheets.refused())
        call.err << one_line(refused.reason) << '\n';
    if (!sheets.not_shut_off().empty()) call.err << sheets.not_shut_off() << '\n';
    Columns columns({"sheet", "title", "plugin"});
    Json json = Json::array();
    for (const auto& plugin : sheets.plugins()) {
        for (const auto& sheet : plugin.sheets) {
            columns.row({sheet.id, sheet.title, plugin.name + ' ' + plugin.version});
            json.push_back(sheet_json(plugin, sheet));
        }
    }
    return Report{columns.empty() ? "no worked sheets are installed\n" : columns.text(),
                  std::move(json)};
}

Report answer_report(const calc::Answer& answer, const CalcWish& wish) {
    return {answer_text(answer), calc::command_line_json(answer, wish.in_units())};
}

// The charts as files, named in the report.
Result<Report> drawn(Report report, const calc::Answer& answer, const CalcWish& wish) {
    if (wish.charts.empty()) return report;
    const std::filesystem::path folder = wish.charts;
    std::error_code trouble;
    std::filesystem::create_directories(folder, trouble);
    report.json["drawn"] = Json::array();
    for (const auto& chart : answer.charts) {
        const auto path = folder / (answer.sheet_id + "." + chart.chart.id + ".svg");
        if (!write_whole(path, calc::chart_svg(chart)))
            return Failure{FailureKind::io,
                           "The chart cannot be written to " + fettle::quoted(path.string()) +
                               ": --charts takes a folder that can be written to."};
        report.text += "drawn: " + path.string() + '\n';
        report.json["drawn"].push_back(path.string());
    }
    if (answer.charts.empty()) report.text += "this answer has no charts\n";
    return report;
}

Result<Report> kept_on_entry(const Call& call, const CalcWish& wish,
                             const calc::TypedInputs& typed) {
    auto entry = parse_id<EntryId>("entry", wish.entry);
    if (!entry) return entry.failure();
    auto notebook = call.for_writing();
    if (!notebook) return notebook.failure();
    auto sheets = installed();
    auto answer = desk::work_on_entry(*notebook, sheets, *entry, wish.sheet, typed);
    if (!answer) return answer.failure();
    auto written = entry_by_id(*notebook, *entry);
    if (!written) return written.failure();
    const auto kept = written->results.back().id.value;
    auto shown = drawn(answer_report(*answer, wish), *answer, wish);
    if (!shown) return shown.failure();
    Report report = std::move(*shown);
    report.text += "worked result " + std::to_string(kept) + " on entry " + wish.entry + '\n';
    report.json["entry"] = entry->value;
    report.json["worked_result"] = kept;
    report.failed = answer->failed;
    if (report.failed && !answer->notes.empty())
        call.err << one_line(answer->notes.back().text) << '\n';
    return report;
}

Result<Report> worked_again(const Call& call, const CalcWish& wish) {
    auto id = parse_id<WorkedResultId>("worked result", wish.again);
    if (!id) return id.failure();
    auto notebook = call.for_reading();
    if (!notebook) return notebook.failure();
    auto record = result_by_id(*notebook, *id);
    if (!record) return record.failure();
    auto sheets = installed();
    auto again = desk::run_again(sheets, *record);
    if (!again) return again.failure();
    const std::string verdict =
        again->agree ? "worked again: the same answer as the one kept\n"
                     : "worked again: the answers DIFFER; first the one kept, then today's\n";
    return Report{verdict + (again->agree ? "" : answer_text(again->kept)) +
                      answer_text(again->fresh),
                  {{"worked_result", id->value},
                   {"entry", record->entry.value},
                   {"agree", again->agree},
                   {"kept", calc::command_line_json(again->kept, wish.in_units())},
                   {"fresh", calc::command_line_json(again->fresh, wish.in_units())}}};
}

Result<Report> calculate(const Call& call, const CalcWish& wish) {
    if (!wish.again.empty()) return worked_again(call, wish);
    if (wish.list) return sheets_listed(call, wish);
    auto typed = typed_pairs(wish.values, "name=value, such as load=2.5 kN");
    if (!typed) return typed.failure();
    if (!wish.entry.empty()) return kept_on_entry(call, wish, *typed);
    auto sheets = installed();
    auto answer = calc::run_sheet(sheets, wish.sheet, *typed);
    if (!answer) return answer.failure();
    return drawn(answer_report(*answer, wish), *answer, wish);
}

} // namespace

void add_calc(Line& line) {
    add_verb(line, line.app, "calc", "Work a sheet, list the worked sheets, or work a result again",
             declare_calc, calculate);
}

} // namespace fettle::cli
