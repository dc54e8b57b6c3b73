// The sheet torque.tighten as the host meets it: unsafe results, properties, pictures.
#include "plugins/torque_sheet.h"

#include <algorithm>
#include <set>

using namespace fettle::test;

TEST_CASE("what a field waits for and what an answer hands on exist in the sheets") {
    const PluginLibrary library("torque");
    const fettle_plugin& plugin = *library.describe();
    std::set<std::string> inputs;
    for (std::uint32_t s = 0; s < plugin.sheet_count; ++s) {
        const fettle_sheet& sheet = *plugin.sheets[s];
        std::set<std::string> held; // "load=pull along the bolt"
        for (std::uint32_t i = 0; i < sheet.input_count; ++i) {
            const fettle_input& input = *sheet.inputs[i];
            inputs.insert(std::string(sheet.id) + "." + input.id);
            for (std::uint32_t c = 0; c < input.choice_count; ++c)
                held.insert(std::string(input.id) + "=" + input.choices[c]);
            const std::string preset = input.preset;
            if (input.choice_count > 0 && !preset.empty())
                CHECK(held.count(std::string(input.id) + "=" + preset) == 1);
        }
        for (std::uint32_t i = 0; i < sheet.input_count; ++i) {
            const std::string when = sheet.inputs[i]->when;
            if (!when.empty()) CHECK_MESSAGE(held.count(when) == 1, when);
        }
    }
    for (std::uint32_t s = 0; s < plugin.sheet_count; ++s) {
        for (std::uint32_t o = 0; o < plugin.sheets[s]->output_count; ++o) {
            const std::string to = plugin.sheets[s]->outputs[o]->hands_to;
            if (!to.empty()) CHECK_MESSAGE(inputs.count(to) == 1, to);
        }
    }
}

TEST_CASE("torque and scatter go the way physics has them, input by input") {
    const Sheet sheet("torque.tighten");
    const std::vector<double> shares = {0.1, 0.3, 0.5, 0.75, 0.9};
    check_monotonic(sheet, kM12, "use", shares, "torque", 1);
    check_monotonic(sheet, kM12, "use", shares, "preload", 1);
    check_monotonic(sheet, kM12, "use", shares, "head_pressure", 1);
    check_monotonic(sheet, kM12, "scatter", shares, "preload_min", -1);
    check_monotonic(sheet, kM12, "scatter", shares, "preload_max", 1);
    check_monotonic(sheet, kM12, "mu_head", {0.05, 0.1, 0.2, 0.4}, "torque", 1);
    check_monotonic(sheet, kM12, "bearing_od", {0.015, 0.02, 0.03}, "torque", 1);
    check_monotonic(sheet, kM12, "bearing_od", {0.015, 0.02, 0.03}, "head_pressure", -1);
    check_monotonic(sheet, kM12, "prevailing", {0, 2, 5, 20}, "torque", 1);
    check_monotonic(sheet, kM12, "into_strength", {100e6, 200e6, 400e6}, "engagement", -1);
    check_monotonic(sheet, kM12, "engagement_have", {0.004, 0.008, 0.02}, "strip_load", 1);
    const TypedById adapter = with(kM12, "wrench", Typed::of(0.4));
    check_monotonic(sheet, adapter, "adapter", {0, 0.05, 0.1, 0.3}, "wrench_setting", -1);
    TypedById pulled = with(kM12, "load", Typed::of("pull along the bolt"));
    pulled["external_load"] = Typed::of(5000.0);
    check_monotonic(sheet, pulled, "grip", {0.01, 0.02, 0.04, 0.08}, "load_share", -1);
    pulled["grip"] = Typed::of(0.04);
    check_monotonic(sheet, pulled, "external_load", {0, 1e3, 1e4}, "service_stress", 1);
    check_monotonic(sheet, pulled, "use", shares, "separation_load", 1);
}

TEST_CASE("the same thread said in inches and in millimetres wants the same torque") {
    // 1/2-20 is 12.7 x 1.27 mm: form and geometry are the same, only the area rules differ.
    const Sheet sheet("torque.tighten");
    TypedById typed = {{"grade", Typed::of("strength typed")},
                       {"proof_stress", Typed::of(600e6)},
                       {"tensile_strength", Typed::of(800e6)},
                       {"mu_thread", Typed::of(0.14)},
                       {"mu_head", Typed::of(0.1)},
                       {"bearing_od", Typed::of(0.018)},
                       {"hole", Typed::of(0.0135)}};
    const auto arm = [&](const char* thread) {
        const SheetAnswer answer = sheet.answer(with(typed, "thread", Typed::of(thread)));
        return answer.numbers.at("torque") / answer.numbers.at("preload");
    };
    CHECK(arm("1/2-20 UNF") == doctest::Approx(arm("M12.7x1.27")));
}

