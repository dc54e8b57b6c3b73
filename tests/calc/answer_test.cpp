// An answer kept, shown without its plugin, and printed for scripts.
#include "base/quantity.h"
#include "calc/answer.h"
#include "calc/display.h"
#include "calc/some_inputs.h"

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include <cmath>

using namespace fettle;
using namespace fettle::calc;
using nlohmann::json;

namespace {

Answer some_answer() {
    const Sheet sheet = some_sheet();
    const auto read = read_inputs(sheet, {{"tin", "8 12 thou"},
                                          {"leaves", "36 1/4; 30in 1/4 40"},
                                          {"surface", "oil"},
                                          {"thread", "5/16-24 UNF"}});
    REQUIRE(read.problems.empty());
    Answer answer;
    answer.plugin_id = "some";
    answer.plugin_name = "Some plugin";
    answer.plugin_version = "1.2.3";
    answer.sheet_id = sheet.id;
    answer.sheet_title = "Some sheet";
    answer.revision = 4;
    for (std::size_t at = 0; at < sheet.inputs.size(); ++at)
        answer.inputs.push_back(
            {sheet.inputs[at], read.typed.at(sheet.inputs[at].id), read.values[at]});
    answer.outputs = {
        // 18 lbf·ft = 18 x 0.3048 x 4.4482216152605 N·m = 24.4047236303467 N·m
        {{"torque", "Torque", Shape::number, "torque", "N.m", "lbf.ft", 3, "a book"},
         24.4047236303467,
         ""},
        {{"frequency", "Frequency", Shape::number, "frequency", "Hz", "", 3, ""},
         {},
         "no load given"},
        {{"arch", "Loaded arch", Shape::number, "length", "mm", "in", 3, ""}, {}, ""},
        {{"verdict", "Verdict", Shape::text, "", "", "", 0, ""}, {}, "Good for ½ a century."}};
    Table table{"leaves",
                "Leaves",
                {{"name", "Name", Shape::text, "", "", false, 0},
                 {"stress", "Stress", Shape::number, "pressure", "MPa", false, 3},
                 {"teeth", "Teeth", Shape::number, "count", "", false, 2}}};
    answer.tables = {
        {table, {{{{}, "master"}, {250e6, ""}, {41, ""}}, {{{}, "second"}, {{}, ""}, {{}, ""}}}}};
    answer.working = {"T = K d F", "= 24.4 N·m"};
    answer.notes = {{NoteLevel::caution, "Springs under load can kill."},
                    {NoteLevel::stop, "Don't."}};
    answer.sources = {"A standard"};
    return answer;
}

} // namespace

TEST_CASE("an answer survives being stored as text, number for number") {
    const Answer answer = some_answer();
    const std::string stored = to_json(answer).dump();
    const auto again = from_json(json::parse(stored));
    REQUIRE(again.ok());
    CHECK(to_json(*again).dump() == stored);
    CHECK(again->outputs[0].si == answer.outputs[0].si);
    CHECK_FALSE(again->outputs[1].si);
    CHECK(again->outputs[1].text == "no load given");
    CHECK(again->inputs[1].value.numbers == answer.inputs[1].value.numbers);
    CHECK(std::isnan(again->inputs[2].value.numbers[2]));
    CHECK(again->inputs[0].input == answer.inputs[0].input);
    CHECK(again->notes == answer.notes);
    CHECK(agree(*again, answer));
    CHECK(typed_inputs(*again) == TypedInputs{{"target", "25"},
                                              {"tin", "8 12 thou"},
                                              {"leaves", "36 1/4; 30in 1/4 40"},
                                              {"surface", "oil"},
                                              {"thread", "5/16-24 UNF"},
                                              {"teeth", ""}});
}

