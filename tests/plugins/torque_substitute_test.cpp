// The sheet torque.substitute as the host meets it: bolts offered in place of others.
#include "plugins/torque_sheet.h"

#include <tuple>

using namespace fettle::test;

TEST_CASE("a socket screw for a leaf spring's centre bolt is fit only under conditions") {
    const Sheet sheet("torque.substitute");
    const SheetAnswer answer = sheet.answer(sheet.presets());
    CHECK(answer.texts.at("verdict") == "fit with conditions");
    CHECK(answer.texts.at("because").find("nut must stay with it") != std::string::npos);
    CHECK(answer.texts.at("offered_thread") == "7/16-20 UNF");
    CHECK(answer.has_note(FETTLE_CAUTION, "leaves spring apart"));
    CHECK(answer.words.at("comparison").size() >= 10);
    CHECK(answer.series.at("side_by_side").size() == 3);
    // 7/16-20 has 0.1187 in² (Shigley table 8-2, seen), A574 180 ksi: 21.4 kip; 7/16-18 BSF of
    // 45 tonf/in² has, by BS 84, mean diameter 0.4375 - 0.9605/18: 0.1159 in²: 11.7 kip.
    near(answer.numbers.at("strength_ratio"), 0.1187 * 180 / (0.1159 * 45 * 2.24), 0.003);
    near(answer.numbers.at("area_ratio"), 0.1187 / 0.1159, 0.002);
}

TEST_CASE("each reason against a substitute is found, named and stopped") {
    const Sheet sheet("torque.substitute");
    struct Row {
        const char* input;
        Typed typed;
        const char* measure;
        const char* words;
    };
    const Row rows[] = {
        {"mating", Typed::of("the old nut stays"), "thread and pitch", "bind after a turn"},
        {"b_grade", Typed::of("SAE 1"), "strength", "breaks at"},
        {"b_thread", Typed::of("3/8-24 UNF"), "diameter", "locates nothing"},
        {"b_finish", Typed::of("zinc or cadmium electroplated"), "finish", "hydrogen"},
        {"b_length", Typed::of(2.2 * kInch), "engagement", "is left"},
        {"b_shank", Typed::of(2.3 * kInch), "engagement", "jams on the shank"},
        {"seat_hole", Typed::of(0.6 * kInch), "head as locator", "does not enter"},
        {"seat_hole", Typed::of(0.75 * kInch), "head as locator", "of play"},
        {"seat_depth", Typed::of(0.4 * kInch), "head as locator", "touches bottom"},
        {"head_room", Typed::of(0.4 * kInch), "head height", "of room"},
        {"b_head_od", Typed::of(0.45 * kInch), "head bearing", "pulls through"}};
    for (const Row& row : rows) {
        CAPTURE(std::string(row.input));
        CAPTURE(std::string(row.words));
        const SheetAnswer answer = sheet.answer(with(sheet.presets(), row.input, row.typed));
        CHECK(answer.texts.at("verdict") == "not fit");
        CHECK(answer.has_note(FETTLE_STOP, row.words));
        CHECK(answer.texts.at("because").find(row.measure) != std::string::npos);
        CHECK(answer.texts.at("worse").find(row.measure) != std::string::npos);
    }
}

TEST_CASE("threads that look alike and do not mate are told apart") {
    const Sheet sheet("torque.substitute");
    struct Row {
        const char* original;
        const char* offered;
        const char* words; // "" when they mate
    };
    // BS 84, ASME B1.1, ISO 261, BS 93.
    const Row rows[] = {{"1/4-20 BSW", "1/4-20 UNC", "flanks are not"},
                        {"1/2-12 BSW", "1/2-13 UNC", "bind after a turn"},
                        {"3/8-20 BSF", "3/8-24 UNF", "bind after a turn"},
                        {"1/4-26 BSF", "1/4-26 BSC", "flanks are not"},
                        {"0BA", "M6", "flanks are not"},
                        {"5/16-24 UNF", "M8", "thick"},
                        {"3/8-16 UNC", "3/8-16 UNC", ""}};
    for (const Row& row : rows) {
        CAPTURE(std::string(row.original));
        const bool metric = row.offered[0] == 'M';
        const SheetAnswer answer = sheet.answer(
            {{"a_thread", Typed::of(row.original)},
             {"a_grade", Typed::of(std::string(row.original) == "0BA" ? "ISO 4.6" : "BS letter R")},
             {"b_thread", Typed::of(row.offered)},
             {"b_grade", Typed::of(metric ? "ISO 8.8" : "SAE 5")},
             {"mating", Typed::of("the old nut stays")}});
        CHECK(answer.has_note(FETTLE_STOP, "does not mate") == !std::string(row.words).empty());
        CHECK(answer.texts.at("because").find(row.words) != std::string::npos);
    }
}

