#include "base/quantity.h"
#include "near.h"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <string>

using namespace fettle;

// Expected values are plain arithmetic.
TEST_CASE("numbers are read as people write them") {
    struct Case {
        const char* text;
        double value;
    };
    for (const auto& [text, value] : {
             Case{"3", 3},
             Case{"-0.25", -0.25},
             Case{"+4", 4},
             Case{"1e3", 1000},
             Case{"2.5E-3", 0.0025},
             Case{".5", 0.5},
             Case{"5.", 5},
             Case{"1,5", 1.5},
             Case{"0,125", 0.125},
             Case{"12,75", 12.75},
             Case{"1,2345", 1.2345},
             Case{"1,234.5", 1234.5},
             Case{"1.234,5", 1234.5},
             Case{"1,234,567", 1234567},
             Case{"5/16", 0.3125},
             Case{"5 / 16", 0.3125},
             Case{"15⁄16", 0.9375},
             Case{"1 3/4", 1.75},
             Case{"1-3/4", 1.75},
             Case{"-1 3/4", -1.75},
             Case{"1¾", 1.75},
             Case{"1 ¾", 1.75},
             Case{"½", 0.5},
             Case{"¼", 0.25},
             Case{"⅛", 0.125},
             Case{"⅜", 0.375},
             Case{"⅝", 0.625},
             Case{"⅞", 0.875},
             Case{"⅓", 1.0 / 3},
             Case{"⅔", 2.0 / 3},
             Case{"⁵⁄₁₆", 0.3125},
             Case{"1⁵⁄₁₆", 1.3125},
             Case{"-½", -0.5},
             Case{"\u22122", -2},             // minus sign
             Case{"\u00A01\u20093/4 ", 1.75}, // no-break and thin space
             Case{"12×10⁻⁶", 12e-6},
             Case{"1.5 × 10^3", 1500},
             Case{"  7\t", 7},
         }) {
        CAPTURE(text);
        const auto number = parse_number(text);
        REQUIRE(number.ok());
        CHECK(test::near(*number, value, 3e-16));
    }
}

TEST_CASE("what is no number, or could be two, is refused with a sentence that shows it") {
    struct Case {
        const char* text;
        const char* said;
    };
    for (const auto& [text, said] : {
             Case{"", "is no number"},
             Case{"abc", "\"abc\" is no number"},
             Case{"nan", "is no number"},
             Case{"inf", "is no number"},
             Case{"-infinity", "is no number"},
             Case{"0x10", "is no number"},
             Case{"1,234", "1.234 or as 1234"},
             Case{"12,500", "12.500 or as 12500"},
             Case{"1.2.3", "is no number"},
             Case{"1,23,4", "is no number"},
             Case{"12,34.5", "is no number"},
             Case{"5/0", "divides by zero"},
             Case{"1 5/0", "divides by zero"},
             Case{"1 5/4", "fraction of one or more"},
             Case{"5/", "is no number"},
             Case{"/5", "is no number"},
             Case{"1/2/3", "is no number"},
             Case{"3 4", "is no number"},
             Case{"3 mm", "is no number"},
             Case{"--3", "is no number"},
             Case{"1e", "is no number"},
             Case{"1e999", "outside the numbers"},
             Case{"-1e400", "outside the numbers"},
             Case{"\xFF\xFE", "is no number"},
         }) {
        CAPTURE(text);
        const auto number = parse_number(text);
        REQUIRE_FALSE(number.ok());
        CHECK(number.failure().kind == FailureKind::invalid);
        CHECK(number.failure().sentence.find(said) != std::string::npos);
    }
}

TEST_CASE("an endless row of digits is refused, not misread") {
    CHECK_FALSE(parse_number(std::string(5000, '9')).ok());
    CHECK_FALSE(parse_number("1/" + std::string(5000, '9')).ok());
}

// Expected texts follow from rounding by hand.
TEST_CASE("numbers are shown with their significant digits, plainly where that is readable") {
    struct Case {
        double value;
        int digits;
        const char* shown;
    };
    const double infinite = std::numeric_limits<double>::infinity();
    for (const auto& [value, digits, shown] : {
             Case{18, 3, "18.0"},
             Case{0.0254, 3, "0.0254"},
             Case{25.4, 1, "30"},
             Case{1234567, 3, "1230000"},
             Case{9999999.9, 9, "9999999.90"},
             Case{9999999.9, 3, "1.00e7"},
             Case{1e7, 2, "1.0e7"},
             Case{0.0001, 2, "0.00010"},
             Case{0.00009999, 2, "0.00010"},
             Case{0.000012, 2, "1.2e-5"},
             Case{-0.5, 2, "-0.50"},
             Case{0.0, 4, "0"},
             Case{-0.0, 4, "0"},
             Case{99.96, 3, "100"},
             Case{9.996, 3, "10.0"},
             Case{3.14159, 0, "3"},
             Case{1e300, 3, "1.00e300"},
             Case{infinite, 3, "∞"},
             Case{-infinite, 3, "-∞"},
             Case{std::nan(""), 3, "—"},
         }) {
        CAPTURE(value);
        CHECK(format_number(value, digits) == shown);
    }
}
