// What is typed into the fields of a sheet. Inch values are worked from 1 in = 25.4 mm exactly
// (international inch, 1959).
#include "calc/some_inputs.h"
#include "calc/typed_inputs.h"

#include <doctest/doctest.h>

using namespace fettle;
using namespace fettle::calc;

namespace {

std::string problem_with(const Input& input, const std::string& typed) {
    const auto value = read_input(input, typed);
    return value ? "accepted" : value.failure().sentence;
}

} // namespace

TEST_CASE("a number takes the unit beside the field unless it brings its own") {
    struct Case {
        const char* typed;
        double metres;
        const char* unit;
    };
    for (const auto& [typed, metres, unit] :
         {Case{"25", 0.025, "mm"}, Case{"  25 mm ", 0.025, "mm"}, Case{"1 3/4 in", 0.04445, "in"},
          Case{"5/16 in", 0.0079375, "in"}, Case{"100 thou", 0.00254, "thou"}}) {
        CAPTURE(std::string(typed));
        const auto value = read_input(target_input(), typed);
        REQUIRE(value.ok());
        CHECK(value->number == doctest::Approx(metres).epsilon(1e-12));
        CHECK(value->typed_unit == unit);
    }
}

TEST_CASE("a number that cannot be taken is named with its field, its value and what is accepted") {
    CHECK(problem_with(target_input(), "5/0 in").starts_with("\"5/0 in\" in Target (target): "));
    CHECK(problem_with(target_input(), "ten").starts_with("\"ten\" in Target (target)"));
    CHECK(
        problem_with(target_input(), "18 lbf.ft").starts_with("\"18 lbf.ft\" in Target (target)"));
    CHECK(problem_with(target_input(), "400") ==
          "\"400\" in Target (target): 400 mm is out of bounds; from 1 mm to 300 mm is accepted.");
    CHECK(
        problem_with(target_input(), "0.5 mm") ==
        "\"0.5 mm\" in Target (target): 0.5 mm is out of bounds; from 1 mm to 300 mm is accepted.");
    CHECK(
        problem_with(target_input(), "  ") ==
        "Target (target) is blank; it needs one length; a bare number is taken in mm; from 1 mm to "
        "300 mm.");
}

TEST_CASE("a value on its bound is accepted in whatever unit it was typed") {
    Input inch = target_input();
    inch.least = 0.0254; // 1 in
    inch.greatest = 0.3048;
    for (const char* typed : {"25.4", "1 in", "1000 thou", "12 in", "304.8 mm", "1 ft"})
        CHECK(problem_with(inch, typed) == "accepted");
    const auto value = read_input(inch, "1000 thou");
    REQUIRE(value.ok());
    CHECK(value->number >= 0.0254);
    CHECK(problem_with(inch, "0.9999 in") != "accepted");
}

TEST_CASE("bounds on one side say so") {
    Input input = target_input();
    input.greatest.reset();
    CHECK(problem_with(input, "0.5").ends_with("1 mm or more is accepted."));
    input.least.reset();
    input.greatest = 0.3;
    CHECK(problem_with(input, "500").ends_with("300 mm or less is accepted."));
}

TEST_CASE("things that are counted are whole") {
    CHECK(problem_with(teeth_input(), "41") == "accepted");
    const std::string sentence = problem_with(teeth_input(), "40.5");
    CHECK(sentence.starts_with("\"40.5\" in Teeth (teeth)"));
    CHECK(sentence.find("whole number") != std::string::npos);
}

TEST_CASE("a choice may be begun, in any case, when one choice alone begins like this") {
    struct Case {
        const char* typed;
        const char* choice;
    };
    for (const auto& [typed, choice] : {Case{"oiled", "oiled"}, Case{"OIL", "oiled"},
                                        Case{" d ", "dry"}, Case{"zinc f", "zinc flake"}}) {
        const auto value = read_input(surface_input(), typed);
        REQUIRE(value.ok());
        CHECK(value->text == choice);
    }
    CHECK(problem_with(surface_input(), "zinc") ==
          "\"zinc\" in Surface (surface): one of dry, oiled, zinc plated, zinc flake is accepted; "
          "more than one begins like this.");
    CHECK(
        problem_with(surface_input(), "waxed") ==
        "\"waxed\" in Surface (surface): one of dry, oiled, zinc plated, zinc flake is accepted.");
    Input nested = surface_input();
    nested.choices = {"SAE 5", "SAE 5.2"};
    CHECK(read_input(nested, "sae 5")->text == "SAE 5"); // one whole choice beats two beginnings
}

TEST_CASE("a text is trimmed, one line, valid UTF-8") {
    CHECK(read_input(thread_input(), "  3/8-20 BSF ")->text == "3/8-20 BSF");
    CHECK_FALSE(read_input(thread_input(), "")->given);
    CHECK(problem_with(thread_input(), "M10\nM12").ends_with("only one line of text is accepted."));
    CHECK(problem_with(thread_input(), "M\xff").ends_with("it is not valid UTF-8."));
    CHECK(problem_with(thread_input(), std::string(20'000, 'M')).ends_with("bytes are accepted."));
    CHECK(problem_with(thread_input(), std::string("M1\0M2", 5)) != "accepted");
}

TEST_CASE("inputs that are not named take their preset, blank ones stay blank") {
    const ReadInputs preset = read_inputs(some_sheet(), {});
    CHECK(preset.problems.empty());
    CHECK(preset.typed.at("target") == "25");
    CHECK(preset.values[0].number == doctest::Approx(0.025));
    CHECK_FALSE(preset.values[1].given);
    const ReadInputs blank = read_inputs(some_sheet(), {{"target", ""}});
    CHECK(blank.problems.count("target") == 1);
}

TEST_CASE("all problems of a sheet are found at once, the first in its order standing for all") {
    const ReadInputs read =
        read_inputs(some_sheet(),
                    {{"target", "ten"}, {"surface", "waxed"}, {"tin", "8 12"}, {"thread", "M10"}});
    CHECK(read.problems.size() == 2);
    CHECK(read.problems.at("surface").starts_with("\"waxed\" in Surface (surface)"));
    CHECK(read.first_problem == read.problems.at("target"));
    CHECK(read.values.size() == some_sheet().inputs.size());
}

TEST_CASE("a name that the sheet does not have is a problem that lists those it has") {
    const ReadInputs read = read_inputs(some_sheet(), {{"taget", "25"}});
    CHECK(read.first_problem == "\"taget\" is no input of some.sheet; its inputs are target, tin, "
                                "leaves, surface, thread, teeth.");
}
