// Backlash, pinion depth and carrier shims against makers' published values, and the geometry
// against a second derivation with vectors. Provenance is given with each value.
#include "plugins/flank_normals.h"
#include "plugins/shim_sheet.h"
#include "shim/mesh.h"

#include <random>

using namespace fettle::test;
using fettle::shim::Mesh;
using fettle::shim::pinion_factor;
using fettle::shim::Reading;
using fettle::shim::ring_factor;

namespace {

double ring_by_vectors(const Mesh& mesh) {
    return freed_by_ring(mesh.pressure, mesh.pitch, mesh.spiral);
}

double pinion_by_vectors(const Mesh& mesh) {
    return freed_by_pinion(mesh.pressure, mesh.pitch, mesh.spiral);
}

const TypedById kMaker14 = {{"read_how", Typed::of("as the maker states")},
                            {"maker_figure", Typed::of(1.4)},
                            {"maker_says", Typed::of("shim = figure x backlash")}};

} // namespace

TEST_CASE("the factors agree with the normals of the flanks for any gears") {
    std::mt19937 engine(3);
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(engine) * kDegree;
    };
    for (int round = 0; round < 2000; ++round) {
        const Mesh mesh{between(10, 30), between(20, 85), between(0, 50)};
        const double around = ring_factor(mesh, Reading::around, 1);
        CHECK(around == doctest::Approx(ring_by_vectors(mesh)));
        CHECK(pinion_factor(around, mesh) == doctest::Approx(pinion_by_vectors(mesh)));
        CHECK(ring_factor(mesh, Reading::square, 1) ==
              doctest::Approx(around * std::cos(mesh.spiral)));
        CHECK(ring_factor(mesh, Reading::elsewhere, 0.8) == doctest::Approx(0.8 * around));
    }
}

TEST_CASE("a ring gear at 90 degrees of pitch is a rack and answers as a spur pair does") {
    // Backlash = 2 tan(pressure) x change of centre distance: gear texts (seen).
    const Mesh rack{14.5 * kDegree, 90 * kDegree, 0};
    CHECK(close_to(ring_factor(rack, Reading::square, 1), 2 * 0.25862,
                   1e-4)); // tan 14.5 deg = 0.25862
}

TEST_CASE("moving the ring gear by ten thousandths changes backlash by seven") {
    // G2, common practice (memory); 20 deg and 75 deg give 0.703: checks of the formula (derived).
    CHECK(close_to(ring_factor(Mesh{}, Reading::square, 1) * 0.010, 0.007, 0.0001));
    CHECK(close_to(ring_factor(Mesh{}, Reading::square, 1), 0.703, 0.0005));
    CHECK(close_to(ring_factor({20 * kDegree, 75 * kDegree, 33 * kDegree}, Reading::around, 1),
                   0.84, 0.005));
    const ShimSheet sheet("shim.backlash");
    const double move =
        sheet.number({{"reading", thous({13, 13, 13, 13})}, {"wanted", thous({6})}}, "move");
    CHECK(close_to(move, 10 * kThou, 0.1 * kThou));
}

TEST_CASE("shim for backlash follows a maker's chart in steps of two thousandths") {
    // G6 (seen): workshop manual 2014, section 205-02, chart. It goes in steps of 0.002 in and fits
    // 1.4 within 0.0016 in; geometry (1 / 0.703) differs from it by less than one step.
    struct Row {
        double backlash, shim;
    };
    const Row chart[] = {{1, 2},   {2, 2},   {3, 4},   {4, 6},   {5, 6},
                         {6, 8},   {7, 10},  {8, 10},  {9, 12},  {10, 14},
                         {11, 14}, {12, 16}, {13, 18}, {14, 18}, {15, 20}};
    const ShimSheet sheet("shim.backlash");
    for (const Row& row : chart) {
        CAPTURE(row.backlash);
        const double least = 3;
        TypedById typed{{"reading", thous({least, least, least, least})},
                        {"wanted", thous({least + row.backlash})}};
        CHECK(close_to(sheet.number(typed, "move"), row.shim * kThou, 2 * kThou));
        typed.insert(kMaker14.begin(), kMaker14.end());
        CHECK(close_to(sheet.number(typed, "move"), row.shim * kThou, 1.61 * kThou));
    }
}

