// The inch classes against printed ones, and the sheet fit.limits. Each block names where its
// values were read; "memory" marks those that were not.
#include "fit/inch_fits.h"
#include "plugins/asked_sheet.h"

#include <algorithm>

using namespace fettle::fit;
using namespace fettle::test;

namespace {

constexpr double kMicron = 1e-6;
constexpr double kMm = 1e-3;
constexpr double kThou = 2.54e-5;

struct InchRow {
    const char* name;
    double size;                  // in
    double least, greatest;       // clearance, thou, negative: interference
    double shaft_near, shaft_far; // limits of the shaft, thou
};

void check_inch(const InchRow& row) {
    CAPTURE(std::string(row.name));
    CAPTURE(row.size);
    const auto found = inch_fit(row.name, row.size * 0.0254);
    REQUIRE(found.has_value());
    CHECK(found->hole.lower == 0);
    CHECK(std::abs((found->hole.lower - found->shaft.upper) / kThou - row.least) < 1e-6);
    CHECK(std::abs((found->hole.upper - found->shaft.lower) / kThou - row.greatest) < 1e-6);
    CHECK(found->shaft.upper / kThou ==
          doctest::Approx(std::max(row.shaft_near, row.shaft_far)).epsilon(1e-9));
    CHECK(found->shaft.lower / kThou ==
          doctest::Approx(std::min(row.shaft_near, row.shaft_far)).epsilon(1e-9));
}

} // namespace

TEST_CASE("ANSI B4.1 running fits equal the printed clearances and shaft limits") {
    // Machinery's Handbook, 31st ed., tables 8a and 8b (seen).
    const InchRow rows[] = {
        {"RC 1", 0.1, 0.1, 0.45, -0.1, -0.25}, {"RC 1", 2.5, 0.4, 1.2, -0.4, -0.7},
        {"RC 1", 19, 1.2, 3.0, -1.2, -2.0},    {"RC 2", 0.3, 0.2, 0.85, -0.2, -0.45},
        {"RC 2", 11, 0.8, 2.9, -0.8, -1.7},    {"RC 2", 14, 1.0, 3.4, -1.0, -2.0},
        {"RC 3", 1.0, 0.8, 2.1, -0.8, -1.3},   {"RC 3", 3.0, 1.2, 3.1, -1.2, -1.9},
        {"RC 3", 19, 4.0, 8.1, -4.0, -5.6},    {"RC 4", 0.5, 0.6, 2.3, -0.6, -1.3},
        {"RC 4", 1.5, 1.0, 3.6, -1.0, -2.0},   {"RC 4", 5, 1.6, 5.7, -1.6, -3.2},
        {"RC 4", 19, 4.0, 10.5, -4.0, -6.5},   {"RC 5", 1.0, 1.6, 3.6, -1.6, -2.4},
        {"RC 5", 8, 4.0, 8.6, -4.0, -5.8},     {"RC 6", 0.6, 1.2, 3.8, -1.2, -2.2},
        {"RC 6", 4, 3.0, 8.7, -3.0, -5.2},     {"RC 7", 1.5, 3.0, 7.1, -3.0, -4.6},
        {"RC 7", 3, 4.0, 8.8, -4.0, -5.8},     {"RC 8", 0.2, 2.8, 5.8, -2.8, -4.0},
        {"RC 8", 0.6, 3.5, 7.9, -3.5, -5.1},   {"RC 9", 0.2, 4.5, 9.0, -4.5, -6.0},
        {"RC 9", 0.1, 4.0, 8.1, -4.0, -5.6},   {"RC 9", 19, 25, 51, -25, -35}};
    for (const InchRow& row : rows)
        check_inch(row);
}