TEST_CASE("a prevailing torque is added, and never lessens the preload") {
    const Sheet sheet("torque.tighten");
    const SheetAnswer plain = sheet.answer(kM12);
    const SheetAnswer locked = sheet.answer(with(kM12, "prevailing", Typed::of(12.0)));
    CHECK(locked.numbers.at("torque") == doctest::Approx(plain.numbers.at("torque") + 12));
    CHECK(locked.numbers.at("preload") == plain.numbers.at("preload"));
    CHECK(locked.has_working("+ 12.0 N·m"));
    CHECK(locked.has_note(FETTLE_CAUTION, "used once"));
}

TEST_CASE("a thread too short in its hole is marked, and one long enough is not") {
    const Sheet sheet("torque.tighten");
    for (const char* into : {"full nut of its grade", "steel", "cast iron", "aluminium"}) {
        CAPTURE(std::string(into));
        const TypedById typed = with(kM12, "into", Typed::of(into));
        const double needed = sheet.number(typed, "engagement");
        const SheetAnswer shorter =
            sheet.answer(with(typed, "engagement_have", Typed::of(0.98 * needed)));
        CHECK(shorter.has_note(FETTLE_STOP, "Engagement too short"));
        const SheetAnswer enough =
            sheet.answer(with(typed, "engagement_have", Typed::of(1.02 * needed)));
        CHECK_FALSE(enough.has_note(FETTLE_STOP));
        // Long enough, the bolt breaks first: 84.3 mm² of 800 MPa, ISO 898-1 (seen): 67.4 kN.
        CHECK(enough.numbers.at("strip_load") > 67.4e3);
        CHECK(shorter.numbers.at("strip_load") < 67.5e3);
    }
    // The weaker the part, the more thread.
    const auto needed = [&](const char* into) {
        return sheet.number(with(kM12, "into", Typed::of(into)), "engagement");
    };
    CHECK(needed("cast iron") > needed("aluminium"));
    CHECK(needed("aluminium") > needed("steel"));
    CHECK(needed("steel") > needed("full nut of its grade"));
}

TEST_CASE("a joint under load has the published stress and is stopped when it opens") {
    // Shigley, 9th ed., example 8-3 (seen): 25 kip on 3/4-16 UNF of SAE 5, 6 kip outer load.
    const Sheet sheet("torque.tighten");
    TypedById typed = {{"thread", Typed::of("3/4-16 UNF")},
                       {"grade", Typed::of("SAE 5")},
                       {"mu_thread", Typed::of(0.15)},
                       {"mu_head", Typed::of(0.15)},
                       {"scatter", Typed::of(0.0)},
                       {"use", Typed::of(25.0 / (85 * 0.373))},
                       {"load", Typed::of("pull along the bolt")},
                       {"external_load", Typed::of(6000 * kPoundForce)},
                       {"bolt_stiffness", Typed::of(6.50 * kMegaPoundPerInch)},
                       {"joint_stiffness", Typed::of(13.8 * kMegaPoundPerInch)}};
    const SheetAnswer answer = sheet.answer(typed);
    near(answer.numbers.at("load_share"), 0.320, 0.002);
    near(answer.numbers.at("service_stress") / kKsi, 72.17, 0.0005);
    CHECK_FALSE(answer.has_note(FETTLE_STOP));
    // Parts lose touch at F/(1 - C) = 25/(1 - 0.320) = 36.8 kip, by hand.
    near(answer.numbers.at("separation_load"), 36800 * kPoundForce, 0.002);
    typed["external_load"] = Typed::of(37500 * kPoundForce);
    CHECK(sheet.answer(typed).has_note(FETTLE_STOP, "joint opens"));
}

