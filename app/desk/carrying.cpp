#include "desk/carrying.h"

#include "base/quantity.h"
#include "base/text.h"
#include "calc/short_quantity.h"
#include "calc/typed_inputs.h"
#include "desk/worked.h"
#include "notebook/weather.h"

#include <algorithm>

namespace fettle::desk {
namespace {

std::string typed_cell(const calc::Cell& cell, const calc::Column& column) {
    if (!column.choices.empty()) return calc::cell_word(cell, column);
    if (!cell.si) return {};
    return calc::short_quantity(*cell.si, column.quantity, column.unit);
}

std::string typed_table(const calc::AnsweredTable& table) {
    std::vector<std::string> rows;
    for (const auto& cells : table.rows) {
        std::vector<std::string> row;
        for (std::size_t at = 0; at < cells.size(); ++at)
            row.push_back(typed_cell(cells[at], table.table.columns[at]));
        rows.push_back(join(row, " | "));
    }
    return join(rows, "\n");
}

void go_on_from(const calc::Answer& last, const calc::Sheet& sheet, calc::TypedInputs& typed) {
    const calc::TypedInputs before = calc::typed_inputs(last);
    for (const calc::Input& input : sheet.inputs) {
        if (input.continues.empty()) continue;
        if (input.shape != calc::Shape::table) {
            if (const auto same = before.find(input.id); same != before.end())
                typed[input.id] = same->second;
            continue;
        }
        for (const calc::AnsweredTable& table : last.tables)
            if (table.table.id == input.continues) typed[input.id] = typed_table(table);
    }
}

void take_weather(const Weather& weather, const calc::Sheet& sheet, calc::TypedInputs& typed) {
    for (const calc::Input& input : sheet.inputs) {
        if (input.day == "air_temperature" && weather.temperature_c)
            if (const auto si = from_unit(*weather.temperature_c, "temperature", "°C"))
                typed[input.id] = calc::short_quantity(*si, "temperature", "°C");
        if (input.day == "humidity" && weather.humidity)
            typed[input.id] = calc::short_quantity(*weather.humidity, "ratio", "%");
    }
}

// The newest kept result of a sheet on these tasks; nothing when there is none.
Result<std::optional<calc::Answer>> last_result(const Notebook& notebook, std::string_view sheet,
                                                const SheetPlace& place) {
    std::optional<calc::Answer> last;
    Day day_of_last{};
    for (const TaskId task : place.tasks) {
        const auto entries = list_entries(notebook, {.task = task}); // the newest first
        if (!entries) return entries.failure();
        for (const Entry& entry : *entries) {
            if (entry.id == place.changing || (last && entry.day <= day_of_last)) continue;
            for (const WorkedResult& result : entry.results) {
                if (result.sheet != sheet) continue;
                auto answer = answer_of(result);
                if (!answer) return answer.failure();
                if (answer->failed) continue;
                last = std::move(*answer);
                day_of_last = entry.day;
            }
        }
    }
    return last;
}

} // namespace

Result<std::vector<LatestResult>> latest_results(const Notebook& notebook, TaskId task) {
    const auto entries = list_entries(notebook, {.task = task}); // the newest first
    if (!entries) return entries.failure();
    std::vector<LatestResult> all;
    for (const Entry& entry : *entries)
        for (auto result = entry.results.rbegin(); result != entry.results.rend(); ++result) {
            const auto known = std::ranges::find_if(
                all, [&](const LatestResult& one) { return one.answer.sheet_id == result->sheet; });
            if (known != all.end()) {
                ++known->kept;
                continue;
            }
            auto answer = answer_of(*result);
            if (!answer) return answer.failure();
            all.push_back({entry.day, 1, std::move(*answer)});
        }
    return all;
}

Result<calc::TypedInputs> begun_inputs(const Notebook& notebook, const calc::Sheet& sheet,
                                       const SheetPlace& place) {
    calc::TypedInputs typed = calc::fresh_inputs(sheet);
    const auto asks = [&](std::string calc::Input::*for_it) {
        return std::ranges::any_of(sheet.inputs,
                                   [&](const auto& input) { return !(input.*for_it).empty(); });
    };
    if (asks(&calc::Input::day)) {
        const auto weather = weather_on(notebook, place.day);
        if (!weather) return weather.failure();
        take_weather(*weather, sheet, typed);
    }
    if (!asks(&calc::Input::continues)) return typed;
    const auto last = last_result(notebook, sheet.id, place);
    if (!last) return last.failure();
    if (*last) go_on_from(**last, sheet, typed);
    return typed;
}

} // namespace fettle::desk
