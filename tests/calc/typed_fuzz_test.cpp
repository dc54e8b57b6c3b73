// Random texts into every shape of input, with a fixed seed: whatever is typed is either taken
// within its bounds or a problem with a sentence.
#include "calc/some_inputs.h"
#include "calc/typed_inputs.h"

#include <doctest/doctest.h>

#include <cmath>
#include <random>

using namespace fettle;
using namespace fettle::calc;

namespace {

const std::vector<std::string> kPieces = {"0",        "1",     "12",
                                          "3/4",      "1-3/4", "5/0",
                                          "1e3",      "-",     "+",
                                          ".",        ",",     ";",
                                          "|",        "\n",    " ",
                                          " ",        " ",     "in",
                                          "mm",       "thou",  "'",
                                          "\"",       "½",     "\xC2",
                                          "\xE2\x85", "°C",    "lbf.ft",
                                          "/",        "1e999", "nan",
                                          "inf",      "0x10",  "99999999999999999999",
                                          "zinc",     "dry",   "\xff",
                                          "\t",       "#",     "(",
                                          "10",       "8",     "20",
                                          "-7",       "%"};

std::string random_text(std::mt19937& random) {
    std::string text;
    const auto pieces = std::uniform_int_distribution<int>(0, 12)(random);
    for (int at = 0; at < pieces; ++at) {
        const bool byte = std::uniform_int_distribution<int>(0, 9)(random) == 0;
        if (byte)
            text += static_cast<char>(std::uniform_int_distribution<int>(0, 255)(random));
        else
            text +=
                kPieces[std::uniform_int_distribution<std::size_t>(0, kPieces.size() - 1)(random)];
    }
    return text;
}

void check_taken(const Input& input, const SiValue& value) {
    if (!value.given) return;
    if (input.shape == Shape::number) {
        CHECK(std::isfinite(value.number));
        CHECK((!input.least || value.number >= *input.least));
        CHECK((!input.greatest || value.number <= *input.greatest));
    }
    CHECK(value.numbers.size() == std::size_t{value.rows} * value.columns);
    for (double number : value.numbers)
        CHECK_FALSE(std::isinf(number));
    if (input.shape == Shape::list)
        for (double number : value.numbers)
            CHECK_FALSE(std::isnan(number));
}

} // namespace

TEST_CASE("random texts are taken within bounds or are a problem with a sentence") {
    std::mt19937 random(20260705);
    const Sheet sheet = some_sheet();
    int taken = 0, refused = 0;
    for (int round = 0; round < 4000; ++round) {
        const std::string typed = random_text(random);
        CAPTURE(typed);
        for (const Input& input : sheet.inputs) {
            const auto value = read_input(input, typed);
            if (value) {
                check_taken(input, *value);
                ++taken;
            } else {
                CHECK(value.failure().kind == FailureKind::invalid);
                CHECK(value.failure().sentence.find(input.label) != std::string::npos);
                ++refused;
            }
        }
    }
    CHECK(taken > 1000); // both ways were exercised
    CHECK(refused > 1000);
}