TEST_CASE("stiffness from grip and shank gives the share of the worked example") {
    // Shigley, example 8-4 (seen): 5/8-11 UNC, SAE 5, grip 1.5 in, 0.75 plain, cast iron of 14
    // Mpsi (here 97 GPa): C = 0.368, F = 14.4 kip, parts at 3.80 x 6 kip.
    const Sheet sheet("torque.tighten");
    const SheetAnswer answer = sheet.answer({{"thread", Typed::of("5/8-11 UNC")},
                                             {"grade", Typed::of("SAE 5")},
                                             {"mu_thread", Typed::of(0.15)},
                                             {"mu_head", Typed::of(0.15)},
                                             {"scatter", Typed::of(0.0)},
                                             {"bears_on", Typed::of("cast iron")},
                                             {"load", Typed::of("pull along the bolt")},
                                             {"external_load", Typed::of(6000 * kPoundForce)},
                                             {"grip", Typed::of(1.5 * kInch)},
                                             {"shank", Typed::of(0.75 * kInch)}});
    near(answer.numbers.at("preload"), 14400 * kPoundForce, 0.004);
    near(answer.numbers.at("load_share"), 0.368, 0.004);
    near(answer.numbers.at("separation_load"), 3.80 * 6000 * kPoundForce, 0.006);
}

TEST_CASE("scatter can come from a tightening factor, as VDI 2230 has it") {
    // M12, 8.8, mu 0.14: 41.9 kN (VDI 2230 table A1, memory); over 1.8 it is 23.3 kN (seen).
    const Sheet sheet("torque.tighten");
    TypedById typed = {{"thread", Typed::of("M12")},
                       {"grade", Typed::of("ISO 8.8")},
                       {"surface", Typed::of("dry as delivered")}, // its least friction is 0.14
                       {"basis", Typed::of("yield")},
                       {"scatter_by", Typed::of("tightening factor")},
                       {"tightening_factor", Typed::of(1.8)}};
    const SheetAnswer answer = sheet.answer(typed);
    near(answer.numbers.at("preload"), 41.9e3, 0.004);
    near(answer.numbers.at("preload_min"), 23.3e3, 0.005);
    CHECK(answer.numbers.at("preload_max") == answer.numbers.at("preload"));
    typed.erase("tightening_factor");
    CHECK(sheet.number(typed, "preload_min") == doctest::Approx(answer.numbers.at("preload_min")));
    typed["tightening_factor"] = Typed::of(2.5);
    CHECK(sheet.number(typed, "preload_min") < answer.numbers.at("preload_min"));
}

TEST_CASE("scatter can come from own readings, and readings that contradict are stopped") {
    // Shigley, table 8-14 (seen): mean 34.18, deviation 2.88 kN, so two deviations are 16.85 %.
    const Sheet sheet("torque.tighten");
    TypedById typed = with(kM12, "scatter_by", Typed::of("own readings"));
    typed["use"] = Typed::of(34180 / 48900.0); // about the mean of the readings
    typed["bearing_od"] = Typed::of(0.024);    // a washer of ISO 7089, for the pressure
    CHECK(sheet(typed).refused_field == "readings");
    typed["readings"] =
        Typed::list({30300, 32500, 32500, 32900, 32900, 33800, 34300, 34700, 37400, 40500});
    const SheetAnswer answer = sheet.answer(typed);
    const double preload = answer.numbers.at("preload");
    near(answer.numbers.at("preload_min"), preload * (1 - 2 * 2.88 / 34.18), 0.002);
    near(answer.numbers.at("preload_max"), preload * (1 + 2 * 2.88 / 34.18), 0.002);
    CHECK_FALSE(answer.has_note(FETTLE_STOP));
    CHECK_FALSE(answer.has_note(FETTLE_CAUTION));
    typed["readings"] = Typed::list({5000, 60000, 12000});
    CHECK(sheet.answer(typed).has_note(FETTLE_STOP, "contradict"));
    typed["readings"] = Typed::list({10000, 10100, 9900});
    CHECK(sheet.answer(typed).has_note(FETTLE_CAUTION, "another torque"));
}

TEST_CASE("a strength of one's own is taken, and one that contradicts itself is refused") {
    const Sheet sheet("torque.tighten");
    TypedById typed = with(kM12, "grade", Typed::of("strength typed"));
    CHECK(sheet(typed).refused_field == "proof_stress");
    typed["proof_stress"] = Typed::of(580e6);
    CHECK(sheet(typed).refused_field == "tensile_strength");
    typed["tensile_strength"] = Typed::of(800e6);
    typed["yield_stress"] = Typed::of(640e6);
    CHECK(sheet.number(typed, "torque") == doctest::Approx(sheet.number(kM12, "torque")));
    typed["yield_stress"] = Typed::of(500e6);
    CHECK(sheet(typed).refused_field == "yield_stress");
    typed["yield_stress"] = Typed::of(900e6);
    CHECK(sheet(typed).refused_field == "tensile_strength");
}