TEST_CASE("ANSI B4.1 locational fits equal the printed limits") {
    // LT: Machinery's Handbook, 31st ed., table 10; LN: table 12; LC 6 to LC 11: a reprint (seen).
    // LC 2 and LC 6 to LC 11 above 1.97 in: clearances from memory.
    const InchRow rows[] = {
        {"LT 1", 0.1, -0.12, 0.52, 0.12, -0.12}, {"LT 1", 1.0, -0.25, 1.05, 0.25, -0.25},
        {"LT 2", 0.6, -0.35, 1.35, 0.35, -0.35}, {"LT 2", 19, -1.2, 5.2, 1.2, -1.2},
        {"LT 3", 0.3, -0.5, 0.5, 0.1, 0.5},      {"LT 3", 1.5, -0.7, 0.9, 0.1, 0.7},
        {"LT 4", 0.3, -0.7, 0.8, 0.1, 0.7},      {"LT 4", 19, -2.7, 3.8, 0.2, 2.7},
        {"LT 5", 0.2, -0.6, 0.2, 0.3, 0.6},      {"LT 5", 5, -2.2, 0.4, 1.2, 2.2},
        {"LT 6", 1.0, -1.4, 0.2, 0.6, 1.4},      {"LT 6", 2.5, -2.0, 0.4, 0.8, 2.0},
        {"LN 1", 0.5, -0.8, 0, 0.4, 0.8},        {"LN 1", 3, -1.3, -0.1, 0.8, 1.3},
        {"LN 1", 19, -2.8, -0.2, 1.8, 2.8},      {"LN 2", 0.3, -1.0, 0, 0.6, 1.0},
        {"LN 2", 0.6, -1.1, 0, 0.7, 1.1},        {"LN 2", 1.0, -1.3, 0, 0.8, 1.3},
        {"LN 2", 11, -3.4, -0.2, 2.2, 3.4},      {"LN 3", 0.6, -1.4, -0.3, 1.0, 1.4},
        {"LN 3", 1.0, -1.7, -0.4, 1.2, 1.7},     {"LN 3", 1.5, -2.0, -0.4, 1.4, 2.0},
        {"LN 3", 19, -6.6, -2.5, 5.0, 6.6},      {"LC 6", 0.3, 0.5, 2.8, -0.5, -1.4},
        {"LC 6", 1.5, 1.0, 5.1, -1.0, -2.6},     {"LC 7", 1.0, 1.6, 7.1, -1.6, -3.6},
        {"LC 8", 0.6, 2.0, 6.4, -2.0, -3.6},     {"LC 9", 0.3, 3.0, 8.7, -3.0, -5.2},
        {"LC 10", 0.2, 4.5, 14.5, -4.5, -9.5},   {"LC 11", 1.0, 10, 34, -10, -22},
        {"LC 2", 1.0, 0, 1.3, 0, -0.5},          {"LC 4", 0.1, 0, 2.6, 0, -1.0},
        {"LC 6", 2.5, 1.2, 6.0, -1.2, -3.0},     {"LC 9", 6, 8, 24, -8, -14},
        {"LC 11", 19, 35, 115, -35, -75}};
    for (const InchRow& row : rows)
        check_inch(row);
    CHECK(!inch_fit("LT 3", 0.2 * 0.0254));
}

TEST_CASE("ANSI B4.1 force fits equal the printed limits") {
    // Machinery's Handbook, 27th ed., table 11, up to 3.94 in; 31st ed. from 4.73 in (seen).
    const InchRow rows[] = {
        {"FN 1", 0.1, -0.5, -0.05, 0.3, 0.5}, {"FN 1", 1.1, -1.2, -0.3, 0.8, 1.2},
        {"FN 1", 3.5, -2.4, -0.9, 1.8, 2.4},  {"FN 1", 5, -2.9, -1.2, 2.2, 2.9},
        {"FN 2", 0.3, -1.4, -0.4, 1.0, 1.4},  {"FN 2", 0.5, -1.6, -0.5, 1.2, 1.6},
        {"FN 2", 0.6, -1.6, -0.5, 1.2, 1.6},  {"FN 2", 0.8, -1.9, -0.6, 1.4, 1.9},
        {"FN 2", 1.0, -1.9, -0.6, 1.4, 1.9},  {"FN 2", 1.4, -2.4, -0.8, 1.8, 2.4},
        {"FN 2", 2.2, -2.7, -0.8, 2.0, 2.7},  {"FN 2", 10, -7.2, -4.0, 6.0, 7.2},
        {"FN 3", 1.0, -2.1, -0.8, 1.6, 2.1},  {"FN 3", 3.0, -3.7, -1.8, 3.0, 3.7},
        {"FN 3", 9, -9.2, -6.2, 8.0, 9.2},    {"FN 4", 1.1, -2.3, -1.0, 1.8, 2.3},
        {"FN 4", 1.8, -3.4, -1.8, 2.8, 3.4},  {"FN 4", 8, -11.2, -8.2, 10, 11.2},
        {"FN 5", 0.3, -2.0, -0.5, 1.4, 2.0},  {"FN 5", 2.0, -6.2, -3.2, 5.0, 6.2},
        {"FN 5", 6, -13.6, -9.5, 12, 13.6},   {"FN 5", 19, -32.5, -26, 30, 32.5}};
    for (const InchRow& row : rows)
        check_inch(row);
    CHECK(!inch_fit("FN 3", 0.8 * 0.0254));
    CHECK(!inch_fit("FN 6", 0.8 * 0.0254));
    CHECK(!inch_fit("FN 2", 20 * 0.0254));
    for (const InchClass& of : kInchClasses)
        CHECK(inch_fit(of.name, 0.0254).has_value());
}