TEST_CASE("a stored answer that does not read as one is damaged, one from the future is newer") {
    const json good = to_json(some_answer());
    json newer = good;
    newer["format"] = 2;
    REQUIRE_FALSE(from_json(newer).ok());
    CHECK(from_json(newer).failure().kind == FailureKind::newer);
    for (const char* member : {"plugin", "sheet", "inputs", "outputs", "tables", "working", "notes",
                               "sources", "format"}) {
        CAPTURE(std::string(member));
        for (const json& wrong : {json(), json(7), json("text"), json::array({1})}) {
            json damaged = good;
            damaged[member] = wrong;
            if (wrong == damaged && member == std::string("format")) continue;
            if (std::string(member) == "format" && wrong == 7) continue; // newer, see above
            const auto read = from_json(damaged);
            REQUIRE_FALSE(read.ok());
            CHECK(read.failure().kind == FailureKind::damaged);
        }
    }
    json short_row = good;
    short_row["tables"][0]["rows"][0].erase(1);
    CHECK_FALSE(from_json(short_row).ok());
    json short_list = good;
    short_list["inputs"][1]["value"]["numbers"].erase(0);
    CHECK_FALSE(from_json(short_list).ok());
    CHECK_FALSE(from_json(json("nothing like it")).ok());
}

TEST_CASE("two answers agree until an output or a cell differs") {
    const Answer answer = some_answer();
    Answer other = answer;
    other.plugin_version = "2.0.0";
    CHECK(agree(answer, other));
    other.outputs[0].si = 24.5;
    CHECK_FALSE(agree(answer, other));
    other = answer;
    other.tables[0].rows[0][1].si = 251e6;
    CHECK_FALSE(agree(answer, other));
    other = answer;
    other.outputs[1].si = 1.5;
    CHECK_FALSE(agree(answer, other));
}

TEST_CASE("an answer is shown in metric and inch with the digits asked for") {
    const auto rows = display_rows(some_answer());
    REQUIRE(rows.size() == 4);
    CHECK(rows[0].label == "Torque");
    CHECK(rows[0].metric == "24.4 N·m");
    CHECK(rows[0].inch == "18.0 lbf·ft");
    CHECK(rows[0].source == "a book");
    CHECK(rows[1].metric == "no load given");
    CHECK(rows[2].metric == "none");
    CHECK(rows[3].metric == "Good for ½ a century.");
    CHECK(rows[3].inch.empty());
}

TEST_CASE("a table is shown with its units in the headings") {
    const auto tables = display_tables(some_answer());
    REQUIRE(tables.size() == 1);
    CHECK(tables[0].headings == std::vector<std::string>{"Name", "Stress, MPa", "Teeth"});
    CHECK(tables[0].rows[0] == std::vector<std::string>{"master", "250", "41"});
    CHECK(tables[0].rows[1] == std::vector<std::string>{"second", "", ""});
    CHECK(tables[0].inch_headings[1] == "Stress, psi");
    CHECK(tables[0].inch_rows[0][1] == "36300"); // 250e6 / 6894.757 = 36259.4
}

TEST_CASE("films, areas and litres are told in thou, square feet and gallons beside them") {
    const auto inch = [](const char* quantity, const char* unit, double si) {
        Input input = length_input("it", "It", unit);
        input.quantity = quantity;
        return both_units(input, {.given = true, .number = si}).inch;
    };
    CHECK(inch("length", "µm", 127e-6) == "5 thou");               // 127 / 25.4
    CHECK(inch("length", "m", 3.048) == "10 ft");                  // 0.3048 m, by definition
    CHECK(inch("area", "m2", 0.09290304) == "1 ft²");              // 0.3048², by definition
    CHECK(inch("volume", "L", 3.785411784e-3) == "1 US gal");      // 231 in³, by definition
    CHECK(inch("volume", "mL", 2.95735295625e-5) == "1 US fl oz"); // a 128th of it
    CHECK(inch("length", "mm", 0.0254) == "1 in");
    CHECK(inch("volume", "cm3", 1.6387064e-5) == "1 in³");
    Answer answer = some_answer();
    answer.tables[0].table.columns[1] = {"film", "Film", Shape::number, "length", "µm", false, 3};
    answer.tables[0].rows[0][1] = {50.8e-6, ""};
    const auto tables = display_tables(answer);
    CHECK(tables[0].inch_headings[1] == "Film, thou");
    CHECK(tables[0].inch_rows[0][1] == "2.00"); // 50.8 / 25.4
}

