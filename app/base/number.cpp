#include "base/number.h"

#include "base/quantity.h"
#include "base/text.h"
#include "base/typed_text.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>

namespace fettle {
namespace {

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

Failure invalid(std::string sentence) {
    return {FailureKind::invalid, std::move(sentence)};
}

// A cursor over the text; take_* move it only when they succeed.
struct Cursor {
    std::string_view rest;

    std::string_view take_digits() {
        const auto end = std::ranges::find_if_not(rest, is_digit);
        const auto digits = rest.substr(0, static_cast<std::size_t>(end - rest.begin()));
        rest.remove_prefix(digits.size());
        return digits;
    }
    bool take(char c) {
        if (!rest.starts_with(c)) return false;
        rest.remove_prefix(1);
        return true;
    }
    void skip_blanks() {
        while (take(' ')) {
        }
    }
};

struct Fraction {
    std::string_view over, under;
};

// "5/16", blanks around the slash allowed.
std::optional<Fraction> take_fraction(Cursor& cursor) {
    Cursor ahead = cursor;
    Fraction fraction;
    fraction.over = ahead.take_digits();
    ahead.skip_blanks();
    if (fraction.over.empty() || !ahead.take('/')) return std::nullopt;
    ahead.skip_blanks();
    fraction.under = ahead.take_digits();
    if (fraction.under.empty()) return std::nullopt;
    cursor = ahead;
    return fraction;
}

Result<double> to_double(std::string_view plain) {
    double value = 0;
    const auto [end, error] = std::from_chars(plain.data(), plain.data() + plain.size(), value);
    if (error == std::errc::result_out_of_range) {
        return invalid(fettle::quoted(plain) +
                       " is outside the numbers that can be worked with: accepted "
                       "are sizes from 1e-300 to 1e300");
    }
    return value;
}

struct Unsigned {
    double value = 0;
    double last_place = 0;
};

Result<Unsigned> value_of(const Fraction& fraction, std::string_view whole) {
    const auto over = to_double(fraction.over);
    const auto under = to_double(fraction.under);
    const auto before = to_double(whole.empty() ? "0" : whole);
    for (const auto* part : {&over, &under, &before}) {
        if (!part->ok()) return part->failure();
    }
    const std::string written = (whole.empty() ? "" : std::string(whole) + " ") +
                                std::string(fraction.over) + "/" + std::string(fraction.under);
    if (*under == 0) {
        return invalid(fettle::quoted(written) +
                       " divides by zero: accepted are fractions such as 5/16");
    }
    if (!whole.empty() && *over >= *under) {
        return invalid(fettle::quoted(written) +
                       " has a fraction of one or more behind a whole number: "
                       "accepted is, for example, 1 3/4");
    }
    return Unsigned{*before + *over / *under, 0};
}

// Digits with points and commas, as they stand: "1,234.5", ".5", "12".
std::string_view take_marked_digits(Cursor& cursor) {
    std::size_t length = 0;
    const std::string_view text = cursor.rest;
    auto digit_at = [&](std::size_t i) { return i < text.size() && is_digit(text[i]); };
    for (; length < text.size(); ++length) {
        const char c = text[length];
        // A comma without a digit behind it belongs to what follows: "8 lb, 4 oz", "5, 6".
        if (is_digit(c) || c == '.' || (c == ',' && digit_at(length + 1))) continue;
        break;
    }
    const auto marked = text.substr(0, length);
    if (std::ranges::none_of(marked, is_digit)) return {};
    cursor.rest.remove_prefix(length);
    return marked;
}

// "1,234,567": one to three digits, then groups of three.
bool in_thousands(std::string_view digits, char mark) {
    const auto groups = split(digits, mark);
    return !groups.front().empty() && groups.front().size() <= 3 &&
           std::all_of(groups.begin() + 1, groups.end(), [](auto g) { return g.size() == 3; });
}

std::string without(std::string_view text, char mark) {
    std::string kept(text);
    std::erase(kept, mark);
    return kept;
}

Failure unclear_marks(std::string_view marked) {
    return invalid(fettle::quoted(marked) +
                   " is no number: accepted are 1234.5, 1234,5 and 1,234.5");
}

// Decides what points and commas mean; gives the digits with at most one point.
Result<std::string> settle_marks(std::string_view marked) {
    const auto points = std::ranges::count(marked, '.');
    const auto commas = std::ranges::count(marked, ',');
    if (commas == 0) {
        if (points > 1) return unclear_marks(marked);
        return std::string(marked);
    }
    if (points == 0 && commas == 1) {
        const auto comma = marked.find(',');
        const bool three_behind = marked.size() - comma - 1 == 3;
        if (three_behind && comma >= 1 && comma <= 3 && marked[0] != '0') {
            std::string decimal(marked);
            decimal[comma] = '.';
            return invalid(fettle::quoted(marked) + " can be read as " + decimal + " or as " +
                           without(marked, ',') + ": write one of these");
        }
        std::string decimal(marked);
        decimal[comma] = '.';
        return decimal;
    }
    const char last = marked[marked.find_last_of(".,")];
    const char thousands = points == 0 || last == '.' ? ',' : '.';
    const auto end = points == 0 ? std::string_view::npos : marked.find(last);
    if ((points > 0 && std::ranges::count(marked, last) > 1) ||
        !in_thousands(marked.substr(0, end), thousands)) {
        return unclear_marks(marked);
    }
    std::string decimal = without(marked, thousands);
    std::ranges::replace(decimal, ',', '.');
    return decimal;
}

// "e-6", "E5", or "*10^-6": the power of ten behind a decimal, as "e-6"; "" when there is none.
std::string take_exponent(Cursor& cursor) {
    Cursor ahead = cursor;
    const bool letter = ahead.take('e') || ahead.take('E');
    if (!letter) {
        ahead.skip_blanks();
        if (!ahead.take('*')) return {};
        ahead.skip_blanks();
        if (!ahead.rest.starts_with("10")) return {};
        ahead.rest.remove_prefix(2);
        // Raised digits have become plain ones: "10⁻⁶" is "10-6", and "10⁶" would be "106".
        if (!ahead.take('^') && !ahead.rest.starts_with('-')) return {};
    }
    std::string exponent = "e";
    if (ahead.take('-')) {
        exponent += '-';
    } else {
        ahead.take('+');
    }
    const auto digits = ahead.take_digits();
    if (digits.empty()) return {};
    cursor = ahead;
    return exponent + std::string(digits);
}

// A fraction behind a whole number: " 3/4" or "-3/4".
std::optional<Fraction> take_fraction_behind(Cursor& cursor) {
    Cursor ahead = cursor;
    if (!ahead.take('-')) {
        if (!ahead.rest.starts_with(' ')) return std::nullopt;
        ahead.skip_blanks();
    }
    auto fraction = take_fraction(ahead);
    if (fraction) cursor = ahead;
    return fraction;
}

// "0.3125" -> 0.0001; "1.20e3" -> 10; whole numbers claim no place.
double last_place_of(std::string_view decimal, std::string_view exponent) {
    const auto point = decimal.find('.');
    if (point == std::string_view::npos) return 0;
    const auto places = static_cast<int>(decimal.size() - point - 1);
    if (places == 0) return 0;
    int tens = 0;
    if (!exponent.empty())
        std::from_chars(exponent.data() + 1, exponent.data() + exponent.size(), tens);
    return std::pow(10.0, tens - places);
}

Result<Unsigned> take_unsigned(Cursor& cursor) {
    Cursor ahead = cursor;
    if (const auto fraction = take_fraction(ahead)) {
        cursor = ahead;
        return value_of(*fraction, "");
    }
    const auto marked = take_marked_digits(ahead);
    if (marked.empty()) return Failure{FailureKind::not_found, ""};
    if (std::ranges::all_of(marked, is_digit)) {
        if (const auto fraction = take_fraction_behind(ahead)) {
            cursor = ahead;
            return value_of(*fraction, marked);
        }
    }
    auto decimal = settle_marks(marked);
    if (!decimal) return decimal.failure();
    const std::string exponent = take_exponent(ahead);
    cursor = ahead;
    const auto value = to_double(*decimal + exponent);
    if (!value) return value.failure();
    return Unsigned{*value, last_place_of(*decimal, exponent)};
}

} // namespace

Result<ScannedNumber> scan_number(std::string_view plain) {
    Cursor cursor{plain};
    const bool negative = cursor.take('-');
    if (!negative) cursor.take('+');
    const auto size = take_unsigned(cursor);
    if (!size) return size.failure();
    const double value = negative && size->value != 0 ? -size->value : size->value;
    return ScannedNumber{value, size->last_place, cursor.rest};
}

Result<double> parse_number(std::string_view text) {
    const std::string plain = plain_typed(text);
    const auto scanned = scan_number(trim(plain));
    if (scanned && trim(scanned->rest).empty()) return scanned->value;
    if (!scanned && scanned.failure().kind == FailureKind::invalid) return scanned.failure();
    return invalid(fettle::quoted(text) +
                   " is no number: accepted are, for example, 3, -0.25, 1,5, 5/16, 1 3/4 and 1e3");
}

} // namespace fettle
