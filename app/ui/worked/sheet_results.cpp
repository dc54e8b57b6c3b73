#include "ui/worked/sheet_results.h"

#include "ui/widgets/acts.h"
#include "ui/widgets/readings.h"
#include "ui/widgets/typeset.h"
#include "ui/worked/chart_view.h"

#include <imgui.h>

#include <algorithm>

namespace fettle::ui {
namespace {

Tell tell_of(calc::NoteLevel level) {
    switch (level) {
    case calc::NoteLevel::stop:
        return Tell::stop;
    case calc::NoteLevel::caution:
        return Tell::caution;
    case calc::NoteLevel::reached:
        return Tell::ready;
    case calc::NoteLevel::info:
        break;
    }
    return Tell::info;
}

void typed_lines(Page& page, const std::string& key, const ShownAnswer& shown) {
    std::string all;
    for (const calc::DisplayInput& input : shown.inputs) {
        std::string typed = input.typed; // rows of a table stand on lines of their own
        std::ranges::replace(typed, '\n', ';');
        all += (all.empty() ? "" : "   ·   ") + input.label + ": " + typed;
    }
    fine_print(page, all);
    note(page, key + ".typed", all);
    gap(page);
}

// What decides whether the figures may be used at all stands before them.
bool decides(calc::NoteLevel level) {
    return level == calc::NoteLevel::stop || level == calc::NoteLevel::reached;
}

// Warnings are never folded away; what only informs is, in the Log.
void notes(Page& page, const std::string& key, const std::vector<calc::Note>& all,
           bool (*wanted)(calc::NoteLevel)) {
    int number = 0;
    for (const calc::Note& said : all) {
        const std::string note_key = key + ".note." + std::to_string(number++);
        if (wanted(said.level)) notice(page, note_key, tell_of(said.level), said.text);
    }
}

// Formulae of the outputs and sources of the sheet, each once.
std::string sources_of(const ShownAnswer& shown) {
    std::string all;
    const auto add = [&all](const std::string& source) {
        if (source.empty() || all.find(source) != std::string::npos) return;
        if (!all.empty()) all += "; ";
        all += source;
    };
    for (const calc::DisplayRow& row : shown.rows)
        add(row.source);
    for (const std::string& source : shown.answer.sources)
        add(source);
    return all;
}

void working(Page& page, const std::string& key, const ShownAnswer& shown, bool& open) {
    if (button(page, key + ".working", open ? "fold the working" : "show the working",
               {.weight = Weight::quiet}))
        open = !open;
    if (!open) return;
    int number = 0;
    for (const std::string& line : shown.answer.working) {
        fine_print(page, line, Role::ink);
        note(page, key + ".working." + std::to_string(number++), line);
    }
}

} // namespace

ShownAnswer shown_answer(calc::Answer answer) {
    ShownAnswer shown;
    shown.inputs = calc::display_inputs(answer);
    shown.rows = calc::display_rows(answer);
    std::erase_if(shown.rows, [](const calc::DisplayRow& row) { return row.blank; });
    shown.tables = calc::display_tables(answer);
    shown.hands = calc::hand_overs(answer);
    shown.answer = std::move(answer);
    return shown;
}

void sheet_results(Page& page, std::string_view key_given, const ShownAnswer& shown,
                   bool& working_open, const ResultsLook& look) {
    const std::string key(key_given);
    ImGui::PushStyleVar(ImGuiStyleVar_Alpha, look.faded ? 0.45F : 1.0F);
    if (look.kept) typed_lines(page, key, shown);
    notes(page, key, shown.answer.notes, decides);
    std::vector<FigureLine> lines;
    for (const calc::DisplayRow& row : shown.rows)
        lines.push_back({row.id, row.label, row.metric, row.inch});
    if (!lines.empty()) figure_lines(page, key, lines);
    for (const calc::DisplayTable& table : shown.tables)
        cell_table(page, key + "." + table.id,
                   {table.label, table.headings, table.rows, table.inch_headings, table.inch_rows});
    for (const calc::AnsweredChart& chart : shown.answer.charts)
        chart_view(page, key + ".chart." + chart.chart.id, chart);
    const bool folded = look.kept && !working_open;
    notes(
        page, key, shown.answer.notes,
        folded ? +[](calc::NoteLevel level) { return level == calc::NoteLevel::caution; }
               : +[](calc::NoteLevel level) { return !decides(level); });
    working(page, key, shown, working_open);
    const std::string sources = folded ? std::string() : sources_of(shown);
    if (!sources.empty()) fine_print(page, "after " + sources);
    ImGui::PopStyleVar();
}

} // namespace fettle::ui
