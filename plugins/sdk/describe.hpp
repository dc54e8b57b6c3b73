// Optional C++ sugar over fettle_plugin.h: descriptions that set their own sizes, and an answer
// that is an ordinary C++ value until the adapter pours it into the sink.
//
// Header only and no part of the contract: a plugin may be written without it. A calculation built
// on it knows notes, refusals and lines of working, but no sink and no host. No state, any thread.
#pragma once

#include "fettle_plugin.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <exception>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace fettle::plugin {

// ---- What a calculation gives back

struct Note {
    std::uint32_t level; // FETTLE_INFO, FETTLE_CAUTION, FETTLE_STOP, FETTLE_REACHED
    std::string text;
};

struct Account { // how an answer came about
    std::vector<std::string> working;
    std::vector<Note> notes;
};

struct Refusal {
    std::string field;    // input id, "" for none alone
    std::string sentence; // names field, value and what is accepted
};

template <class T>
using Outcome = std::variant<T, Refusal>;

template <class... Parts>
std::string line(const Parts&... parts) {
    std::string whole;
    ((whole += parts), ...);
    return whole;
}

// A number for a line of working: so many significant digits, plain notation wherever readable.
inline std::string figure(double value, int digits = 4) {
    char text[64];
    const double size = std::fabs(value);
    if (!std::isfinite(value) || size >= 1e12 || (size > 0 && size < 1e-6)) {
        std::snprintf(text, sizeof text, "%.*g", digits, value);
        return text;
    }
    const int before = size > 0 ? static_cast<int>(std::floor(std::log10(size))) + 1 : 1;
    if (before > digits) {
        const double grain = std::pow(10.0, before - digits);
        std::snprintf(text, sizeof text, "%.0f", std::round(value / grain) * grain);
    } else {
        std::snprintf(text, sizeof text, "%.*f", digits - before, value);
    }
    return text;
}

// ---- Descriptions

inline constexpr double kOpen = std::numeric_limits<double>::quiet_NaN(); // no bound

struct Field {
    const char* id;
    const char* label;
    const char* help;
    const char* quantity = "";
    const char* unit = "";
    const char* preset = "";
    double least = kOpen;
    double greatest = kOpen;
    bool required = false;
    const char* when = "";
    const char* continues = "";
    const char* day = "";
};

constexpr fettle_input input(std::uint32_t shape, const Field& field) {
    return {sizeof(fettle_input),
            shape,
            field.id,
            field.label,
            field.help,
            field.quantity,
            field.unit,
            field.preset,
            field.least,
            field.greatest,
            field.required ? 1u : 0u,
            0u,
            nullptr,
            0u,
            nullptr,
            field.when,
            field.continues,
            field.day};
}

template <std::size_t N>
constexpr fettle_input choice_input(const Field& field, const std::array<const char*, N>& choices) {
    fettle_input described = input(FETTLE_CHOICE, field);
    described.choice_count = N;
    described.choices = choices.data();
    return described;
}

template <std::size_t N>
constexpr fettle_input table_input(const Field& field,
                                   const std::array<const fettle_column*, N>& columns) {
    fettle_input described = input(FETTLE_TABLE, field);
    described.column_count = N;
    described.columns = columns.data();
    return described;
}

struct Shown {
    const char* id;
    const char* label;
    const char* quantity;
    const char* unit;
    const char* inch;
    std::uint32_t digits;
    const char* source;
    const char* hands_to = "";
};

constexpr fettle_output number_output(const Shown& shown) {
    return {sizeof(fettle_output), FETTLE_NUMBER, shown.id,   shown.label,
            shown.quantity,        shown.unit,    shown.inch, shown.digits,
            shown.source,          shown.hands_to};
}

struct Said { // an output in words
    const char* id;
    const char* label;
    const char* source;
    const char* hands_to = "";
};

constexpr fettle_output text_output(const Said& said) {
    return {sizeof(fettle_output), FETTLE_TEXT,  said.id, said.label, "", "", "", 0u,
            said.source,           said.hands_to};
}

constexpr fettle_column column(const char* id, const char* label, const char* quantity,
                               const char* unit, bool required, std::uint32_t digits) {
    return {sizeof(fettle_column), FETTLE_NUMBER, id, label,  quantity, unit,
            required ? 1u : 0u,    digits,        0u, nullptr};
}

constexpr fettle_column text_column(const char* id, const char* label) {
    return {sizeof(fettle_column), FETTLE_TEXT, id, label, "", "", 0u, 0u, 0u, nullptr};
}

// A column of words, one of `choices` in each cell.
template <std::size_t N>
constexpr fettle_column choice_column(const char* id, const char* label, bool required,
                                      const std::array<const char*, N>& choices) {
    fettle_column described = column(id, label, "count", "", required, 3);
    described.choice_count = N;
    described.choices = choices.data();
    return described;
}

template <std::size_t N>
constexpr fettle_table answer_table(const char* id, const char* label,
                                    const std::array<const fettle_column*, N>& columns) {
    return {sizeof(fettle_table), id, label, N, columns.data()};
}

constexpr fettle_axis axis(const char* label, const char* quantity, const char* unit,
                           const char* inch) {
    return {sizeof(fettle_axis), label, quantity, unit, inch};
}

constexpr fettle_chart chart(const char* id, const char* label, const fettle_axis& x,
                             const fettle_axis& y) {
    return {sizeof(fettle_chart), id, label, 0u, &x, &y};
}

