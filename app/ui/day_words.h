// Days as the screen says them, with the day of the week.
#pragma once

#include "base/date.h"

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

} // namespace fettle::ui
