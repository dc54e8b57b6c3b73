// The answer of a worked sheet with everything needed to show it years later without its plugin,
// and to run it again: declarations, values in SI, what was typed, versions.
//
// Knows nothing of processes or screens; calc/display.h turns it into texts. Values; any thread.
#pragma once

#include "base/result.h"
#include "calc/sheet.h"
#include "calc/typed_inputs.h"

#include <nlohmann/json_fwd.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace fettle::calc {

// `reached`: what the work was for has been reached, its task can be called done.
enum class NoteLevel : std::uint32_t { info = 1, caution = 2, stop = 3, reached = 4 };
std::string note_level_name(NoteLevel level); // "info", "caution", "stop", "reached"

struct Note {
    NoteLevel level = NoteLevel::info;
    std::string text;
    bool operator==(const Note&) const = default;
};

struct AnsweredInput {
    Input input;       // as declared when it was calculated
    std::string typed; // what the field held
    SiValue value;
};

// A number output holds `si`; one without a number holds at most a text that says why there is
// none.
struct AnsweredOutput {
    Output output;
    std::optional<double> si;
    std::string text;
    double spread =
        0; // SI: how far the last typed decimals of the inputs leave it open, either way
};

struct Cell {
    std::optional<double> si;
    std::string text;
};

struct AnsweredTable {
    Table table;
    std::vector<std::vector<Cell>> rows;
};

enum class Look : std::uint32_t { line = 1, dashed = 2, dots = 3, body = 4 };

struct ChartPoint {
    double x = 0, y = 0; // SI
    bool operator==(const ChartPoint&) const = default;
};

struct ChartSeries {
    std::string name; // "" for one that needs no name
    Look look = Look::line;
    std::vector<ChartPoint> points;
};

struct ChartLabel {
    ChartPoint at;
    std::string text;
};

struct AnsweredChart {
    Chart chart;
    std::vector<ChartSeries> series;
    std::vector<ChartLabel> labels;
};

struct Answer {
    std::string plugin_id;
    std::string plugin_name;
    std::string plugin_version;
    std::string sheet_id;
    std::string sheet_title;
    std::uint32_t revision = 0;
    std::vector<AnsweredInput> inputs;
    std::vector<AnsweredOutput> outputs; // every declared output, in the sheet's order
    std::vector<AnsweredTable> tables;
    std::vector<AnsweredChart> charts; // those with something in them
    std::vector<std::string> working;
    std::vector<Note> notes; // the sheet's own caution first
    std::vector<std::string> sources;
    bool failed = false; // the plugin failed: no figures, and a note that stops says how
};

// What to hand to run_sheet to calculate the same again.
TypedInputs typed_inputs(const Answer& answer);

// The word that a cell of a column of words holds; empty when it holds none of them.
std::string cell_word(const Cell& cell, const Column& column);

// The number of that output in SI; nothing when there is none.
std::optional<double> output_si(const Answer& answer, std::string_view output_id);

// Whether a note of that level stands with it.
bool has_note(const Answer& answer, NoteLevel level);

// Whether two answers to one sheet agree in every output and table, numbers to 9 digits.
bool agree(const Answer& one, const Answer& other);

// For storing whole. from_json fails with damaged, or newer for a later format.
nlohmann::json to_json(const Answer& answer);
Result<Answer> from_json(const nlohmann::json& stored);

enum class Units { si, inch };

// What `fettlebook calc SHEET --json` prints. With Units::inch numbers stand in the inch units
// shown beside the metric ones; where there are none they stay in SI, and "unit" says so.
nlohmann::json command_line_json(const Answer& answer, Units units);

} // namespace fettle::calc
