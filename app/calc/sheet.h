// What a plugin says of itself: worked sheets with their inputs, outputs and tables, as plain
// values.
//
// Mirrors plugins/sdk/fettle_plugin.h for the program's own use, so that no other room reads a C
// struct. Knows nothing of processes or of the window. Values; any thread.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace fettle::calc {

enum class Shape : std::uint32_t { number = 1, text = 2, choice = 3, list = 4, table = 5 };

// A column of a table input or of a table in the answer.
struct Column {
    std::string id;
    std::string label;
    Shape shape = Shape::number;           // number; in answers text too
    std::string quantity;                  // kind of quantity, see base/quantity.h; "" for text
    std::string unit;                      // a bare number is taken in it; shown in the heading
    bool required = false;                 // inputs: every row must fill it
    int digits = 0;                        // answers: significant digits shown
    std::vector<std::string> choices = {}; // a number column of words: the number is an index
    bool operator==(const Column&) const = default;
};

// An input that is asked only while another one, a choice, holds one of these.
struct When {
    std::string input; // "" for an input that is always asked
    std::vector<std::string> choices;
    bool operator==(const When&) const = default;
};

struct Input {
    std::string id;
    std::string label;
    std::string help;
    Shape shape = Shape::number;
    std::string quantity;           // number and list
    std::string unit;               // number and list: a bare number is taken in it
    std::string preset;             // what a fresh sheet shows; "" for nothing
    std::optional<double> least;    // SI
    std::optional<double> greatest; // SI
    bool required = false;
    std::vector<std::string> choices;
    std::vector<Column> columns;
    When when = {};
    std::string continues = {}; // how it is filled from the task's last result; "" for not at all
    std::string day = {};       // "air_temperature", "humidity": filled from the day's weather
    bool operator==(const Input&) const = default;
};

struct Output {
    std::string id;
    std::string label;
    Shape shape = Shape::number; // number or text
    std::string quantity;
    std::string unit; // metric unit it is shown in
    std::string inch; // unit shown beside it; "" for none
    int digits = 0;   // significant digits shown
    std::string source;
    std::string hands_to = {}; // "torque.tighten.thread": the input that takes it on; "" for none
    bool operator==(const Output&) const = default;
};

struct Table {
    std::string id;
    std::string label;
    std::vector<Column> columns;
    bool operator==(const Table&) const = default;
};

struct Axis {
    std::string label;
    std::string quantity;
    std::string unit; // metric unit of its scale
    std::string inch; // unit of its scale in inches; "" for none
    bool operator==(const Axis&) const = default;
};

// A picture of figures. Drawn to scale, both axes share one scale and none is shown.
struct Chart {
    std::string id;
    std::string label;
    bool to_scale = false;
    Axis x;
    Axis y;
    bool operator==(const Chart&) const = default;
};

struct Sheet {
    std::string id; // "shim.stack"
    std::string title;
    std::string answers; // the question it answers, one line
    std::string caution; // always stands with the result; "" for none
    std::uint32_t revision = 0;
    std::vector<Input> inputs;
    std::vector<Output> outputs;
    std::vector<Table> tables;
    std::vector<std::string> sources;
    std::vector<Chart> charts = {};
    bool smooth = false; // numbers follow the inputs without jumps, and computing is quick
    bool operator==(const Sheet&) const = default;
};

struct Plugin {
    std::string id; // "shim"
    std::string name;
    std::string version;
    std::filesystem::path library; // the file it came from, links resolved
    std::vector<Sheet> sheets;
    bool operator==(const Plugin&) const = default;
};

// The element with this id, or nullptr.
template <class Element>
const Element* find_by_id(const std::vector<Element>& elements, std::string_view id) {
    for (const Element& element : elements)
        if (element.id == id) return &element;
    return nullptr;
}

} // namespace fettle::calc
