// Quantities as the lines of working and the notes of the plugins about threads say them: metric,
// and inch beside it where a result is meant. Header only, SI in, no state.
#pragma once

#include "spoken.hpp"

#include <array>
#include <cstddef>
#include <numbers>
#include <string>
#include <string_view>
#include <tuple>

namespace fettle::screw {

inline constexpr double kInch = 0.0254;                             // m
inline constexpr double kPoundForce = 4.4482216152605;              // N
inline constexpr double kKsi = 1e3 * kPoundForce / (kInch * kInch); // Pa
inline constexpr double kPi = std::numbers::pi;

using plugin::degrees;
using plugin::mm;
using plugin::mpa;
using plugin::percent;
using plugin::plain_number;

inline std::string inches(double metres, int digits = 3) {
    return plugin::line(plugin::figure(metres / kInch, digits), " in");
}
inline std::string mm2(double area) {
    return plugin::line(plugin::figure(area * 1e6, 3), " mm²");
}
inline std::string kn(double force) {
    return plugin::line(plugin::figure(force / 1e3, 3), " kN");
}
inline std::string nm(double torque) {
    return plugin::line(plugin::figure(torque, 3), " N·m");
}

// A result in both: "12.3 kN (2770 lbf)".
inline std::string both_lengths(double metres) {
    return plugin::line(mm(metres, 3), " (", inches(metres), ")");
}
inline std::string both_areas(double area) {
    return plugin::line(mm2(area), " (", plugin::figure(area / (kInch * kInch), 3), " in²)");
}
inline std::string both_forces(double force) {
    return plugin::line(kn(force), " (", plugin::figure(force / kPoundForce, 3), " lbf)");
}
inline std::string both_stresses(double pascals) {
    return plugin::line(mpa(pascals), " (", plugin::figure(pascals / kKsi, 3), " ksi)");
}
inline std::string both_torques(double torque) {
    return plugin::line(nm(torque), " (", plugin::figure(torque / (kPoundForce * 12 * kInch), 3),
                        " lbf·ft)");
}

// What was typed, cut to a length that fits a sentence.
inline std::string in_quotes(std::string_view typed) {
    return plugin::line("\"", std::string(typed.substr(0, 32)), "\"");
}

// The names of a constant list of rows, as a choice wants them.
template <class Rows>
constexpr auto named(const Rows& rows) {
    std::array<const char*, std::tuple_size_v<Rows>> names{};
    for (std::size_t i = 0; i < names.size(); ++i)
        names[i] = rows[i].name;
    return names;
}

// "a, b, c" from the names of a list of rows with a member `name`.
template <class Rows>
std::string names_of(const Rows& rows) {
    std::string names;
    for (const auto& row : rows)
        names += plugin::line(names.empty() ? "" : ", ", row.name);
    return names;
}

} // namespace fettle::screw
