// Days and figures as the screen says them: "Saturday 7 Mar 2026", "1.5".
#pragma once

#include "base/date.h"
#include "base/quantity.h"

#include <array>
#include <string>
#include <string_view>

namespace fettle::ui {

inline std::string_view weekday_of(Day day) {
    static constexpr std::array<std::string_view, 7> kNames = {
        "Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"};
    return kNames[std::chrono::weekday(std::chrono::sys_days(day)).c_encoding()];
}

inline std::string with_weekday(Day day) { // "Saturday 7 Mar 2026"
    return std::string(weekday_of(day)) + " " + to_words(day);
}

// A figure as a person would say it: 4, 1.5, 11; three digits at most.
inline std::string said_number(double value) {
    std::string said = format_number(value, 3);
    if (said.find('.') == std::string::npos) return said;
    while (said.ends_with('0'))
        said.pop_back();
    if (said.ends_with('.')) said.pop_back();
    return said;
}

} // namespace fettle::ui
