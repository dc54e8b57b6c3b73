// Quantities as a line of working or a note says them. Optional as describe.hpp is, and no part of
// the contract. SI in, metric words out.
#pragma once

#include "describe.hpp"

#include <numbers>

namespace fettle::plugin {

inline std::string mm(double metres, int digits = 4) {
    return line(figure(metres * 1e3, digits), " mm");
}
inline std::string mpa(double pascals) {
    return line(figure(pascals / 1e6, 3), " MPa");
}
inline std::string percent(double share, int digits = 3) {
    return line(figure(share * 100, digits), " %");
}
inline std::string degrees(double radians) {
    return line(figure(radians * 180 / std::numbers::pi, 3), "°");
}

// So many digits at most, no zeros behind: "24", "4.5", "0.75".
inline std::string plain_number(double value, int digits = 6) {
    std::string text = figure(value, digits);
    if (text.find('.') == std::string::npos) return text;
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text;
}

} // namespace fettle::plugin