TEST_CASE("a maker's own figure goes before geometry, whichever way round he states it") {
    const ShimSheet sheet("shim.backlash");
    const auto move = [&](double figure, const char* says) {
        return sheet.number({{"reading", thous({4, 4, 4, 4})},
                             {"wanted", thous({8})},
                             {"read_how", Typed::of("as the maker states")},
                             {"maker_figure", Typed::of(figure)},
                             {"maker_says", Typed::of(says)}},
                            "move");
    };
    // Maker's service manual of a medium lorry, 2005 (seen): 0.05 mm (0.002 in) moved from one side
    // to the other changes backlash by 0.03 mm (0.001 in).
    CHECK(close_to(move(0.5, "backlash = figure x shim"), 8 * kThou, 1e-9));
    CHECK(close_to(move(2, "shim = figure x backlash"), 8 * kThou, 1e-9));
    // Makers (seen): shim = backlash x 0.53, backlash being read at another radius.
    CHECK(close_to(move(0.53, "shim = figure x backlash"), 2.12 * kThou, 1e-9));
    sheet.refuses(
        {{"read_how", Typed::of("as the maker states")}, {"maker_figure", Typed::of(0.0)}},
        "maker_figure");
}

TEST_CASE("usual backlash by diametral pitch is the one of the gear makers' table") {
    // AGMA, quality 7 to 13 (seen in a reprint), inches.
    struct Row {
        double from, to, low, high;
    };
    const Row rows[] = {{2.5, 3, 10, 13}, {3, 3.5, 8, 11}, {3.5, 4, 7, 9},
                        {4, 5, 6, 8},     {5, 6, 5, 7},    {6, 8, 4, 6},
                        {8, 10, 3, 5},    {10, 16, 2, 4},  {16, 20, 1, 3}};
    for (const Row& row : rows) {
        const auto usual = fettle::shim::usual_backlash((row.from + row.to) / 2);
        REQUIRE(usual.has_value());
        CHECK(close_to(usual->low, row.low * kThou, 1e-12));
        CHECK(close_to(usual->high, row.high * kThou, 1e-12));
    }
    CHECK(!fettle::shim::usual_backlash(2.4));
    CHECK(!fettle::shim::usual_backlash(20.1));
}

TEST_CASE("backlash wanted that is unusual for the teeth or for the vehicle is cautioned") {
    const ShimSheet sheet("shim.backlash");
    // 41 teeth on 10.5 in: diametral pitch 3.9, usual 0.007 to 0.009 in (AGMA, seen).
    TypedById typed{{"ring_teeth", Typed::of(41)},
                    {"pinion_teeth", Typed::of(11)},
                    {"ring_diameter", Typed::of(10.5 * 0.0254)},
                    {"wanted", thous({7, 9})}};
    CHECK(!sheet.answer(typed).has_note(FETTLE_CAUTION));
    typed["wanted"] = thous({14, 16});
    CHECK(sheet.answer(typed).has_note(FETTLE_CAUTION, "teeth of this pitch"));
    // Makers' manuals (seen): 0.004 to 0.009 in, heavy 0.008 to 0.018 in.
    CHECK(sheet.answer(typed).has_note(FETTLE_CAUTION, "car or light lorry"));
    typed["vehicle"] = Typed::of("heavy lorry");
    CHECK(!sheet.answer(typed).has_note(FETTLE_CAUTION, "heavy lorry"));
}

TEST_CASE("too much backlash takes shim from the far side, too little from the ring gear's side") {
    const ShimSheet sheet("shim.backlash");
    TypedById typed{{"reading", thous({12, 12.5, 13, 12.5})}, {"wanted", thous({6, 9})}};
    const SheetAnswer much = sheet.answer(typed);
    CHECK(much.texts.at("from_side") == "right");
    CHECK(much.texts.at("to_side") == "left");
    CHECK(much.numbers.at("new_left") > 37.5 * kThou);
    CHECK(
        close_to(much.numbers.at("new_left") + much.numbers.at("new_right"), 79.5 * kThou, 1e-12));
    CHECK(close_to(much.numbers.at("runout"), 1 * kThou, 1e-12));
    typed["ring_side"] = Typed::of("right");
    CHECK(sheet.answer(typed).texts.at("from_side") == "left");
    typed["reading"] = thous({3, 3, 3, 3});
    CHECK(sheet.answer(typed).texts.at("from_side") == "right");
    typed["reading"] = thous({6, 7, 8, 7});
    const SheetAnswer right = sheet.answer(typed);
    CHECK(right.numbers.at("move") == 0);
    CHECK(right.texts.count("from_side") == 0);
}

TEST_CASE("variation beyond what is permitted and a place left without backlash are marked stop") {
    const ShimSheet sheet("shim.backlash");
    CHECK(sheet.answer({{"reading", thous({10, 12.1, 11, 11})}}).has_note(FETTLE_STOP, "run-out"));
    CHECK(!sheet.answer({{"reading", thous({10, 12, 11, 11})}}).has_note(FETTLE_STOP));
    const SheetAnswer jams =
        sheet.answer({{"reading", thous({10, 20, 15, 15})}, {"wanted", thous({4})}});
    CHECK(jams.has_note(FETTLE_STOP, "jam"));
    const SheetAnswer thin = sheet.answer(
        {{"reading", thous({40, 40, 40, 40})}, {"left", thou(20)}, {"right", thou(10)}});
    CHECK(thin.has_note(FETTLE_STOP, "One side would need"));
    CHECK(thin.numbers.count("new_left") == 0);
}

