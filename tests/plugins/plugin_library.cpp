#include "plugins/plugin_library.h"

#include <doctest/doctest.h>

#include <cmath>
#include <sstream>

namespace fettle::test {
namespace {

SheetAnswer& answer_of(void* context) {
    return *static_cast<SheetAnswer*>(context);
}

fettle_sink sink_into(SheetAnswer& answer) {
    return {sizeof(fettle_sink),
            &answer,
            [](void* context, const char* id, double si) { answer_of(context).numbers[id] = si; },
            [](void* context, const char* id, const char* text) {
                answer_of(context).texts[id] = text;
            },
            [](void* context, const char* table, const fettle_cell* cells, std::uint32_t count) {
                std::vector<double> row;
                std::vector<std::string> words;
                for (std::uint32_t i = 0; i < count; ++i) {
                    row.push_back(cells[i].number);
                    words.emplace_back(cells[i].text != nullptr ? cells[i].text : "");
                }
                answer_of(context).tables[table].push_back(row);
                answer_of(context).words[table].push_back(words);
            },
            [](void* context, const char* line) { answer_of(context).working.push_back(line); },
            [](void* context, std::uint32_t level, const char* text) {
                answer_of(context).notes.emplace_back(level, text);
            },
            [](void* context, const char* field, const char* sentence) {
                answer_of(context).refused_field = field;
                answer_of(context).refusal = sentence;
            },
            [](void* context, const char* chart, const char* name, std::uint32_t look,
               const fettle_point* points, std::uint32_t count) {
                answer_of(context).series[chart].push_back({name, look, {points, points + count}});
            },
            [](void* context, const char* chart, double x, double y, const char* text) {
                answer_of(context).labels[chart].push_back({{x, y}, text});
            }};
}

// SI value of one unit as the plugins here name it; exact by definition.
double unit_size(const std::string& unit) {
    static const std::map<std::string, double> kSizes = {{"", 1},
                                                         {"1", 1},
                                                         {"%", 0.01},
                                                         {"in", 0.0254},
                                                         {"mm", 0.001},
                                                         {"m", 1},
                                                         {"µm", 1e-6},
                                                         {"m2", 1},
                                                         {"L", 0.001},
                                                         {"mbar", 100},
                                                         {"h", 3600},
                                                         {"K", 1},
                                                         {"thou", 0.0000254},
                                                         {"lbf/in", 4.4482216152605 / 0.0254},
                                                         {"lbf", 4.4482216152605},
                                                         {"GPa", 1e9},
                                                         {"MPa", 1e6},
                                                         {"°", std::acos(-1.0) / 180}};
    return kSizes.at(unit);
}

double preset_number(const std::string& text, const std::string& bare_unit) {
    std::istringstream reader(text);
    double value = NAN;
    std::string unit;
    reader >> value >> unit;
    if (unit.empty()) unit = bare_unit;
    return unit == "°C" ? value + 273.15 : value * unit_size(unit);
}

std::vector<std::string> split(const std::string& text, char mark) {
    std::vector<std::string> parts;
    std::istringstream reader(text);
    for (std::string part; std::getline(reader, part, mark);)
        if (part.find_first_not_of(' ') != std::string::npos) parts.push_back(part);
    return parts;
}

// A word of a choice column, else a number; NAN for a blank.
double preset_cell(const std::string& cell, const fettle_column& column) {
    for (std::uint32_t i = 0; i < column.choice_count; ++i)
        if (cell.find(column.choices[i]) != std::string::npos) return i;
    return preset_number(cell, column.unit);
}

Typed preset_table(const fettle_input& input) {
    Typed typed;
    typed.columns = input.column_count;
    for (const std::string& row : split(input.preset, ';')) {
        const bool barred = row.find('|') != std::string::npos;
        std::istringstream reader(row);
        std::vector<std::string> cells;
        if (barred)
            for (std::string cell; std::getline(reader, cell, '|');)
                cells.push_back(cell);
        else
            cells = split(row, ' ');
        for (std::uint32_t c = 0; c < input.column_count; ++c) {
            const bool blank =
                c >= cells.size() || cells[c].find_first_not_of(' ') == std::string::npos;
            typed.numbers.push_back(blank ? NAN : preset_cell(cells[c], *input.columns[c]));
        }
    }
    return typed;
}

} // namespace

const fettle_sheet& sheet_named(const PluginLibrary& library, const std::string& id) {
    const fettle_plugin* plugin = library.describe();
    REQUIRE(plugin != nullptr);
    for (std::uint32_t i = 0; i < plugin->sheet_count; ++i) {
        if (plugin->sheets[i]->id == id) return *plugin->sheets[i];
    }
    FAIL("no sheet ", id);
    return *plugin->sheets[0];
}

SheetAnswer run(const fettle_sheet& sheet, const TypedById& typed) {
    std::vector<fettle_value> values;
    for (std::uint32_t i = 0; i < sheet.input_count; ++i) {
        fettle_value value{sizeof(fettle_value), 0, 0, nullptr, nullptr, 0, 1};
        const auto found = typed.find(sheet.inputs[i]->id);
        if (found != typed.end()) {
            const Typed& given = found->second;
            value.given = 1;
            value.number = given.number.value_or(0);
            value.text = given.text ? given.text->c_str() : nullptr;
            value.numbers = given.numbers.empty() ? nullptr : given.numbers.data();
            value.columns = given.columns;
            value.rows = static_cast<std::uint32_t>(given.numbers.size()) / given.columns;
        }
        values.push_back(value);
    }
    std::vector<const fettle_value*> pointers;
    for (const fettle_value& value : values)
        pointers.push_back(&value);
    SheetAnswer answer;
    const fettle_sink sink = sink_into(answer);
    answer.code = sheet.compute(pointers.data(), sheet.input_count, &sink);
    return answer;
}

TypedById presets_of(const fettle_sheet& sheet) {
    TypedById all;
    for (std::uint32_t i = 0; i < sheet.input_count; ++i) {
        const fettle_input& input = *sheet.inputs[i];
        if (std::string(input.preset).empty()) continue;
        Typed& typed = all[input.id];
        switch (input.shape) {
        case FETTLE_NUMBER:
            typed.number = preset_number(input.preset, input.unit);
            break;
        case FETTLE_LIST:
            for (const std::string& item : split(input.preset, ';'))
                typed.numbers.push_back(preset_number(item, input.unit));
            break;
        case FETTLE_TABLE:
            typed = preset_table(input);
            break;
        default:
            typed.text = input.preset;
        }
    }
    return all;
}

} // namespace fettle::test