TEST_CASE("a column of words in a typed table is shown by its words") {
    Input input = leaves_input();
    input.columns[0].choices = {"box", "round"};
    const BothUnits both =
        both_units(input, {.given = true, .numbers = {1, 0.0254}, .rows = 1, .columns = 2});
    CHECK(both.metric == "round | 25.4 mm");
    CHECK(both.inch == "round | 1 in");
}

TEST_CASE("inputs are shown as typed and as they were understood") {
    const auto inputs = display_inputs(some_answer());
    REQUIRE(inputs.size() == 5); // teeth was left blank
    CHECK(inputs[0].typed == "25");
    CHECK(inputs[0].metric == "25 mm");
    CHECK(inputs[0].inch == "0.984252 in"); // 25 / 25.4
    CHECK(inputs[1].metric == "0.2032 mm; 0.3048 mm");
    CHECK(inputs[1].inch == "0.008 in; 0.012 in");
    CHECK(inputs[2].metric == "914.4 mm | 6.35 mm; 762 mm | 6.35 mm | 1016 mm");
    CHECK(inputs[2].inch == "36 in | 0.25 in; 30 in | 0.25 in | 40 in");
    CHECK(inputs[3].typed == "oil");
    CHECK(inputs[3].metric == "oiled");
}

TEST_CASE("scripts get values in SI with their unit, or in inch units on request") {
    const json si = command_line_json(some_answer(), Units::si);
    CHECK(si["sheet"] == "some.sheet");
    CHECK(si["plugin_version"] == "1.2.3");
    CHECK(si["inputs"]["target"] == json{{"value", 0.025}, {"unit", "m"}});
    CHECK(si["inputs"]["surface"]["value"] == "oiled");
    CHECK(si["inputs"]["leaves"]["value"][0][2].is_null());
    CHECK(si["inputs"]["leaves"]["value"][1][2].get<double>() == doctest::Approx(1.016)); // 40 in
    CHECK_FALSE(si["inputs"].contains("teeth"));
    CHECK(si["outputs"]["torque"]["value"] == 24.4047236303467);
    CHECK(si["outputs"]["torque"]["unit"] == "N.m");
    CHECK(si["outputs"]["torque"]["text"] == "24.4 N·m");
    CHECK(si["outputs"]["arch"]["value"].is_null());
    CHECK(si["outputs"]["verdict"]["text"] == "Good for ½ a century.");
    CHECK(si["tables"]["leaves"]["columns"][1] == json{{"id", "stress"}, {"unit", "Pa"}});
    CHECK(si["tables"]["leaves"]["rows"][0] == json{"master", 250e6, 41});
    CHECK(si["notes"][0] == json{{"level", "caution"}, {"text", "Springs under load can kill."}});
    CHECK(si["notes"][1]["level"] == "stop");

    const json inch = command_line_json(some_answer(), Units::inch);
    CHECK(inch["outputs"]["torque"]["value"].get<double>() == doctest::Approx(18));
    CHECK(inch["outputs"]["torque"]["unit"] == "lbf.ft");
    CHECK(inch["outputs"]["torque"]["text"] == "18.0 lbf·ft");
    CHECK(inch["inputs"]["target"]["unit"] == "in");
    CHECK(inch["inputs"]["tin"]["value"][1].get<double>() == doctest::Approx(0.012));
    CHECK(inch["tables"]["leaves"]["rows"][0][1].get<double>() == doctest::Approx(36259.4));
}

TEST_CASE("the units named for each kind of quantity are units of that kind") {
    for (const char* kind :
         {"number", "count", "ratio", "length", "area", "volume", "angle", "mass", "force",
          "torque", "pressure", "spring_rate", "temperature", "temperature_difference", "time",
          "frequency", "speed", "density", "expansion"}) {
        CAPTURE(std::string(kind));
        CHECK(to_unit(1, kind, metric_unit(kind)).ok());
        if (!inch_unit(kind).empty()) CHECK(to_unit(1, kind, inch_unit(kind)).ok());
        if (si_unit(kind) == "1") continue;
        const auto same = to_unit(7, kind, si_unit(kind));
        REQUIRE(same.ok());
        CHECK(*same == doctest::Approx(7));
    }
}