TEST_CASE("the pinion shim of a maker's worked example is the difference of his two readings") {
    // G8 (seen): a = 84.01 mm, b = 83.50 mm, shim 0.51 mm.
    const ShimSheet sheet("shim.pinion");
    CHECK(close_to(sheet.number({}, "shim"), 0.51e-3, 1e-9));
    // The same, b given in parts; and under a flange, where a thicker shim takes the pinion away.
    CHECK(close_to(sheet.number({{"parts", Typed::list({0.0600, 0.0135, 0.0100})}}, "shim"),
                   0.51e-3, 1e-9));
    const SheetAnswer flange = sheet.answer(
        {{"parts", Typed::list({0.08452})}, {"acts", Typed::of("away from the ring gear")}});
    CHECK(close_to(flange.numbers.at("shim"), 0.51e-3, 1e-9));
}

TEST_CASE("plus on the pinion comes off the shim, unless the maker means it the other way") {
    // Maker's manual, 1983 (seen): +n is subtracted from, -n added to the measured shim.
    const ShimSheet sheet("shim.pinion");
    const double plain = sheet.number({}, "shim");
    CHECK(close_to(sheet.number({{"new_mark", thou(3)}}, "shim"), plain - 3 * kThou, 1e-12));
    CHECK(close_to(sheet.number({{"new_mark", thou(-3)}}, "shim"), plain + 3 * kThou, 1e-12));
    CHECK(close_to(
        sheet.number({{"new_mark", thou(3)}, {"mark_means", Typed::of("plus goes onto the shim")}},
                     "shim"),
        plain + 3 * kThou, 1e-12));
    const double again = sheet.number({{"how", Typed::of("from the shim that was in")},
                                       {"existing", thou(30)},
                                       {"old_mark", thou(2)},
                                       {"new_mark", thou(-1)}},
                                      "shim");
    CHECK(close_to(again, 33 * kThou, 1e-12)); // from +2 to -1: three thousandths onto the shim
}

TEST_CASE("a pinion that stands too far out gets the shim that brings it in, wherever it sits") {
    const ShimSheet sheet("shim.pinion");
    TypedById typed{{"how", Typed::of("from the shim that was in")},
                    {"existing", thou(30)},
                    {"depth_error", thou(4)}};
    const SheetAnswer behind = sheet.answer(typed);
    CHECK(close_to(behind.numbers.at("shim"), 34 * kThou, 1e-12));
    CHECK(behind.texts.at("verdict").find("nearer the ring gear") != std::string::npos);
    typed["acts"] = Typed::of("away from the ring gear");
    const SheetAnswer flange = sheet.answer(typed);
    CHECK(close_to(flange.numbers.at("shim"), 26 * kThou, 1e-12));
    CHECK(flange.texts.at("verdict").find("nearer the ring gear") != std::string::npos);
}

TEST_CASE("pinion readings that leave less than no room give no shim but a stop") {
    const ShimSheet sheet("shim.pinion");
    const SheetAnswer none = sheet.answer({{"parts", Typed::list({0.0850})}});
    CHECK(none.has_note(FETTLE_STOP, "cannot be"));
    CHECK(none.numbers.count("shim") == 0);
    sheet.refuses({{"new_mark", Typed::of(0.003)}}, "new_mark");
    sheet.refuses({{"housing", Typed::of(2.0)}}, "housing");
}

TEST_CASE("carrier stacks fill the float and the preload and leave the teeth apart as wanted") {
    const ShimSheet sheet("shim.carrier");
    const SheetAnswer answer = sheet.answer({{"wanted", thous({7})}});
    const double left = answer.numbers.at("new_left");
    const double right = answer.numbers.at("new_right");
    // Maker's manual, 1989 (seen): preload is shim beyond no float, 0.004 in more on each side.
    CHECK(close_to(left + right, (60 + 15.5 + 8) * kThou, 1e-12));
    // Put together by hand: the teeth meet 14 thou from the stop; the left stack has grown by the
    // way the carrier stands off that stop, and half the preload.
    const double stands_off = (left - 30 * kThou) - 4 * kThou;
    CHECK(close_to((14 * kThou - stands_off) * ring_by_vectors(Mesh{}), 7 * kThou, 1e-9));
    const double same =
        sheet.number({{"wanted", thous({7})}, {"ring_side", Typed::of("right")}}, "new_right");
    CHECK(close_to(same, left, 1e-12));
    const double by_backlash = sheet.number({{"wanted", thous({7})},
                                             {"meet_by", Typed::of("backlash at the far stop")},
                                             {"far_backlash", thou(14 * ring_by_vectors(Mesh{}))}},
                                            "new_left");
    CHECK(close_to(by_backlash, left, 1e-9));
}

