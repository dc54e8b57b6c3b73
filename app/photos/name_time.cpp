#include "photos/name_time.h"

namespace fettle::photos {
namespace {

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

// Reads numbers of a fixed count of digits, with marks of separation between them.
class Reading {
  public:
    explicit Reading(std::string_view text) : text_(text) {}

    std::optional<int> number(std::size_t digits) {
        if (text_.size() < digits) return {};
        int value = 0;
        for (char c : text_.substr(0, digits)) {
            if (!is_digit(c)) return {};
            value = value * 10 + (c - '0');
        }
        text_.remove_prefix(digits);
        return value;
    }
    void skip(std::string_view marks, std::size_t most) {
        for (; most > 0 && !text_.empty() && marks.find(text_[0]) != std::string_view::npos; --most)
            text_.remove_prefix(1);
    }

  private:
    std::string_view text_;
};

std::optional<Day> read_day(Reading& reading) {
    constexpr std::string_view kMarks = "-_. ";
    const auto year = reading.number(4);
    reading.skip(kMarks, 1);
    const auto month = reading.number(2);
    reading.skip(kMarks, 1);
    const auto day = reading.number(2);
    if (!year || !month || !day || *year < 1990 || *year > 2099) return {};
    const Day found{std::chrono::year(*year), std::chrono::month(unsigned(*month)),
                    std::chrono::day(unsigned(*day))};
    return found.ok() ? std::optional(found) : std::nullopt;
}

std::optional<std::chrono::seconds> read_clock(Reading& reading) {
    reading.skip("-_. Tat", 4); // "2026-03-07 at 19.42.05"
    const auto hour = reading.number(2);
    reading.skip("-_.:h", 1);
    const auto minute = reading.number(2);
    reading.skip("-_.:m", 1);
    const auto second = reading.number(2);
    if (!hour || !minute || !second || *hour > 23 || *minute > 59 || *second > 59) return {};
    return std::chrono::hours(*hour) + std::chrono::minutes(*minute) +
           std::chrono::seconds(*second);
}

} // namespace

std::optional<Moment> time_in_name(std::string_view name) {
    for (std::size_t at = 0; at < name.size(); ++at) {
        if (!is_digit(name[at]) || (at > 0 && is_digit(name[at - 1]))) continue;
        Reading reading(name.substr(at));
        const auto day = read_day(reading);
        if (!day) continue;
        const auto clock = read_clock(reading);
        Moment moment;
        moment.local = std::chrono::local_days(*day) + clock.value_or(std::chrono::hours(12));
        return moment;
    }
    return {};
}

std::optional<Counted> counted_name(std::string_view name) {
    if (const auto dot = name.rfind('.'); dot != std::string_view::npos && dot > 0)
        name = name.substr(0, dot);
    auto start = name.size();
    while (start > 0 && is_digit(name[start - 1]))
        --start;
    const auto digits = name.substr(start);
    if (digits.empty() || digits.size() > 15) return {};
    Counted counted{std::string(name.substr(0, start)), 0};
    for (char digit : digits)
        counted.number = counted.number * 10 + (digit - '0');
    return counted;
}

} // namespace fettle::photos
