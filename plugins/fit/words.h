// What the sheets of this plugin say alike: quantities in metric with inch beside them, and choices
// by name. Header only, SI in.
#pragma once

#include "picture.hpp"
#include "spoken.hpp"

#include <array>
#include <numbers>
#include <optional>
#include <string>
#include <string_view>
#include <tuple>
#include <vector>

namespace fettle::fit {

using plugin::Account;
using plugin::figure;
using plugin::line;
using plugin::Outcome;
using plugin::percent;
using plugin::Picture;
using plugin::Refusal;
using plugin::Trace;

inline constexpr double kInch = 0.0254;                             // m
inline constexpr double kThou = kInch / 1000;                       // m
inline constexpr double kMicron = 1e-6;                             // m
inline constexpr double kMilli = 1e-3;                              // m
inline constexpr double kPoundForce = 4.4482216152605;              // N
inline constexpr double kKsi = 1e3 * kPoundForce / (kInch * kInch); // Pa
inline constexpr double kFreezing = 273.15;                         // K
inline constexpr double kPi = std::numbers::pi;

// A number with its sign shown: "+21", "-7.5", "0".
inline std::string signed_plain(double value, int decimals) {
    char text[64];
    std::snprintf(text, sizeof text, "%+.*f", decimals, value);
    std::string plain = text;
    if (plain.find('.') != std::string::npos) {
        plain.erase(plain.find_last_not_of('0') + 1);
        if (plain.back() == '.') plain.pop_back();
    }
    return plain == "+0" || plain == "-0" ? "0" : plain;
}
inline std::string fixed(double value, int decimals) {
    char text[64];
    std::snprintf(text, sizeof text, "%.*f", decimals, value);
    return text;
}

// "25.021 mm (0.98508 in)": a size as a micrometer reads it.
inline std::string size_words(double metres) {
    return line(fixed(metres / kMilli, 3), " mm (", fixed(metres / kInch, 5), " in)");
}
// "+21 µm (+0.83 thou)": a deviation from a size.
inline std::string deviation_words(double metres) {
    return line(signed_plain(metres / kMicron, 1), " µm (", signed_plain(metres / kThou, 2),
                " thou)");
}
// "21 µm (0.83 thou)": a tolerance, a play, an interference.
inline std::string small_words(double metres) {
    const auto plain = [](double value, int decimals) {
        std::string text = signed_plain(value, decimals);
        return text.front() == '+' ? text.substr(1) : text;
    };
    return line(plain(metres / kMicron, 1), " µm (", plain(metres / kThou, 2), " thou)");
}
inline std::string length_words(double metres) {
    return line(figure(metres / kMilli, 4), " mm (", figure(metres / kInch, 4), " in)");
}
inline std::string mm(double metres) {
    return plugin::mm(metres, 5);
}
inline std::string stress_words(double pascals) {
    return line(plugin::mpa(pascals), " (", figure(pascals / kKsi, 3), " ksi)");
}
inline std::string force_words(double newtons) {
    return line(figure(newtons / 1e3, 3), " kN (", figure(newtons / kPoundForce, 3), " lbf)");
}
inline std::string torque_words(double torque) {
    return line(figure(torque, 3), " N·m (", figure(torque / (kPoundForce * 12 * kInch), 3),
                " lbf·ft)");
}
// "120 °C (248 °F)", to the degree.
inline std::string heat_words(double kelvin) {
    const double celsius = kelvin - kFreezing;
    return line(fixed(celsius, 0), " °C (", fixed(celsius * 1.8 + 32, 0), " °F)");
}
inline std::string rise_words(double kelvin) {
    return line(figure(kelvin, 3), " K (", figure(kelvin * 1.8, 3), " °F)");
}
inline std::string expansion_words(double per_kelvin) {
    return line(figure(per_kelvin * 1e6, 3), "e-6/K");
}

// What was typed, cut to a length that fits a sentence.
inline std::string in_quotes(std::string_view typed) {
    return line("\"", std::string(typed.substr(0, 32)), "\"");
}

// The names of a constant list of rows, as a choice wants them.
template <class Rows>
constexpr auto named(const Rows& rows) {
    std::array<const char*, std::tuple_size_v<Rows>> names{};
    for (std::size_t i = 0; i < names.size(); ++i)
        names[i] = rows[i].name;
    return names;
}

// The row of that name; a blank takes the first; nullptr for an unknown one.
template <class Rows>
constexpr auto row_named(const Rows& rows, std::string_view name) -> decltype(&rows[0]) {
    if (name.empty()) return &rows[0];
    for (const auto& row : rows) {
        if (name == row.name) return &row;
    }
    return nullptr;
}

// Whether it is one of those words, or blank.
template <std::size_t N>
constexpr bool one_of(const std::array<const char*, N>& words, std::string_view typed) {
    if (typed.empty()) return true;
    for (const char* word : words) {
        if (typed == word) return true;
    }
    return false;
}

inline Refusal unknown_word(const char* field, const std::string& typed) {
    return {field, line(field, ": ", in_quotes(typed), " is none of the words offered.")};
}

inline void tell(Account& account, std::uint32_t level, const std::string& text) {
    account.notes.push_back({level, text});
}

} // namespace fettle::fit
