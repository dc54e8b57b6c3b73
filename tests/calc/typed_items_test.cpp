// Lists and tables as they are typed. 1 in = 25.4 mm, 1 thou = 0.0254 mm.
#include "calc/some_inputs.h"
#include "calc/typed_inputs.h"

#include <doctest/doctest.h>

#include <cmath>

using namespace fettle;
using namespace fettle::calc;

namespace {

using Numbers = std::vector<double>;

// The value in millimetres; a blank cell as -1.
Numbers millimetres(const SiValue& value) {
    Numbers shown;
    for (double si : value.numbers)
        shown.push_back(std::isnan(si) ? -1 : si * 1000);
    return shown;
}

void check_numbers(const Input& input, const char* typed, const Numbers& expected) {
    CAPTURE(std::string(typed));
    const auto value = read_input(input, typed);
    if (!value) FAIL_CHECK(value.failure().sentence);
    if (!value) return;
    const Numbers shown = millimetres(*value);
    REQUIRE(shown.size() == expected.size());
    for (std::size_t at = 0; at < shown.size(); ++at)
        CHECK(shown[at] == doctest::Approx(expected[at]).epsilon(1e-12));
    CHECK(value->rows * value->columns == expected.size());
}

void check_problem(const Input& input, const char* typed, const char* part) {
    CAPTURE(std::string(typed));
    const auto value = read_input(input, typed);
    REQUIRE_FALSE(value.ok());
    const std::string& sentence = value.failure().sentence;
    CAPTURE(sentence);
    CHECK(sentence.find(part) != std::string::npos);
    CHECK(sentence.find(input.label + " (" + input.id + ")") != std::string::npos);
}

} // namespace

TEST_CASE("items of a list stand between semicolons, blanks or commas") {
    struct Case {
        const char* typed;
        Numbers expected;
    };
    const Case cases[] = {
        {"8 12 20", {8, 12, 20}},
        {"8; 12; 20", {8, 12, 20}},
        {"8, 12, 20", {8, 12, 20}},
        {"8,12,20", {8, 12, 20}},
        {"0.1,0.25", {0.1, 0.25}},
        {"1,5; 2,5", {1.5, 2.5}}, // decimal commas, since semicolons separate
        {"8;\n12;", {8, 12}},
        {"8\n12\n20", {8, 12, 20}},
        {"7", {7}},
        {"  7 , ", {7}},
    };
    for (const auto& [typed, expected] : cases)
        check_numbers(tin_input(), typed, expected);
}

TEST_CASE("a unit at the very end of a list counts for all bare items before it") {
    struct Case {
        const char* typed;
        Numbers expected;
    };
    const Case cases[] = {
        {"8 12 20 thou", {0.2032, 0.3048, 0.508}},
        {"8 12 20thou", {0.2032, 0.3048, 0.508}},
        {"8, 12, 20 thou", {0.2032, 0.3048, 0.508}},
        {"8; 12; 20 thou", {0.2032, 0.3048, 0.508}},
        {"8 thou 12 thou", {0.2032, 0.3048}},
        {"8thou; 0.5mm", {0.2032, 0.5}},
        {"1/2 3/4 in", {12.7, 19.05}},
        {"1-1/2 3/4 in", {38.1, 19.05}},
        {"1 1/2; 3/4 in", {38.1, 19.05}},
    };
    for (const auto& [typed, expected] : cases)
        check_numbers(tin_input(), typed, expected);
}

TEST_CASE("a list that can be read in two ways is asked back") {
    const Input tin = tin_input();
    check_problem(tin, "1 3/4 in", "\"1 3/4\" could be one number or two");
    check_problem(tin, "8 1 1/2 in", "\"1 1/2\" could be one number or two; write one as 1-1/2");
    check_problem(tin, "1 \xC2\xBD", "could be one number or two");
    check_problem(tin, "8,12", "could be one number or several");
    check_problem(tin, "1,5 2,5", "\"1,5\" could be one number or several");
    check_problem(tin, "1,234,567", "could be one number or several");
    check_problem(tin, "8 thou; 12; 20", "some items carry a unit and some do not");
    check_problem(tin, "8; 12 thou; 0.5 mm", "some items carry a unit and some do not");
    check_problem(tin, "8; 12 thou; 20", "some items carry a unit and some do not");
}

TEST_CASE("a list with something else in it is a problem that names the item") {
    const Input tin = tin_input();
    check_problem(tin, "thou 8", "\"thou\" is not a number");
    check_problem(tin, "8 12 N", "12 N");
    check_problem(tin, "8;;12", "item 2 is blank");
    check_problem(tin, "1/0 5", "1/0");
    check_problem(tin, ",", "no item");
}

TEST_CASE("every item of a list is held to the bounds") {
    Input tin = tin_input();
    tin.least = 0.0001;
    tin.greatest = 0.01;
    check_numbers(tin, "0.1 10", {0.1, 10});
    check_problem(tin, "0.1 11", "11 mm is out of bounds; from 0.1 mm to 10 mm is accepted");
}

TEST_CASE("rows of a table stand between semicolons or on lines, cells between blanks or bars") {
    struct Case {
        const char* typed;
        Numbers expected;
    };
    const Case cases[] = {
        {"36 1/4", {914.4, 6.35, -1}},
        {"36in 1/4in 40in;\n30 1/4", {914.4, 6.35, 1016, 762, 6.35, -1}},
        {"36-1/2 1/4\n30 0.25", {927.1, 6.35, -1, 762, 6.35, -1}},
        {"900mm 6mm", {900, 6, -1}},
        {"36 1/2 | 1/4 |", {927.1, 6.35, -1}},
        {"36 1/2 in | 1/4 in | 40 in", {927.1, 6.35, 1016}},
        {"| 36 | 1/4 | 40 |", {914.4, 6.35, 1016}},
        {"36 1/4;", {914.4, 6.35, -1}},
    };
    for (const auto& [typed, expected] : cases)
        check_numbers(leaves_input(), typed, expected);
}

TEST_CASE("a table that cannot be read names the row and the cell") {
    const Input leaves = leaves_input();
    check_problem(leaves, "36 1/4; 30", "row 2: Thickness (thickness) is missing");
    check_problem(leaves, "36 | | 40", "row 1: Thickness (thickness) is missing");
    check_problem(leaves, "36 in 1/4 in", "row 1: it has 4 cells; at most 3");
    check_problem(leaves, "36 1/4; 30 quarter", "row 2: Thickness: ");
    check_problem(leaves, "36 1/4;; 30 1/4", "row 2 is blank");
    // 36½ by ¼, or 36 by ½ with a free radius of ¼?
    check_problem(leaves, "36 1/2 1/4", "\"36 1/2\" could be one cell or two");
}
