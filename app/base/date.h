// Calendar dates and moments in ISO 8601, and how the screen says them.
#pragma once

#include "base/result.h"

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace fettle {

// A day without a clock. Text form YYYY-MM-DD.
using Day = std::chrono::year_month_day;

Day today();                   // in the local time zone
std::string to_iso(Day day);   // "2026-03-07"
std::string to_words(Day day); // "7 Mar 2026"
// ISO 8601 calendar dates, "7 Mar 2026", "7 March 2026", "today", "yesterday". 30 Feb is refused.
Result<Day> parse_day(std::string_view text);

// A moment as a camera or a clock gave it: local time, sub-second if known, offset if known.
// Text form "2026-03-07T19:42:05.250+01:00", sub-second and offset only when known.
struct Moment {
    std::chrono::local_time<std::chrono::milliseconds> local{};
    bool has_subsecond = false;
    std::optional<std::chrono::minutes> offset; // east of UTC

    Day day() const;
    bool operator==(const Moment&) const = default;
};

Moment now(); // local time with its offset, to the millisecond
std::string to_iso(const Moment& moment);
std::string to_words(const Moment& moment); // "7 Mar 2026, 19:42"
Result<Moment> parse_moment(std::string_view text);

} // namespace fettle
