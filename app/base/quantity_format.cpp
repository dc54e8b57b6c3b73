#include "base/quantity.h"
#include "base/unit_spellings.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>

namespace fettle {
namespace {

// Plain notation from 0.0001 up to, but not including, 10000000.
constexpr int kLeastPlainPower = -4;
constexpr int kMostPlainPower = 6;
constexpr double kMostCounted = 1e15;

// A value rounded to so many significant digits: 0.d1d2d3... * 10^(power+1).
struct Rounded {
    bool negative;
    std::string digits;
    int power; // of the first digit
};

Rounded round_to(double value, int digits) {
    char text[40];
    std::snprintf(text, sizeof text, "%.*e", digits - 1, std::fabs(value));
    const std::string_view written = text;
    const auto e = written.find('e');
    Rounded rounded{std::signbit(value), std::string(written.substr(0, e)),
                    std::atoi(text + e + 1)};
    std::erase(rounded.digits, '.');
    return rounded;
}

std::string in_plain_notation(const std::string& digits, int power) {
    if (power < 0) {
        std::string small("0.");
        small.append(static_cast<std::size_t>(-power - 1), '0');
        return small += digits;
    }
    const auto whole = static_cast<std::size_t>(power) + 1;
    std::string plain = digits.substr(0, whole);
    plain.append(whole - plain.size(), '0');
    if (digits.size() > whole) plain.append(1, '.').append(digits, whole);
    return plain;
}

std::string with_exponent(const std::string& digits, int power) {
    std::string scientific = digits.substr(0, 1);
    if (digits.size() > 1) scientific.append(1, '.').append(digits, 1);
    return scientific.append(1, 'e').append(std::to_string(power));
}

bool ends_a_factor(std::string_view text, std::size_t at) {
    return at == text.size() || text[at] == '/' || text[at] == '.';
}

} // namespace

std::string format_number(double value, int digits) {
    if (std::isnan(value)) return "—";
    if (std::isinf(value)) return value < 0 ? "-∞" : "∞";
    if (value == 0) return "0";
    const Rounded rounded = round_to(value, std::clamp(digits, 1, 17));
    const bool plain = rounded.power >= kLeastPlainPower && rounded.power <= kMostPlainPower;
    std::string shown = plain ? in_plain_notation(rounded.digits, rounded.power)
                              : with_exponent(rounded.digits, rounded.power);
    if (rounded.negative) shown.insert(shown.begin(), '-');
    return shown;
}

std::string unit_label(std::string_view kind, std::string_view unit) {
    const UnitSpelling* row = find_unit(kind, unit).unit;
    const std::string_view plain = row != nullptr ? row->unit : unit;
    if (plain == "1") return "";
    if (plain == "inH2O") return "inH₂O";
    if (plain == "mmH2O") return "mmH₂O";
    if (plain == "µm/m.K") return "µm/(m·K)";
    if (plain == "µin/in.°F") return "µin/(in·°F)";
    std::string label;
    for (std::size_t i = 0; i < plain.size(); ++i) {
        const bool power = i > 0 && ends_a_factor(plain, i + 1);
        if (plain[i] == '.') {
            label.append("·");
        } else if (power && plain[i] == '2') {
            label.append("²");
        } else if (power && plain[i] == '3') {
            label.append("³");
        } else {
            label += plain[i];
        }
    }
    return label;
}

std::string format_quantity(double si, std::string_view kind, std::string_view unit, int digits) {
    if (kind == "count" && std::fabs(si) < kMostCounted) {
        return std::to_string(std::llround(si)); // things are counted out, never rounded
    }
    const auto shown = to_unit(si, kind, unit);
    const QuantityKind* known = find_kind(kind);
    const std::string label = shown              ? unit_label(kind, unit)
                              : known != nullptr ? unit_label(kind, known->si)
                                                 : "";
    const std::string number = format_number(shown ? *shown : si, digits);
    // SI Brochure 5.4.3: a space before every unit but the degree, minute and second of angle.
    const bool close =
        label.empty() || (kind == "angle" && (label == "°" || label == "′" || label == "″"));
    return number + (close ? "" : " ") + label;
}

} // namespace fettle
