#include "base/date.h"

#include "base/text.h"

#include <array>
#include <charconv>
#include <cstdio>
#include <ctime>

namespace fettle {
namespace {

using namespace std::chrono;

constexpr std::array<std::string_view, 12> kMonths = {
    "January", "February", "March",     "April",   "May",      "June",
    "July",    "August",   "September", "October", "November", "December"};

constexpr std::string_view kDaysAccepted =
    ": accepted are dates such as 2026-03-07, 7 Mar 2026, today and yesterday";
constexpr std::string_view kMomentsAccepted =
    ": accepted are, for example, 2026-03-07T19:42, 2026-03-07 19:42:05.250 and "
    "2026-03-07T19:42:05+01:00";

Failure invalid(std::string_view text, std::string_view why) {
    return {FailureKind::invalid, fettle::quoted(trim(text)) + std::string(why)};
}

Failure no_date(std::string_view text) {
    return invalid(text, std::string(" is no date") + std::string(kDaysAccepted));
}

Failure no_moment(std::string_view text) {
    return invalid(text, std::string(" is no date and time") + std::string(kMomentsAccepted));
}

// A cursor over the text; take_* move it only when they succeed.
struct Cursor {
    std::string_view rest;

    bool take(char c) {
        if (!rest.starts_with(c)) return false;
        rest.remove_prefix(1);
        return true;
    }
    // Exactly `width` digits.
    std::optional<int> take_number(std::size_t width) {
        const auto digits = rest.substr(0, width);
        if (digits.size() < width || digits.find_first_not_of("0123456789") != digits.npos) {
            return std::nullopt;
        }
        int value = 0;
        std::from_chars(digits.data(), digits.data() + width, value);
        rest.remove_prefix(width);
        return value;
    }
    std::string_view take_run(std::string_view of) {
        const auto run = rest.substr(0, rest.find_first_not_of(of));
        rest.remove_prefix(run.size());
        return run;
    }
};

std::string_view month_name(month m) {
    return kMonths[static_cast<unsigned>(m) - 1];
}

// Whether the calendar has that day; if not, says why.
Result<Day> existing_day(std::string_view text, int y, int m, int d) {
    if (y < 1) return invalid(text, " has no year: accepted are the years 0001 to 9999");
    if (m < 1 || m > 12) return invalid(text, " names no month: accepted are 01 to 12");
    const auto last = year{y} / month{static_cast<unsigned>(m)} / std::chrono::last;
    const auto days = static_cast<unsigned>(last.day());
    if (d < 1 || static_cast<unsigned>(d) > days) {
        return invalid(text, " is no date: " + std::string(month_name(last.month())) + " " +
                                 std::to_string(y) + " has " + std::to_string(days) + " days");
    }
    return Day{last.year(), last.month(), day{static_cast<unsigned>(d)}};
}

// YYYY-MM-DD at the front; not_found when it isn't there.
Result<Day> take_iso_day(Cursor& cursor, std::string_view text) {
    Cursor ahead = cursor;
    const auto y = ahead.take_number(4);
    if (!y || !ahead.take('-')) return Failure{FailureKind::not_found, ""};
    const auto m = ahead.take_number(2);
    if (!m || !ahead.take('-')) return Failure{FailureKind::not_found, ""};
    const auto d = ahead.take_number(2);
    if (!d) return Failure{FailureKind::not_found, ""};
    cursor = ahead;
    return existing_day(text, *y, *m, *d);
}

// 1 to 12 for a month's name, its first three letters, or "Sept"; 0 for anything else.
int month_of(std::string_view name) {
    for (std::size_t m = 0; m < kMonths.size(); ++m) {
        const auto full = kMonths[m];
        if (same_but_for_case(name, full) || same_but_for_case(name, full.substr(0, 3)) ||
            (m == 8 && same_but_for_case(name, "Sept"))) {
            return static_cast<int>(m) + 1;
        }
    }
    return 0;
}

// "7 Mar 2026", "07 March 2026".
Result<Day> day_in_words(std::string_view text) {
    Cursor cursor{trim(text)};
    const auto days = cursor.take_run("0123456789");
    cursor.take_run(" ");
    const auto name = cursor.rest.substr(0, cursor.rest.find_first_of(". "));
    cursor.rest.remove_prefix(name.size());
    cursor.take('.');
    cursor.take_run(" ");
    const int m = month_of(name);
    const auto y = cursor.take_number(4);
    if (days.empty() || days.size() > 2 || m == 0 || !y || !cursor.rest.empty()) {
        return no_date(text);
    }
    return existing_day(text, *y, m, *Cursor{days}.take_number(days.size()));
}

std::tm local_clock(std::time_t seconds) {
    std::tm clock{};
    localtime_r(&seconds, &clock);
    return clock;
}

Day day_of(const std::tm& clock) {
    return Day{year{clock.tm_year + 1900}, month{static_cast<unsigned>(clock.tm_mon + 1)},
               day{static_cast<unsigned>(clock.tm_mday)}};
}

// Digits behind the point, cut to milliseconds: ".25" is 250, ".1239" is 123.
milliseconds fraction_of(std::string_view digits) {
    std::string three(digits.substr(0, 3));
    three.resize(3, '0');
    return milliseconds{*Cursor{three}.take_number(3)};
}

// HH:MM[:SS[.fff]] into `moment`; false when the text isn't that or the clock has no such time.
bool take_clock(Cursor& cursor, Moment& moment) {
    const auto h = cursor.take_number(2);
    if (!h || !cursor.take(':')) return false;
    const auto m = cursor.take_number(2);
    if (!m || *h > 23 || *m > 59) return false;
    moment.local += hours{*h} + minutes{*m};
    if (!cursor.take(':')) return true;
    const auto s = cursor.take_number(2);
    if (!s || *s > 59) return false;
    moment.local += seconds{*s};
    if (!cursor.take('.') && !cursor.take(',')) return true;
    const auto digits = cursor.take_run("0123456789");
    if (digits.empty()) return false;
    moment.has_subsecond = true;
    moment.local += fraction_of(digits);
    return true;
}

// Z, +01:00, +0100 or +01; nothing at all is well too.
bool take_offset(Cursor& cursor, Moment& moment) {
    if (cursor.rest.empty()) return true;
    if (cursor.take('Z')) {
        moment.offset = minutes{0};
        return true;
    }
    const bool west = cursor.take('-');
    if (!west && !cursor.take('+')) return false;
    const auto h = cursor.take_number(2);
    if (!h) return false;
    int m = 0;
    if (!cursor.rest.empty()) {
        cursor.take(':');
        const auto read = cursor.take_number(2);
        if (!read) return false;
        m = *read;
    }
    // Clocks on land run from UTC-12:00 to UTC+14:00.
    const minutes offset = (west ? -1 : 1) * (hours{*h} + minutes{m});
    if (m > 59 || offset < -hours{12} || offset > hours{14}) return false;
    moment.offset = offset;
    return true;
}

std::string written(const char* format, auto... numbers) {
    char text[64];
    std::snprintf(text, sizeof text, format, numbers...);
    return text;
}

hh_mm_ss<milliseconds> clock_of(const Moment& moment) {
    return hh_mm_ss{moment.local - floor<days>(moment.local)};
}

} // namespace

Day today() {
    return day_of(local_clock(system_clock::to_time_t(system_clock::now())));
}

std::string to_iso(Day day) {
    return written("%04d-%02u-%02u", static_cast<int>(day.year()),
                   static_cast<unsigned>(day.month()), static_cast<unsigned>(day.day()));
}

std::string to_words(Day day) {
    return std::to_string(static_cast<unsigned>(day.day())) + " " +
           std::string(month_name(day.month()).substr(0, 3)) + " " +
           written("%04d", static_cast<int>(day.year()));
}

Result<Day> parse_day(std::string_view text) {
    const auto plain = trim(text);
    if (plain.empty()) return no_date(text);
    if (same_but_for_case(plain, "today")) return today();
    if (same_but_for_case(plain, "yesterday")) return Day{sys_days{today()} - days{1}};
    Cursor cursor{plain};
    auto iso = take_iso_day(cursor, text);
    if (iso) return cursor.rest.empty() ? iso : no_date(text);
    if (iso.failure().kind == FailureKind::invalid) return iso;
    return day_in_words(text);
}

Day Moment::day() const {
    return Day{floor<days>(local)};
}

Moment now() {
    const auto utc = floor<milliseconds>(system_clock::now());
    const std::tm clock = local_clock(system_clock::to_time_t(floor<seconds>(utc)));
    const seconds offset{clock.tm_gmtoff};
    Moment moment;
    moment.offset = floor<minutes>(offset);
    moment.has_subsecond = true;
    moment.local = local_time<milliseconds>{utc.time_since_epoch() + *moment.offset};
    return moment;
}

std::string to_iso(const Moment& moment) {
    const auto clock = clock_of(moment);
    std::string text =
        to_iso(moment.day()) + written("T%02d:%02d:%02d", static_cast<int>(clock.hours().count()),
                                       static_cast<int>(clock.minutes().count()),
                                       static_cast<int>(clock.seconds().count()));
    if (moment.has_subsecond) {
        text += written(".%03d", static_cast<int>(clock.subseconds().count()));
    }
    if (moment.offset) {
        const int east = static_cast<int>(moment.offset->count());
        text +=
            written("%c%02d:%02d", east < 0 ? '-' : '+', std::abs(east) / 60, std::abs(east) % 60);
    }
    return text;
}

std::string to_words(const Moment& moment) {
    const auto clock = clock_of(moment);
    return to_words(moment.day()) + written(", %02d:%02d", static_cast<int>(clock.hours().count()),
                                            static_cast<int>(clock.minutes().count()));
}

Result<Moment> parse_moment(std::string_view text) {
    Cursor cursor{trim(text)};
    const auto day = take_iso_day(cursor, text);
    if (!day && day.failure().kind == FailureKind::invalid) return day.failure();
    if (!day || (!cursor.take('T') && !cursor.take(' '))) return no_moment(text);
    Moment moment;
    moment.local = local_days{*day};
    if (!take_clock(cursor, moment) || !take_offset(cursor, moment) || !cursor.rest.empty()) {
        return no_moment(text);
    }
    return moment;
}

} // namespace fettle