// A piece drawn to scale in both directions.
constexpr fettle_chart drawing(const char* id, const char* label, const fettle_axis& x,
                               const fettle_axis& y) {
    return {sizeof(fettle_chart), id, label, 1u, &x, &y};
}

struct SheetWords {
    std::uint32_t revision;
    const char* id;
    const char* title;
    const char* answers;
    const char* caution;
    bool smooth = false;
};

using Compute = std::int32_t(const fettle_value* const*, std::uint32_t, const fettle_sink*);

// Lists come from pointers(); those a sheet does not have are left at std::array<..., 0>{}.
template <std::size_t I, std::size_t O, std::size_t T, std::size_t S, std::size_t C = 0>
constexpr fettle_sheet
sheet(const SheetWords& words, const std::array<const fettle_input*, I>& inputs,
      const std::array<const fettle_output*, O>& outputs,
      const std::array<const fettle_table*, T>& tables, const std::array<const char*, S>& sources,
      Compute* compute, const std::array<const fettle_chart*, C>& charts = {}) {
    return {sizeof(fettle_sheet),
            words.revision,
            words.id,
            words.title,
            words.answers,
            words.caution,
            I,
            inputs.data(),
            O,
            outputs.data(),
            T,
            tables.data(),
            S,
            sources.data(),
            compute,
            words.smooth ? 1u : 0u,
            C,
            C > 0 ? charts.data() : nullptr};
}

// The arrays of pointers the contract wants, from a constexpr array of static storage.
template <class T, std::size_t N>
constexpr std::array<const T*, N> pointers(const T (&items)[N]) {
    std::array<const T*, N> all{};
    for (std::size_t i = 0; i < N; ++i)
        all[i] = &items[i];
    return all;
}

// ---- Between values, sink and calculation

inline std::optional<double> number(const fettle_value* value) {
    if (value->given == 0 || !std::isfinite(value->number)) return std::nullopt;
    return value->number;
}

inline std::string text(const fettle_value* value) {
    return value->given != 0 && value->text != nullptr ? value->text : "";
}

inline std::vector<double> numbers(const fettle_value* value) { // of a LIST, or a TABLE row by row
    if (value->given == 0 || value->numbers == nullptr) return {};
    return {value->numbers, value->numbers + std::size_t{value->rows} * value->columns};
}

// Outputs that are not there are left out.
inline void give_output(const fettle_sink* sink, const char* id, std::optional<double> si) {
    if (si) sink->number(sink->context, id, *si);
}
inline void give_output(const fettle_sink* sink, const char* id, const std::string& words) {
    if (!words.empty()) sink->text(sink->context, id, words.c_str());
}

using Cell = std::variant<double, std::string>;

inline void give_row(const fettle_sink* sink, const char* table, const std::vector<Cell>& row) {
    std::vector<fettle_cell> cells;
    for (const Cell& cell : row) {
        const auto* words = std::get_if<std::string>(&cell);
        cells.push_back({sizeof(fettle_cell), words == nullptr ? std::get<double>(cell) : 0,
                         words == nullptr ? nullptr : words->c_str()});
    }
    sink->row(sink->context, table, cells.data(), static_cast<std::uint32_t>(cells.size()));
}

inline void give_series(const fettle_sink* sink, const char* chart, const std::string& name,
                        std::uint32_t look, const std::vector<fettle_point>& points) {
    // A host of the first edition draws none.
    if (!FETTLE_HOLDS(fettle_sink, sink, series) || sink->series == nullptr) return;
    sink->series(sink->context, chart, name.c_str(), look, points.data(),
                 static_cast<std::uint32_t>(points.size()));
}

inline void give_label(const fettle_sink* sink, const char* chart, fettle_point at,
                       const std::string& text) {
    if (!FETTLE_HOLDS(fettle_sink, sink, label) || sink->label == nullptr) return;
    sink->label(sink->context, chart, at.x, at.y, text.c_str());
}

inline void give_account(const fettle_sink* sink, const Account& account) {
    for (const std::string& working : account.working)
        sink->working(sink->context, working.c_str());
    for (const Note& note : account.notes)
        sink->note(sink->context, note.level, note.text.c_str());
}

inline std::int32_t refuse(const fettle_sink* sink, const Refusal& refusal) {
    sink->refuse(sink->context, refusal.field.c_str(), refusal.sentence.c_str());
    return FETTLE_REFUSED;
}

// Runs a compute so that nothing is thrown across the line; a want of memory becomes a refusal.
template <class Work>
std::int32_t guarded(std::uint32_t given, std::size_t described, const fettle_sink* sink,
                     Work work) {
    if (given != described) {
        return refuse(sink, {"", "The number of values does not match the sheet's inputs."});
    }
    try {
        return work();
    } catch (const std::exception& problem) {
        return refuse(sink, {"", line("The calculation ran out of room: ", problem.what(), ".")});
    }
}

// Ends a compute: a refusal as it is, or the answer poured out by `give`, its account behind it.
template <class Answer, class Give>
std::int32_t answered(const fettle_sink* sink, const Outcome<Answer>& outcome, Give give) {
    if (const auto* refusal = std::get_if<Refusal>(&outcome)) return refuse(sink, *refusal);
    const Answer& answer = std::get<Answer>(outcome);
    give(answer);
    give_account(sink, answer.account);
    return FETTLE_DONE;
}

} // namespace fettle::plugin