TEST_CASE("a bolt is a fit replacement for its own like") {
    const Sheet sheet("torque.substitute");
    for (const char* grade : {"SAE 1", "SAE 5", "BS letter T"}) {
        const SheetAnswer answer = sheet.answer({{"a_thread", Typed::of("3/8-16 UNC")},
                                                 {"a_grade", Typed::of(grade)},
                                                 {"b_thread", Typed::of("3/8 UNC")},
                                                 {"b_grade", Typed::of(grade)},
                                                 {"mating", Typed::of("the old nut stays")}});
        CHECK(answer.texts.at("verdict") == "fit");
        CHECK(answer.texts.at("worse") == "nothing");
        CHECK(answer.numbers.at("strength_ratio") == 1);
        CHECK_FALSE(answer.has_note(FETTLE_STOP));
        CHECK_FALSE(answer.has_note(FETTLE_CAUTION));
    }
}

TEST_CASE("a stronger grade is never worse in strength, and asks for care when it is hard") {
    const Sheet sheet("torque.substitute");
    TypedById typed{{"a_thread", Typed::of("M10")},
                    {"a_grade", Typed::of("ISO 5.8")},
                    {"b_thread", Typed::of("M10")},
                    {"mating", Typed::of("the old nut stays")}};
    double before = 0;
    for (const char* grade :
         {"ISO 4.6", "ISO 4.8", "ISO 5.8", "ISO 6.8", "ISO 8.8", "ISO 10.9", "ISO 12.9"}) {
        CAPTURE(std::string(grade));
        const SheetAnswer answer = sheet.answer(with(typed, "b_grade", Typed::of(grade)));
        const double ratio = answer.numbers.at("strength_ratio");
        CHECK(ratio > before);
        CHECK((answer.texts.at("verdict") == "not fit") == (ratio < 1));
        before = ratio;
    }
    typed["b_grade"] = Typed::of("ISO 12.9");
    CHECK(sheet.answer(typed).texts.at("because").find("old nut") != std::string::npos);
    typed["b_grade"] = Typed::of("ISO 10.9");
    typed["b_finish"] = Typed::of("zinc or cadmium electroplated");
    CHECK(sheet.answer(typed).texts.at("because").find("bakes") != std::string::npos);
    typed["locking"] = Typed::of("split pin or wire");
    CHECK(sheet.answer(typed).texts.at("because").find("drilled") != std::string::npos);
    typed["locking"] = Typed::of("prevailing-torque nut");
    CHECK(sheet.answer(typed).texts.at("because").find("used before") != std::string::npos);
}

TEST_CASE("thread in the shear plane is told, and plain shank there is not") {
    const Sheet sheet("torque.substitute");
    TypedById typed{{"a_thread", Typed::of("M10")},      {"a_grade", Typed::of("ISO 8.8")},
                    {"b_thread", Typed::of("M10")},      {"b_grade", Typed::of("ISO 8.8")},
                    {"job", Typed::of("carries shear")}, {"grip", Typed::of(0.030)},
                    {"a_shank", Typed::of(0.030)},       {"b_length", Typed::of(0.050)}};
    typed["b_shank"] = Typed::of(0.0295);
    CHECK(sheet.answer(typed).texts.at("because").find("shear") == std::string::npos);
    typed["b_shank"] = Typed::of(0.010);
    const SheetAnswer threaded = sheet.answer(typed);
    CHECK(threaded.texts.at("verdict") == "not fit");
    CHECK(threaded.texts.at("because").find("shear plane") != std::string::npos);
    typed.erase("b_shank");
    CHECK(sheet.answer(typed).texts.at("verdict") == "fit with conditions");
}

TEST_CASE("fields of the substitute sheet are refused by their own names") {
    const Sheet sheet("torque.substitute");
    const std::tuple<const char*, Typed, const char*> rows[] = {
        {"a_thread", Typed::of("1/4-20"), "a_thread"},
        {"b_thread", Typed::of("banana"), "b_thread"},
        {"b_grade", Typed::of("ISO 8.8 "), "b_grade"},
        {"a_thread", Typed::of("#10-32"), "a_grade"},
        {"b_head_od", Typed::of(0.005), "b_head_od"},
        {"b_shank", Typed::of(0.1), "b_shank"},
        {"job", Typed::of("dancing"), "job"}};
    for (const auto& [input, typed, field] : rows) {
        CAPTURE(std::string(input));
        TypedById all = with(sheet.presets(), input, typed);
        if (std::string(field) == "a_grade") all["a_grade"] = Typed::of("SAE 5");
        const SheetAnswer answer = sheet(all);
        CHECK(answer.code == FETTLE_REFUSED);
        CHECK(answer.refused_field == field);
        CHECK(answer.refusal.rfind(std::string(field) + ":", 0) == 0);
    }
}
