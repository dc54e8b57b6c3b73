#include "calc/display.h"
#include "desk/book_within.h"

#include <algorithm>

namespace fettle::desk {
namespace {

std::string typed_line(const calc::Answer& answer) {
    std::string all;
    for (const auto& input : calc::display_inputs(answer)) {
        std::string typed = input.typed; // rows of a table stand on lines of their own
        std::ranges::replace(typed, '\n', ';');
        all += (all.empty() ? "" : "  ·  ") + input.label + ": " + typed;
    }
    return all;
}

// What stops or warns stands before the figures; what only informs, behind them.
void add_notes(const calc::Answer& answer, bool informing, std::vector<Block>& blocks) {
    for (const auto& note : answer.notes)
        if ((note.level == calc::NoteLevel::info) == informing)
            blocks.push_back(Notice{note.level, note.text});
}

void add_figures(const std::vector<calc::DisplayRow>& rows, std::vector<Block>& blocks) {
    TableOf figures;
    figures.shares = {5, 3, 3};
    Facts said;
    for (const auto& row : rows) {
        if (row.blank) continue;
        if (row.in_words)
            said.lines.emplace_back(row.label, row.metric);
        else
            figures.rows.push_back({row.label, row.metric, row.inch});
    }
    if (!figures.rows.empty()) blocks.push_back(std::move(figures));
    if (!said.lines.empty()) blocks.push_back(std::move(said));
}

std::string sources_line(const std::vector<calc::DisplayRow>& rows, const calc::Answer& answer) {
    std::vector<std::string> all;
    const auto add = [&all](const std::string& source) {
        if (!source.empty() && std::ranges::find(all, source) == all.end()) all.push_back(source);
    };
    for (const auto& row : rows)
        add(row.source);
    for (const auto& source : answer.sources)
        add(source);
    return join(all, "; ");
}

} // namespace

void add_worked(const BookWish& wish, const calc::Answer& answer, std::vector<Block>& blocks) {
    blocks.push_back(
        SheetEdge{true, answer.sheet_title,
                  answer.sheet_id + ", " + answer.plugin_name + " " + answer.plugin_version});
    if (auto typed = typed_line(answer); !typed.empty())
        blocks.push_back(Words{std::move(typed), Words::Kind::fine});
    add_notes(answer, false, blocks);
    const auto rows = calc::display_rows(answer);
    add_figures(rows, blocks);
    for (auto& table : calc::display_tables(answer))
        if (!table.rows.empty())
            blocks.push_back(TableOf{table.label,
                                     std::move(table.headings),
                                     std::move(table.rows),
                                     std::move(table.inch_rows),
                                     {}});
    if (wish.with(BookPart::charts))
        for (const auto& chart : answer.charts)
            blocks.push_back(Drawing{chart});
    add_notes(answer, true, blocks);
    if (wish.with(BookPart::working))
        for (const auto& line : answer.working)
            blocks.push_back(Words{line, Words::Kind::working});
    if (auto line = sources_line(rows, answer); !line.empty())
        blocks.push_back(Words{"Source: " + line, Words::Kind::fine});
    blocks.push_back(SheetEdge{false});
}

} // namespace fettle::desk
