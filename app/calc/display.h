// An answer as texts: metric and inch side by side, with the digits that count. The window, the
// command line and the build book all take their texts from here. Works without the plugin.
//
// Any thread.
#pragma once

#include "calc/answer.h"

#include <string>
#include <string_view>
#include <vector>

namespace fettle::calc {

struct DisplayRow {
    std::string id;
    std::string label;
    std::string metric; // "24.4 N·m"; the text itself for text outputs; "none" where there is none
    std::string inch;   // "18.0 lbf·ft"; empty where inches add nothing
    std::string source; // outputs: where the formula comes from
    bool blank = false; // the answer holds neither figure nor words for it
    bool in_words = false; // words, which may be sentences, instead of a figure
};

// Outputs in the sheet's order.
std::vector<DisplayRow> display_rows(const Answer& answer);

// Inputs that were filled in: `typed` as it was typed, metric and inch as they were understood.
struct DisplayInput {
    std::string id;
    std::string label;
    std::string typed;
    std::string metric;
    std::string inch;
};
std::vector<DisplayInput> display_inputs(const Answer& answer);

// One field's value as it was understood, in metric and in inch units, for beside the field.
struct BothUnits {
    std::string metric;
    std::string inch;
};
BothUnits both_units(const Input& input, const SiValue& value);

struct DisplayTable {
    std::string id;
    std::string label;
    std::vector<std::string> headings;      // "Thickness, mm"
    std::vector<std::string> inch_headings; // "Thickness, in"
    std::vector<std::vector<std::string>> rows;
    std::vector<std::vector<std::string>> inch_rows; // empty where inches add nothing
};
std::vector<DisplayTable> display_tables(const Answer& answer);

// What an answer offers to another sheet: the input as it would be typed there. Several outputs for
// one list are handed on together.
struct HandOver {
    std::string sheet; // "torque.tighten"
    std::string input; // "thread"
    std::string typed;
};
std::vector<HandOver> hand_overs(const Answer& answer);

// The usual inch and metric units of a kind of quantity: "length" -> "in", "mm". Empty where the
// two do not differ (angle, time, count ...).
std::string_view inch_unit(std::string_view kind);
std::string_view metric_unit(std::string_view kind);
// The SI unit of a kind as plugins/sdk/fettle_plugin.h lists it; "1" for pure numbers.
std::string_view si_unit(std::string_view kind);

} // namespace fettle::calc