TEST_CASE("a bolt that may break at the upper end of the scatter is stopped") {
    const Sheet sheet("torque.tighten");
    TypedById typed = with(kM12, "use", Typed::of(0.9));
    typed["scatter"] = Typed::of(0.2);
    CHECK(sheet.answer(typed).has_note(FETTLE_CAUTION)); // 0.9 x 1.2 x 580 = 626 MPa of proof 580
    CHECK_FALSE(sheet.answer(typed).has_note(FETTLE_STOP));
    typed["scatter"] = Typed::of(0.6); // 835 MPa of 800
    CHECK(sheet.answer(typed).has_note(FETTLE_STOP, "breaks"));
}

TEST_CASE("brakes, steering and the rest bring their own caution, elsewhere brings none") {
    const Sheet sheet("torque.tighten");
    const TypedById typed = with(kM12, "bearing_od", Typed::of(0.024));
    CHECK_FALSE(
        sheet.answer(with(typed, "place", Typed::of("elsewhere"))).has_note(FETTLE_CAUTION));
    const std::pair<const char*, const char*> places[] = {
        {"brakes", "brake engineer"},  {"steering", "split pin"},
        {"suspension", "can kill"},    {"wheels", "crosswise"},
        {"engine or gearbox", "once"}, {"lifting or towing", "certif"}};
    for (const auto& [place, words] : places) {
        CAPTURE(std::string(place));
        CHECK(sheet.answer(with(typed, "place", Typed::of(place))).has_note(FETTLE_CAUTION, words));
    }
}

TEST_CASE("a small head on soft metal is cautioned, a washer under it is not") {
    const Sheet sheet("torque.tighten");
    TypedById typed = with(kM12, "bears_on", Typed::of("aluminium"));
    CHECK(sheet.answer(typed).has_note(FETTLE_CAUTION, "washer"));
    typed["bearing_od"] = Typed::of(0.024); // a washer of ISO 7089
    CHECK_FALSE(sheet.answer(typed).has_note(FETTLE_CAUTION, "washer"));
}

TEST_CASE("the drawing shows bolt and engagement to scale, the chart the band of the scatter") {
    const Sheet sheet("torque.tighten");
    CHECK(sheet.described().smooth == 1);
    TypedById typed = with(kM12, "grip", Typed::of(0.020));
    typed["engagement_have"] = Typed::of(0.015);
    const SheetAnswer answer = sheet.answer(typed);
    const auto& bolt = answer.series.at("bolt");
    REQUIRE(bolt.size() >= 6);
    const auto& outline = bolt.front().points;
    CHECK(bolt.front().name == "M12x1.75");
    CHECK(bolt.front().look == FETTLE_BODY);
    CHECK(outline.front().x == outline.back().x);
    CHECK(outline.front().y == outline.back().y);
    double left = 0;
    double right = 0;
    for (const fettle_point& point : outline) {
        left = std::min(left, point.x);
        right = std::max(right, point.x);
        CHECK(std::abs(point.y) <= 0.0090001); // 18 mm across the flats, ISO 4014
    }
    CHECK(left == doctest::Approx(-0.0075)); // head height, ISO 4014
    CHECK(right == doctest::Approx(0.035 + 0.00175));
    const DrawnSeries& needed = bolt.back();
    CHECK(needed.look == FETTLE_DASHED);
    CHECK(needed.points.front().x == doctest::Approx(0.020 + answer.numbers.at("engagement")));
    const auto& chart = answer.series.at("preload");
    CHECK(chart.front().name == "scatter");
    const double torque = answer.numbers.at("torque");
    bool marked = false;
    for (const DrawnSeries& series : chart) {
        if (series.look != FETTLE_DOTS) continue;
        marked = series.points.front().x == torque &&
                 series.points.front().y == answer.numbers.at("preload");
    }
    CHECK(marked);
    // The band at the right edge is as wide against the middle as the scatter.
    const auto& band = chart.front().points;
    CHECK(band[1].y / band[2].y ==
          doctest::Approx(answer.numbers.at("preload_max") / answer.numbers.at("preload_min")));
}