TEST_CASE("fit.limits gives sizes and clearances, interference negative, and their kind") {
    const Sheet sheet("fit.limits");
    struct Row { // ISO 286-2 (seen) and resulting fits: micrometres, interference negative
        double mm;
        const char *hole, *shaft;
        double least, greatest;
        const char* kind;
    };
    const Row rows[] = {
        {8, "H7", "p6", -24, 0, "interference"},    {8, "H7", "s6", -32, -8, "interference"},
        {8, "H8", "f7", 13, 50, "clearance"},       {14, "H7", "p6", -29, 0, "interference"},
        {24, "H7", "p6", -35, -1, "interference"},  {40, "H7", "p6", -42, -1, "interference"},
        {14, "H7", "s6", -39, -10, "interference"}, {24, "H7", "s6", -48, -14, "interference"},
        {40, "H7", "s6", -59, -18, "interference"}, {14, "H8", "f7", 16, 61, "clearance"},
        {24, "H8", "f7", 20, 74, "clearance"},      {40, "H8", "f7", 25, 89, "clearance"},
        {24, "H7", "g6", 7, 41, "clearance"},       {24, "H7", "k6", -15, 19, "transition"}};
    for (const Row& row : rows) {
        CAPTURE(row.mm);
        CAPTURE(std::string(row.shaft));
        const SheetAnswer answer = sheet.answer({{"size", Typed::of(row.mm * kMm)},
                                                 {"hole", Typed::of(row.hole)},
                                                 {"shaft", Typed::of(row.shaft)}});
        CHECK(std::abs(answer.numbers.at("clearance_min") / kMicron - row.least) < 1e-6);
        CHECK(std::abs(answer.numbers.at("clearance_max") / kMicron - row.greatest) < 1e-6);
        CHECK(answer.texts.at("kind") == row.kind);
        CHECK(answer.tables.at("zones").size() == 2);
        CHECK(answer.series.at("zones").size() == 3);
    }
    // Shigley 9th ed., example 7-7 (seen).
    const SheetAnswer loose = sheet.answer(
        {{"size", Typed::of(0.034)}, {"hole", Typed::of("H11")}, {"shaft", Typed::of("c11")}});
    CHECK(loose.numbers.at("hole_lower") == doctest::Approx(0.034).epsilon(1e-12));
    CHECK(loose.numbers.at("hole_upper") == doctest::Approx(0.03416).epsilon(1e-12));
    CHECK(loose.numbers.at("shaft_upper") == doctest::Approx(0.03388).epsilon(1e-12));
    CHECK(loose.numbers.at("shaft_lower") == doctest::Approx(0.03372).epsilon(1e-12));
    CHECK(loose.numbers.count("interference_max") == 0);
    const SheetAnswer inch = sheet.answer({{"system", Typed::of("ANSI B4.1")},
                                           {"size", Typed::of(0.0254)},
                                           {"inch_class", Typed::of("FN 2")}});
    CHECK(inch.numbers.at("clearance_min") / kThou == doctest::Approx(-1.9));
    CHECK(inch.numbers.at("interference_min") / kThou == doctest::Approx(0.6));
}

TEST_CASE("fit.limits stops where a fit can bind or hang loose against its duty") {
    const AskedSheet sheet("fit.limits");
    const auto asked = [&](const char* shaft, const char* duty) {
        return sheet.answer({{"shaft", Typed::of(shaft)}, {"duty", Typed::of(duty)}});
    };
    CHECK(asked("k6", "must move freely").has_note(FETTLE_STOP, "bind"));
    CHECK(asked("p6", "must move freely").has_note(FETTLE_STOP, "interference"));
    CHECK(!asked("f7", "must move freely").has_note(FETTLE_STOP));
    CHECK(asked("k6", "must hold by its grip").has_note(FETTLE_STOP, "play"));
    CHECK(!asked("s6", "must hold by its grip").has_note(FETTLE_STOP));
    for (const auto& [id, word] : {std::pair{"hole", "K9"}, {"shaft", "t6"}, {"shaft", "P6"}}) {
        TypedById typed = sheet.presets();
        typed["size"] = Typed::of(0.02);
        typed[id] = Typed::of(word);
        const SheetAnswer refused = sheet(typed);
        CHECK(refused.code == FETTLE_REFUSED);
        CHECK(refused.refused_field == id);
        CHECK(refused.refusal.find(word) != std::string::npos);
    }
}

TEST_CASE("what fit hands on goes to an input of a sheet of fit with the same quantity") {
    const PluginLibrary library("fit");
    const fettle_plugin& plugin = *library.describe();
    int handed = 0;
    for (std::uint32_t s = 0; s < plugin.sheet_count; ++s) {
        for (std::uint32_t o = 0; o < plugin.sheets[s]->output_count; ++o) {
            const fettle_output& output = *plugin.sheets[s]->outputs[o];
            const std::string to = output.hands_to;
            if (to.empty()) continue;
            const auto dot = to.rfind('.');
            const fettle_sheet& taker = sheet_named(library, to.substr(0, dot));
            const auto takes = [&](const fettle_input* input) {
                return to.substr(dot + 1) == input->id &&
                       std::string(output.quantity) == input->quantity;
            };
            CHECK_MESSAGE(std::any_of(taker.inputs, taker.inputs + taker.input_count, takes), to);
            ++handed;
        }
    }
    CHECK(handed == 6);
}
