#include "base/quantity.h"
#include "base/text.h"
#include "base/unit_spellings.h"

#include <doctest/doctest.h>

#include <cmath>
#include <random>
#include <string>

using namespace fettle;

TEST_CASE("what is shown reads back as the same value within the digits shown") {
    std::mt19937 random(20260307);
    std::uniform_real_distribution<double> mantissa(-10, 10);
    std::uniform_int_distribution<int> power(-8, 8);
    std::uniform_int_distribution<int> digits(1, 12);
    for (const UnitSpelling& row : unit_table()) {
        for (int i = 0; i < 40; ++i) {
            const int shown_digits = digits(random);
            double value = mantissa(random) * std::pow(10, power(random));
            if (row.kind == "temperature") value = std::fabs(value);
            const auto si = from_unit(value, row.kind, row.unit);
            REQUIRE(si.ok());
            const std::string shown = format_quantity(*si, row.kind, row.unit, shown_digits);
            CAPTURE(shown);
            const auto back = parse_quantity(shown, row.kind, row.unit);
            REQUIRE(back.ok());
            if (!unit_label(row.kind, row.unit).empty()) CHECK(back->unit == row.unit);
            // Half a unit of the last digit, and the rounding of two conversions near 273 K.
            const double again = *to_unit(back->si, row.kind, row.unit);
            const double slack = row.kind == "temperature" ? 1e-11 : 1e-13 * std::fabs(value);
            CHECK(std::fabs(again - value) <=
                  0.5 * std::pow(10, 1 - shown_digits) * std::fabs(value) + slack);
        }
    }
}

namespace {

const char* const kCrumbs[] = {
    "1",  "23",  "0",    ".",    ",",      "/",      "-",   "+",   " ", "e", "E5",    "^",
    "'",  "\"",  "½",    "⅞",    "⁵⁄₁₆",   "°",      "′",   "″",   "µ", "·", "×10⁻⁶", "in",
    "ft", "lb",  "N",    "m",    "mm",     "gal",    "US",  "F",   "C", "%", "1/",    "per",
    "h",  "min", "\xFF", "\xC3", "\u00A0", "\u2212", "nan", "inf", "(", ")", "_"};

} // namespace

TEST_CASE("random garbage gives a finite value or a sentence, in every kind") {
    std::mt19937 random(4711);
    std::uniform_int_distribution<std::size_t> crumb(0, std::size(kCrumbs) - 1);
    std::uniform_int_distribution<int> length(0, 9);
    std::uniform_int_distribution<int> byte(0, 255);
    int taken = 0;
    for (int i = 0; i < 800; ++i) {
        std::string text;
        for (int n = length(random); n > 0; --n)
            text += kCrumbs[crumb(random)];
        if (i % 4 == 0) text += static_cast<char>(byte(random));
        for (const QuantityKind& kind : quantity_kinds()) {
            const auto measured = parse_quantity(text, kind.name, "");
            if (measured) {
                ++taken;
                CHECK(std::isfinite(measured->si));
            } else {
                const std::string& sentence = measured.failure().sentence;
                CHECK(sentence.size() > 20);
                CHECK(sentence.size() < 500);
                CHECK(safe_utf8(sentence) == sentence);
            }
        }
    }
    CHECK(taken > 100); // the garbage is good enough to be taken now and then
}
