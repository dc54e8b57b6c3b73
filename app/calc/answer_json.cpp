// The stored form of an answer. Format 1; a reader refuses later ones.
#include "calc/answer.h"
#include "calc/chart_json.h"
#include "calc/description_json.h"
#include "calc/value_json.h"

namespace fettle::calc {
namespace {

using nlohmann::json;

constexpr int kFormat = 1;

// Walking over anything else than an array would take null for an empty one.
const json::array_t& elements(const json& array) {
    return array.get_ref<const json::array_t&>();
}

json cells_json(const std::vector<std::vector<Cell>>& rows) {
    json all = json::array();
    for (const auto& cells : rows) {
        json& row = all.emplace_back(json::array());
        for (const Cell& cell : cells)
            row.push_back(cell.text.empty() ? number_or_null(cell.si) : json(cell.text));
    }
    return all;
}

std::vector<Cell> read_cells(const json& row) {
    std::vector<Cell> cells;
    for (const json& cell : elements(row))
        cells.push_back(cell.is_string() ? Cell{{}, cell.get<std::string>()}
                                         : Cell{optional_number(cell), {}});
    return cells;
}

Failure damaged(std::string detail) {
    return {FailureKind::damaged, "A stored worked result does not read as one.",
            std::move(detail)};
}

// What display relies on: cells under each column, values that fit their shapes.
bool fits(const Answer& answer) {
    for (const auto& [table, rows] : answer.tables)
        for (const auto& cells : rows)
            if (cells.size() != table.columns.size()) return false;
    for (const auto& [input, typed, value] : answer.inputs) {
        const std::size_t columns = input.shape == Shape::table ? input.columns.size() : 1;
        if (value.numbers.empty()) continue;
        if (value.columns != columns || value.numbers.size() != columns * value.rows) return false;
    }
    return true;
}

Answer read_answer(const json& stored) {
    Answer answer;
    const json& plugin = stored.at("plugin");
    plugin.at("id").get_to(answer.plugin_id);
    plugin.at("name").get_to(answer.plugin_name);
    plugin.at("version").get_to(answer.plugin_version);
    const json& sheet = stored.at("sheet");
    sheet.at("id").get_to(answer.sheet_id);
    sheet.at("title").get_to(answer.sheet_title);
    sheet.at("revision").get_to(answer.revision);
    for (const json& input : elements(stored.at("inputs")))
        answer.inputs.push_back({input.at("declared").get<Input>(), input.at("typed"),
                                 input.at("value").get<SiValue>()});
    for (const json& output : elements(stored.at("outputs")))
        answer.outputs.push_back({output.at("declared").get<Output>(),
                                  optional_number(output.at("si")), output.at("text"),
                                  output.value("spread", 0.0)});
    for (const json& table : elements(stored.at("tables"))) {
        auto& read = answer.tables.emplace_back(AnsweredTable{table.at("declared"), {}});
        for (const json& row : elements(table.at("rows")))
            read.rows.push_back(read_cells(row));
    }
    const json charts = stored.value("charts", json::array()); // results kept earlier have none
    for (const json& chart : elements(charts)) {
        auto& read = answer.charts.emplace_back(AnsweredChart{chart.at("declared"), {}, {}});
        read_drawn(chart, read);
    }
    stored.at("working").get_to(answer.working);
    for (const json& note : elements(stored.at("notes")))
        answer.notes.push_back({note.at("level").get<NoteLevel>(), note.at("text")});
    stored.at("sources").get_to(answer.sources);
    answer.failed = stored.value("failed", false); // results kept earlier do not say
    return answer;
}

} // namespace

json to_json(const Answer& answer) {
    json inputs = json::array();
    for (const auto& [input, typed, value] : answer.inputs)
        inputs.push_back({{"declared", input}, {"typed", typed}, {"value", value}});
    json outputs = json::array();
    for (const auto& [output, si, text, spread] : answer.outputs)
        outputs.push_back(
            {{"declared", output}, {"si", number_or_null(si)}, {"text", text}, {"spread", spread}});
    json tables = json::array();
    for (const auto& [table, rows] : answer.tables)
        tables.push_back({{"declared", table}, {"rows", cells_json(rows)}});
    json charts = json::array();
    for (const AnsweredChart& chart : answer.charts) {
        json& kept = charts.emplace_back(drawn_json(chart));
        kept["declared"] = chart.chart;
    }
    json notes = json::array();
    for (const Note& note : answer.notes)
        notes.push_back({{"level", note.level}, {"text", note.text}});
    return {
        {"format", kFormat},
        {"plugin",
         {{"id", answer.plugin_id},
          {"name", answer.plugin_name},
          {"version", answer.plugin_version}}},
        {"sheet",
         {{"id", answer.sheet_id}, {"title", answer.sheet_title}, {"revision", answer.revision}}},
        {"inputs", inputs},
        {"outputs", outputs},
        {"tables", tables},
        {"charts", charts},
        {"working", answer.working},
        {"notes", notes},
        {"sources", answer.sources},
        {"failed", answer.failed}};
}

Result<Answer> from_json(const json& stored) {
    try {
        if (stored.at("format").get<int>() > kFormat)
            return Failure{FailureKind::newer,
                           "A stored worked result was written by a later version of the program."};
        Answer answer = read_answer(stored);
        if (!fits(answer)) return damaged("values do not match their declaration");
        return answer;
    } catch (const json::exception& unreadable) {
        return damaged(unreadable.what());
    }
}

} // namespace fettle::calc