TEST_CASE("a carrier that travels farther than its float contradicts itself and is marked stop") {
    const ShimSheet sheet("shim.carrier");
    const SheetAnswer answer = sheet.answer({{"travel", thou(18)}});
    CHECK(answer.has_note(FETTLE_STOP, "contradict each other"));
    CHECK(answer.numbers.count("new_left") == 0);
    CHECK(sheet.answer({{"preload", thou(30)}}).has_note(FETTLE_CAUTION, "preload"));
    const SheetAnswer thin = sheet.answer(
        {{"left", thou(0)}, {"travel", thou(1)}, {"preload", thou(0)}, {"wanted", thous({30})}});
    CHECK(thin.has_note(FETTLE_STOP, "One side would need"));
}

TEST_CASE("what backlash is read with and the gears are checked against each other") {
    const ShimSheet sheet("shim.backlash");
    sheet.refuses({{"ring_teeth", Typed::of(41)}}, "pinion_teeth");
    sheet.refuses({{"pinion_teeth", Typed::of(11)}}, "ring_teeth");
    sheet.refuses({{"ring_teeth", Typed::of(9)}, {"pinion_teeth", Typed::of(11)}}, "ring_teeth");
    sheet.refuses({{"ring_teeth", Typed::of(41)},
                   {"pinion_teeth", Typed::of(11)},
                   {"pitch_angle", Typed::of(60 * kDegree)}},
                  "pitch_angle");
    sheet.refuses({{"read_how", Typed::of("at another radius")}, {"read_radius", Typed::of(0.0)}},
                  "read_radius");
    sheet.refuses({{"wanted", thous({9, 6})}}, "wanted");
    sheet.refuses({{"wanted", thous({6, 7, 8})}}, "wanted");
    const double counted =
        sheet.number({{"ring_teeth", Typed::of(41)}, {"pinion_teeth", Typed::of(11)}}, "factor");
    CHECK(close_to(counted, 2 * 0.36397 * 0.96585, 1e-4)); // tan 20 deg, sin(atan(41/11)), by table
}

TEST_CASE("more backlash read asks for more shim across, and doubling lengths doubles the move") {
    const ShimSheet sheet("shim.backlash");
    double before = 0;
    for (double read = 10; read < 30; read += 1.5) {
        const TypedById typed{{"reading", thous({read, read, read, read})}, {"wanted", thous({6})}};
        const double move = sheet.number(typed, "move");
        CHECK(move > before);
        before = move;
        const TypedById twice{{"reading", thous({2 * read, 2 * read, 2 * read, 2 * read})},
                              {"wanted", thous({12})}};
        CHECK(sheet.number(twice, "move") == doctest::Approx(2 * move));
    }
    double thinner = 1;
    for (double pressure = 14; pressure < 30; pressure += 2) {
        const double move =
            sheet.number({{"pressure_angle", Typed::of(pressure * kDegree)}}, "move");
        CHECK(move < thinner); // steeper flanks: backlash answers more, less shim is needed
        thinner = move;
    }
}

TEST_CASE("twice every length in is twice every length out, on the sheets that only add lengths") {
    const auto doubled = [](const char* id, const TypedById& typed, const char* output) {
        const ShimSheet sheet(id);
        TypedById twice = typed;
        for (auto& [name, value] : twice) {
            if (value.number) *value.number *= 2;
            for (double& each : value.numbers)
                each *= 2;
        }
        CAPTURE(std::string(id));
        CHECK(sheet.number(twice, output) == doctest::Approx(2 * sheet.number(typed, output)));
    };
    doubled("shim.pinion", {{"housing", thou(3300)}, {"parts", thous({2000, 1280})}}, "shim");
    const TypedById carrier{{"left", thou(20)},   {"right", thou(25)},  {"end_float", thou(15)},
                            {"travel", thou(13)}, {"preload", thou(6)}, {"wanted", thous({6, 8})}};
    doubled("shim.carrier", carrier, "new_left");
    doubled("shim.carrier", carrier, "new_right");
    doubled("shim.endfloat",
            {{"end_float", thous({14, 15})}, {"shim", thou(12)}, {"wanted", thous({2, 8})}},
            "new_shim");
    doubled("shim.drag", {{"diameter", thou(4000)}, {"cord", thou(80)}}, "torque");
}
