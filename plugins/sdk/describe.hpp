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
#include <initializer_list>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace fettle::plugin {

// ---- What a calculation gives back

struct Note {
    std::uint32_t level; // FETTLE_INFO, FETTLE_CAUTION, FETTLE_STOP
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
};

constexpr fettle_input input(std::uint32_t shape, const Field& field) {
    return {sizeof(fettle_input),     shape,      field.id,     field.label, field.help,
            field.quantity,           field.unit, field.preset, field.least, field.greatest,
            field.required ? 1u : 0u, 0u,         nullptr,      0u,          nullptr};
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
};

constexpr fettle_output number_output(const Shown& shown) {
    return {sizeof(fettle_output), FETTLE_NUMBER, shown.id,   shown.label,
            shown.quantity,        shown.unit,    shown.inch, shown.digits,
            shown.source};
}

constexpr fettle_column column(const char* id, const char* label, const char* quantity,
                               const char* unit, bool required, std::uint32_t digits) {
    return {sizeof(fettle_column), FETTLE_NUMBER, id, label, quantity, unit,
            required ? 1u : 0u,    digits};
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

inline void give_row(const fettle_sink* sink, const char* table,
                     std::initializer_list<double> numbers) {
    std::vector<fettle_cell> cells;
    for (const double number : numbers)
        cells.push_back({sizeof(fettle_cell), number, nullptr});
    sink->row(sink->context, table, cells.data(), static_cast<std::uint32_t>(cells.size()));
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

} // namespace fettle::plugin
