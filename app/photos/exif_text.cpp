#include "photos/exif_text.h"

#include "base/text.h"

#include <charconv>
#include <vector>

namespace fettle::photos {
namespace {

using std::chrono::milliseconds;
using std::chrono::minutes;

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

std::string_view without_padding(std::string_view text) {
    return trim(text.substr(0, text.find('\0')));
}

// Exactly `count` digits at `at`.
std::optional<int> digits(std::string_view text, std::size_t at, std::size_t count) {
    if (at + count > text.size()) return {};
    int value = 0;
    for (char c : text.substr(at, count)) {
        if (!is_digit(c)) return {};
        value = value * 10 + (c - '0');
    }
    return value;
}

std::optional<milliseconds> subsecond_of(std::string_view text) {
    text = without_padding(text);
    if (text.empty()) return {};
    int value = 0;
    int place = 100;
    for (char c : text) {
        if (!is_digit(c)) return {};
        value += (c - '0') * place;
        place /= 10;
    }
    return milliseconds(value);
}

std::optional<minutes> offset_of(std::string_view text) {
    text = without_padding(text);
    if (text == "Z") return minutes(0);
    if (text.size() != 6 || (text[0] != '+' && text[0] != '-') || text[3] != ':') return {};
    const auto hour = digits(text, 1, 2), minute = digits(text, 4, 2);
    if (!hour || !minute || *hour > 14 || *minute > 59) return {};
    const minutes offset(*hour * 60 + *minute);
    return text[0] == '-' ? -offset : offset;
}

std::optional<double> number(std::string_view text) {
    text = without_padding(text);
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || end != text.data() + text.size()) return {};
    return value;
}

} // namespace

std::optional<Moment> moment_of_exif(std::string_view time, std::string_view subsecond,
                                     std::string_view offset) {
    time = without_padding(time);
    constexpr std::size_t kFull = 19; // "2011:08:07 19:22:57"
    if (time.size() < kFull) return {};
    const auto y = digits(time, 0, 4), mo = digits(time, 5, 2), d = digits(time, 8, 2);
    const auto h = digits(time, 11, 2), mi = digits(time, 14, 2), s = digits(time, 17, 2);
    if (!y || !mo || !d || !h || !mi || !s) return {};
    const Day day{std::chrono::year(*y), std::chrono::month(*mo), std::chrono::day(*d)};
    if (*y == 0 || !day.ok() || *h > 23 || *mi > 59 || *s > 59) return {};

    Moment moment;
    moment.local = std::chrono::local_days(day) + std::chrono::hours(*h) + minutes(*mi) +
                   std::chrono::seconds(*s);
    if (const auto fraction = subsecond_of(subsecond)) {
        moment.local += *fraction;
        moment.has_subsecond = true;
    }
    moment.offset = offset_of(offset);
    return moment;
}

std::optional<double> degrees_of_text(std::string_view text) {
    text = without_padding(text);
    std::vector<std::string> pieces;
    for (const auto piece : split(text, ','))
        pieces.emplace_back(piece);
    if (pieces.size() == 6) {
        for (std::size_t at = 0; at < 3; ++at)
            pieces[at] = pieces[2 * at] + '.' + pieces[2 * at + 1];
        pieces.resize(3);
    }
    if (pieces.size() != 3) return {};
    const auto degrees = number(pieces[0]), minute = number(pieces[1]), second = number(pieces[2]);
    if (!degrees || !minute || !second) return {};
    return *degrees + *minute / 60 + *second / 3600;
}

std::string exif_string(std::string_view text) {
    return safe_utf8(without_padding(text));
}

} // namespace fettle::photos
