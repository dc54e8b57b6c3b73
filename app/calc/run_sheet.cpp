#include "calc/run_sheet.h"

#include "calc/chart_json.h"
#include "calc/description_json.h"

#include <nlohmann/json.hpp>

namespace fettle::calc {
namespace {

using nlohmann::json;

std::vector<AnsweredInput> answered_inputs(const Sheet& sheet, const ReadInputs& read) {
    std::vector<AnsweredInput> inputs;
    for (std::size_t at = 0; at < sheet.inputs.size(); ++at) {
        const Input& input = sheet.inputs[at];
        const auto typed = read.typed.find(input.id);
        inputs.push_back({input, typed == read.typed.end() ? "" : typed->second, read.values[at]});
    }
    return inputs;
}

std::vector<AnsweredOutput> answered_outputs(const Sheet& sheet, const json& answer) {
    const json& written = answer.at("outputs");
    const json& spreads = answer.at("spreads");
    std::vector<AnsweredOutput> outputs;
    for (const Output& output : sheet.outputs) {
        AnsweredOutput answered{output, {}, {}};
        if (const auto value = written.find(output.id); value != written.end()) {
            if (value->is_number())
                answered.si = value->get<double>();
            else
                value->get_to(answered.text);
        }
        answered.spread = spreads.value(output.id, 0.0);
        outputs.push_back(std::move(answered));
    }
    return outputs;
}

std::vector<AnsweredTable> answered_tables(const Sheet& sheet, const json& written) {
    std::vector<AnsweredTable> tables;
    for (const Table& table : sheet.tables) {
        AnsweredTable answered{table, {}};
        for (const json& row : written.value(table.id, json::array())) {
            auto& cells = answered.rows.emplace_back();
            for (const json& cell : row)
                cells.push_back(cell.is_string() ? Cell{{}, cell.get<std::string>()}
                                                 : Cell{optional_number(cell), {}});
        }
        tables.push_back(std::move(answered));
    }
    return tables;
}

std::vector<AnsweredChart> answered_charts(const Sheet& sheet, const json& written) {
    std::vector<AnsweredChart> charts;
    for (const Chart& chart : sheet.charts) {
        const auto drawn = written.find(chart.id);
        if (drawn == written.end()) continue;
        read_drawn(*drawn, charts.emplace_back(AnsweredChart{chart, {}, {}}));
    }
    return charts;
}

// The sheet with what was typed, before anything is known of its answer.
Answer asked(const FoundSheet& found, const ReadInputs& read) {
    const Sheet& sheet = *found.sheet;
    return {.plugin_id = found.plugin->id,
            .plugin_name = found.plugin->name,
            .plugin_version = found.plugin->version,
            .sheet_id = sheet.id,
            .sheet_title = sheet.title,
            .revision = sheet.revision,
            .inputs = answered_inputs(sheet, read),
            .outputs = {},
            .tables = {},
            .charts = {},
            .working = {},
            .notes = {},
            .sources = sheet.sources};
}

Answer failed_answer(const FoundSheet& found, const ReadInputs& read, const Failure& failure) {
    Answer answer = asked(found, read);
    for (const Output& output : found.sheet->outputs)
        answer.outputs.push_back({output, {}, {}});
    answer.notes.push_back(
        {NoteLevel::stop, "This calculation failed, so it has no figures. " + failure.sentence});
    answer.failed = true;
    return answer;
}

Answer assembled(const FoundSheet& found, const ReadInputs& read, const json& written) {
    const Sheet& sheet = *found.sheet;
    Answer answer = asked(found, read);
    answer.outputs = answered_outputs(sheet, written);
    answer.tables = answered_tables(sheet, written.at("tables"));
    answer.charts = answered_charts(sheet, written.at("charts"));
    answer.working = written.at("working").get<std::vector<std::string>>();
    if (!sheet.caution.empty()) answer.notes.push_back({NoteLevel::caution, sheet.caution});
    for (const json& note : written.at("notes"))
        answer.notes.push_back({note.at("level").get<NoteLevel>(), note.at("text")});
    return answer;
}

// A refusal that blames a field is said beside the field and names it in the one-line form, too.
void take_failure(SheetRun& run, const Sheet& sheet, const Failure& failure) {
    run.failure = failure;
    if (failure.kind != FailureKind::refused) return;
    const Input* blamed = find_by_id(sheet.inputs, failure.detail);
    if (!blamed) return;
    run.problems[blamed->id] = failure.sentence;
    const std::string& sentence = failure.sentence;
    if (!sentence.starts_with(blamed->id) && !sentence.starts_with(blamed->label))
        run.failure->sentence = blamed->label + " (" + blamed->id + "): " + sentence;
}

} // namespace

SheetRun try_sheet(Catalogue& catalogue, std::string_view sheet_id, const TypedInputs& typed) {
    SheetRun run;
    const auto found = catalogue.find_sheet(sheet_id);
    if (!found) {
        run.failure = found.failure();
        return run;
    }
    const ReadInputs read = read_inputs(*found->sheet, typed);
    if (!read.problems.empty()) {
        run.problems = read.problems;
        run.failure = Failure{FailureKind::invalid, read.first_problem};
        return run;
    }
    const auto written = catalogue.compute(*found, read.values);
    auto answer = written ? read_answer(*found, read, *written) : Result<Answer>(written.failure());
    if (answer) {
        run.answer = std::move(*answer);
        return run;
    }
    take_failure(run, *found->sheet, answer.failure());
    if (run.failure->kind == FailureKind::plugin)
        run.failed = failed_answer(*found, read, *run.failure);
    return run;
}

Result<Answer> read_answer(const FoundSheet& found, const ReadInputs& read, const json& written) {
    try {
        return assembled(found, read, written);
    } catch (const json::exception& unreadable) {
        return Failure{FailureKind::plugin,
                       "The plugin " + found.plugin->id + " failed in " + found.sheet->id +
                           ": its answer cannot be read.",
                       unreadable.what()};
    }
}

SheetRun try_again(Catalogue& catalogue, const Answer& kept) {
    TypedInputs typed = typed_inputs(kept);
    if (const auto found = catalogue.find_sheet(kept.sheet_id))
        std::erase_if(typed, [&](const auto& input) {
            return find_by_id(found->sheet->inputs, input.first) == nullptr;
        });
    return try_sheet(catalogue, kept.sheet_id, typed);
}

Result<Answer> run_sheet(Catalogue& catalogue, std::string_view sheet_id,
                         const TypedInputs& typed) {
    SheetRun run = try_sheet(catalogue, sheet_id, typed);
    if (run.failure) return *run.failure;
    return std::move(*run.answer);
}

} // namespace fettle::calc
