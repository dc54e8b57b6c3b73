// spring.pack and spring.sag through the built plugin: what is said beside the numbers.
#include "plugins/plugin_library.h"
#include "plugins/published.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <random>

using namespace fettle::test;

namespace {

constexpr double kIn = 0.0254;
constexpr double kLbf = 4.4482216152605;
constexpr double kLbfPerIn = kLbf / kIn;

class SpringSheet {
  public:
    explicit SpringSheet(const char* id) : library_("spring"), sheet_(sheet_named(library_, id)) {}

    SheetAnswer operator()(const TypedById& typed) const { return run(sheet_, typed); }
    SheetAnswer answer(const TypedById& typed) const {
        SheetAnswer answer = run(sheet_, typed);
        INFO(answer.refusal);
        REQUIRE(answer.code == FETTLE_DONE);
        return answer;
    }
    TypedById presets() const { return presets_of(sheet_); }
    TypedById with(const char* id, const Typed& value) const {
        TypedById typed = presets();
        typed[id] = value;
        return typed;
    }
    TypedById without(std::initializer_list<const char*> ids) const {
        TypedById typed = presets();
        for (const char* id : ids)
            typed.erase(id);
        return typed;
    }

  private:
    PluginLibrary library_;
    const fettle_sheet& sheet_;
};

struct TypedLeaf { // mm
    double length, thickness, radius = NAN, rise = NAN, narrowed = NAN;
};

Typed leaves(const std::vector<TypedLeaf>& rows) {
    std::vector<double> cells;
    for (const TypedLeaf& row : rows) {
        for (const double cell : {row.length, row.thickness, row.radius, row.rise, row.narrowed})
            cells.push_back(cell / 1000);
    }
    return Typed::list(cells, 5);
}

double shown(const SheetAnswer& answer, const char* id) {
    REQUIRE_MESSAGE(answer.numbers.count(id) == 1, id);
    return answer.numbers.at(id);
}

const DrawnSeries& series(const SheetAnswer& answer, const char* chart, const std::string& name) {
    const auto& all = answer.series.at(chart);
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const auto& each) { return each.name == name; });
    REQUIRE_MESSAGE(found != all.end(), name);
    return *found;
}

} // namespace

TEST_CASE(
    "a spring worked above its limit is marked, one below it is not, and bumps are warned of") {
    const SpringSheet sheet("spring.pack");
    const double stress = shown(sheet.answer(sheet.presets()), "stress_max");
    CHECK(sheet(sheet.with("limit", Typed::of(stress * 0.99))).has_note(FETTLE_STOP));
    const SheetAnswer below = sheet(sheet.with("limit", Typed::of(stress * 1.01)));
    CHECK(!below.has_note(FETTLE_STOP));
    CHECK(below.has_note(FETTLE_CAUTION, "twice the load"));
    CHECK(series(below, "stress", "Limit").look == FETTLE_DASHED);
}

TEST_CASE("without a limit a stress that no spring steel bears is marked all the same") {
    const SpringSheet sheet("spring.pack");
    CHECK(sheet(sheet.with("load", Typed::of(20000))).has_note(FETTLE_STOP, "leaf spring steel"));
}

TEST_CASE("the spring sheet says how it counts leaves, whole clamp or two thirds") {
    const SpringSheet sheet("spring.pack");
    // L7b, Bhandari ch. 10 (question seen): 32.94 mm, so 10 kN / 32.94 mm by the textbook.
    std::vector<TypedLeaf> rows;
    for (int i = 0; i < 10; ++i)
        rows.push_back({i < 2 ? 1000.0 : 1000.0 - 100 * (i - 1), 10});
    TypedById typed = {{"leaves", leaves(rows)},
                       {"width", Typed::of(0.05)},
                       {"load", Typed::of(10000)},
                       {"modulus", Typed::of(207e9)}};
    const SheetAnswer answer = sheet.answer(typed);
    CHECK(within(shown(answer, "rate_textbook"), 10000 / 0.03294, 0.0002));
    CHECK(answer.has_working("nf = 2, graduated ng = 8"));
    CHECK(answer.has_working("half the load"));
    CHECK(answer.numbers.count("loaded_arch") == 0);
    CHECK(answer.has_note(FETTLE_INFO, "without nip"));
    CHECK(answer.tables.at("leaves").size() == 10);
    CHECK(within(shown(answer, "stress_graduated_textbook") * 1.5,
                 shown(answer, "stress_full_textbook"), 1e-9));
    CHECK(answer.texts.at("why").find("textbook rate is") != std::string::npos);

    typed["counting"] = Typed::of("master is graduated");
    const SheetAnswer apart = sheet.answer(typed);
    CHECK(apart.has_working("nf = 1, graduated ng = 9"));
    CHECK(shown(apart, "rate_textbook") / shown(answer, "rate_textbook") ==
          doctest::Approx(21.0 / 22)); // 3nf + 2ng
    CHECK(shown(apart, "rate") == doctest::Approx(shown(answer, "rate")));

    typed["clamp"] = Typed::of(0.09);
    typed["clamp_taken"] = Typed::of("two thirds");
    const double thirds = shown(sheet.answer(typed), "rate");
    typed["clamp"] = Typed::of(0.06);
    typed["clamp_taken"] = Typed::of("whole");
    CHECK(shown(sheet.answer(typed), "rate") == doctest::Approx(thirds));
}

TEST_CASE("textbook nip and closing load are those of the worked example") {
    // L2b, L2c Khurmi & Gupta, ch. 23 (memory): 9.04 mm, 4487 N; 18 leaves of 12 x 108, 3 full.
    std::vector<TypedLeaf> rows;
    for (int i = 0; i < 18; ++i)
        rows.push_back({i < 3 ? 1000.0 : 1000.0 - 50 * (i - 2), 12});
    const SpringSheet sheet("spring.pack");
    const SheetAnswer answer = sheet.answer({{"leaves", leaves(rows)},
                                             {"width", Typed::of(0.108)},
                                             {"clamp", Typed::of(0.1)},
                                             {"load", Typed::of(70000)},
                                             {"modulus", Typed::of(210e9)}});
    CHECK(within(shown(answer, "nip_textbook"), 0.00904, 0.0005));
    CHECK(within(shown(answer, "closing_textbook"), 4487, 0.0001));
    CHECK(answer.has_working("9.04 mm"));
}

TEST_CASE("readings of a pack that contradict each other are marked, those that agree are not") {
    const SpringSheet sheet("spring.pack");
    // 1000 mm of arc on a radius of 1000 mm rises 1000 (1 - cos 0.5) = 122.4 mm.
    TypedById typed = sheet.without({"clips", "free_arch"});
    typed["leaves"] = leaves({{1000, 8, 1000, 122.4}, {700, 8, 1008}});
    CHECK(!sheet.answer(typed).has_note(FETTLE_STOP));
    typed["leaves"] = leaves({{1000, 8, 1000, 150}, {700, 8, 1008}});
    CHECK(sheet.answer(typed).has_note(FETTLE_STOP, "contradict"));
    typed["leaves"] = leaves({{1000, 8, 1000}, {700, 8, 1008}});
    typed["free_arch"] = Typed::of(0.120);
    CHECK(!sheet.answer(typed).has_note(FETTLE_STOP));
    typed["free_arch"] = Typed::of(0.105);
    CHECK(sheet.answer(typed).has_note(FETTLE_CAUTION, "hardly go together"));
    typed["free_arch"] = Typed::of(0.05);
    CHECK(sheet.answer(typed).has_note(FETTLE_STOP, "contradict"));
}

TEST_CASE(
    "rise and radius typed for the same curve give the same pack, and fill in the free arch") {
    const SpringSheet sheet("spring.pack");
    TypedById typed = sheet.without({"clips", "free_arch"});
    typed["leaves"] = leaves({{1000, 8, 1000}, {700, 8, 950}});
    const SheetAnswer by_radius = sheet.answer(typed);
    const double lower = 950 * (1 - std::cos(350.0 / 950));
    typed["leaves"] = leaves({{1000, 8, NAN, 1000 * (1 - std::cos(0.5))}, {700, 8, NAN, lower}});
    const SheetAnswer by_rise = sheet.answer(typed);
    for (const char* id : {"rate", "stress_max", "loaded_arch", "closing_force"})
        CHECK(shown(by_rise, id) == doctest::Approx(shown(by_radius, id)).epsilon(1e-7));
    // Nip lifts the master: the built arch is more than its own.
    CHECK(shown(by_radius, "loaded_arch") + shown(by_radius, "deflection") > 0.1224);
}

TEST_CASE("a leaf that carries nothing is named") {
    const SpringSheet sheet("spring.pack");
    TypedById typed = sheet.without({"clips", "free_arch"});
    typed["load"] = Typed::of(300);
    typed["leaves"] = leaves({{1000, 8, 800}, {900, 8, 790}, {700, 8, NAN, 0}});
    const SheetAnswer answer = sheet.answer(typed);
    CHECK(answer.has_note(FETTLE_CAUTION, "Leaf 3 carries nothing"));
    CHECK(answer.words.at("leaves")[2][5].find("clear") == 0);
    CHECK(answer.texts.at("why").find("Leaf 3 carries nothing") != std::string::npos);
}

TEST_CASE("more friction opens the loop, and none closes it") {
    const SpringSheet sheet("spring.pack");
    double before = 0;
    for (const double friction : {0.05, 0.1, 0.2, 0.3}) {
        const SheetAnswer answer = sheet.answer(sheet.with("friction", Typed::of(friction)));
        CHECK(shown(answer, "friction_force") > before);
        CHECK(shown(answer, "rate_loading") > shown(answer, "rate_unloading"));
        CHECK(shown(answer, "arch_settled") > shown(answer, "loaded_arch"));
        CHECK(shown(answer, "arch_risen") < shown(answer, "loaded_arch"));
        before = shown(answer, "friction_force");
    }
    const SheetAnswer none = sheet.answer(sheet.with("friction", Typed::of(0.0)));
    CHECK(none.numbers.count("friction_force") == 0);
    CHECK(series(none, "load", "Without friction").points.size() > 10);
}

TEST_CASE("the pack answers as physics says: stiffer with thickness and width, sinking with load") {
    const SpringSheet sheet("spring.pack");
    const auto rises = [&](const char* input, std::initializer_list<double> steps,
                           const char* output, int sign) {
        CAPTURE(std::string(input));
        double before = NAN;
        for (const double step : steps) {
            const double now =
                shown(sheet.answer(sheet.with(input, Typed::of(step))), output) * sign;
            if (!std::isnan(before)) CHECK(now > before);
            before = now;
        }
    };
    rises("load", {1000, 2000, 3000, 5000}, "deflection", 1);
    rises("load", {1000, 2000, 3000, 5000}, "stress_max", 1);
    rises("load", {1000, 2000, 3000, 5000}, "loaded_arch", -1);
    rises("width", {0.03, 0.04, 0.06}, "rate", 1);
    rises("clamp", {0.0, 0.05, 0.1}, "rate", 1);
    rises("modulus", {150e9, 200e9, 210e9}, "deflection", -1);
    double before = 0;
    for (const double t : {6.0, 7.0, 8.0, 9.0}) {
        TypedById typed = sheet.without({"clips", "free_arch"});
        typed["leaves"] = leaves({{1000, t}, {800, t}, {600, t}, {400, t}});
        const double rate = shown(sheet.answer(typed), "rate");
        CHECK(rate > before);
        before = rate;
    }
}

TEST_CASE("the working of the eye can be followed by hand") {
    // Two equal leaves, no nip: each carries half, F/2 at the tip: d = F L³/(3EI) - (F/2) L³/(3EI).
    const SpringSheet sheet("spring.pack");
    const SheetAnswer answer = sheet.answer({{"leaves", leaves({{1000, 10}, {1000, 10}})},
                                             {"width", Typed::of(0.05)},
                                             {"load", Typed::of(2000)},
                                             {"modulus", Typed::of(200e9)}});
    // E I = 200e9 x 0.05 x 1e-6/12 = 833.3; 1000 x 0.125/(3 x 833.3)/2 = 25 mm
    CHECK(answer.has_working("leaf 1 and leaf 2 press with 500.0 N at 500.0 mm"));
    CHECK(answer.has_working("500.0 x 500.0² x (3 x 500.0 - 500.0) / (6 E I)"));
    CHECK(answer.has_working("833.3 N.m²: 25.00 mm"));
    CHECK(within(shown(answer, "deflection"), 0.025, 1e-6));
}

TEST_CASE("the charts hold both branches, the working point, the stress and the pack to scale") {
    const SpringSheet sheet("spring.pack");
    const TypedById typed = sheet.presets();
    const SheetAnswer answer = sheet.answer(typed);
    const auto& loading = series(answer, "load", "Loading").points;
    const auto& unloading = series(answer, "load", "Unloading").points;
    REQUIRE(loading.size() == unloading.size());
    const double load = *typed.at("load").number;
    CHECK(loading.back().y == doctest::Approx(2 * load));
    for (std::size_t i = 1; i < loading.size(); ++i) {
        CHECK(loading[i].x > loading[i - 1].x);
        CHECK(loading[i].x <= unloading[i].x); // less deflection at the same load
    }
    const auto& here = series(answer, "load", "This load");
    CHECK(here.look == FETTLE_DOTS);
    CHECK(here.points[0].x == doctest::Approx(shown(answer, "deflection")));
    CHECK(here.points[0].y == doctest::Approx(load));

    double most = 0;
    for (const DrawnSeries& leaf : answer.series.at("stress")) {
        for (const fettle_point& point : leaf.points)
            most = std::max(most, std::fabs(point.y));
    }
    CHECK(most == doctest::Approx(shown(answer, "stress_max")));

    std::size_t bodies = 0;
    for (const DrawnSeries& drawn : answer.series.at("pack")) {
        if (drawn.look != FETTLE_BODY) continue;
        ++bodies;
        CHECK(drawn.points.front().x == drawn.points.back().x); // closed
    }
    CHECK(bodies == 7);
    // The master's eye stands as high over the seat as the arch under the load.
    const auto& master = answer.series.at("pack").front().points;
    CHECK(master.front().y == doctest::Approx(shown(answer, "loaded_arch")));
    CHECK(answer.labels.at("pack").size() == 7);
}

TEST_CASE("a pack that cannot be is refused with the field that is to blame") {
    const SpringSheet sheet("spring.pack");
    struct Row {
        const char* input;
        Typed typed;
        const char* field;
        const char* words;
    };
    const Row rows[] = {
        {"clamp", Typed::of(0.5), "leaves", "held by the clamp"},
        {"leaves", leaves({{800, 8}, {900, 8}}), "leaves", "longest first"},
        {"leaves", leaves({{800, 200}}), "leaves", "ten times as long as thick"},
        {"leaves", leaves({{800, -8}}), "leaves", "thickness"},
        {"leaves", leaves({{800, 8}, {700, 8, 900}}), "leaves", "leaf 1 needs its free radius"},
        {"leaves", leaves({{800, 8, 50}}), "leaves", "sixth"},
        {"leaves", leaves({{800, 8, NAN, 300}}), "leaves", "quarter"},
        {"leaves", leaves({{800, 8, NAN, NAN, 500}}), "leaves", "narrowed"},
        {"leaves", leaves({}), "leaves", "1 to 40"},
        {"clips", Typed::list({0.9}), "clips", "to the eye"},
        {"clips", Typed::list({0.001}), "clips", "outside the clamp"},
        {"tip_width", Typed::of(0.3), "tip_width", "narrower"},
        {"width", Typed::of(0.0), "width", "greater than nothing"}};
    for (const Row& row : rows) {
        CAPTURE(std::string(row.words));
        const SheetAnswer answer = sheet(sheet.with(row.input, row.typed));
        CHECK(answer.code == FETTLE_REFUSED);
        CHECK(answer.refused_field == row.field);
        CHECK(answer.refusal.find(row.words) != std::string::npos);
    }
}

TEST_CASE("two thousand packs as people own them are all answered with finite figures") {
    const SpringSheet sheet("spring.pack");
    std::mt19937 engine(1936);
    const auto between = [&](double least, double most) {
        return std::uniform_real_distribution<double>(least, most)(engine);
    };
    int wrong = 0;
    for (int round = 0; round < 2000; ++round) {
        const int count = 1 + static_cast<int>(between(0, 9));
        const double length = between(500, 1600), t = between(5, 12);
        double radius = between(700, 4000), each = length;
        std::vector<TypedLeaf> rows;
        for (int i = 0; i < count && each > 230; ++i) {
            const bool curved = i == 0 || between(0, 1) < 0.7;
            rows.push_back({each, t * between(0.8, 1.2), curved ? radius : NAN, NAN,
                            between(0, 1) < 0.3 ? between(0, (each - 120) / 2) : NAN});
            radius *= between(0.95, 1.02);
            if (between(0, 1) < 0.8) each -= length / (count + 1) * between(0.5, 1.3);
        }
        TypedById typed = {{"leaves", leaves(rows)},
                           {"width", Typed::of(between(0.03, 0.1))},
                           {"clamp", Typed::of(between(0, 0.12))},
                           {"load", Typed::of(between(50, 30000))},
                           {"friction", Typed::of(between(0, 0.5))}};
        if (between(0, 1) < 0.3) typed["clips"] = Typed::list({between(0.08, length / 2000)});
        if (between(0, 1) < 0.5) typed["free_arch"] = Typed::of(between(0, 0.2));
        const SheetAnswer answer = sheet(typed);
        bool fine = answer.code == FETTLE_DONE && answer.numbers.at("rate") > 0 &&
                    answer.numbers.at("deflection") > 0;
        for (const auto& [id, value] : answer.numbers)
            fine = fine && std::isfinite(value);
        wrong += fine ? 0 : 1;
        if (!fine) MESSAGE(answer.refusal);
    }
    CHECK(wrong == 0);
}

TEST_CASE("a spring that is as wanted is left, one a little low packed, one far down re-arched") {
    const SpringSheet sheet("spring.sag");
    struct Row {
        double left, right; // in, loaded; 3 wanted, 1/4 in tolerance, 1/2 in packing
        const char* verdict;
        double rearch, packing; // in, left
    };
    // Judged by hand: wanting = 3 - left.
    for (const Row& row : {Row{2.9, 3.1, "Leave both", 0, 0},
                           Row{2.6, 3.0, "Pack the left, leave the right", 0, 0.4},
                           Row{2.0, 3.0, "Re-arch the left, leave the right", 1.0, 0},
                           Row{1.8, 2.0, "Re-arch both", 1.2, 0},
                           Row{3.5, 3.0, "Re-arch flatter the left, leave the right", -0.5, 0},
                           Row{2.8, 3.1, "Pack the left, leave the right", 0, 0.3}}) {
        CAPTURE(row.left);
        const SheetAnswer answer = sheet.answer({{"free_left", Typed::of((row.left + 1.3) * kIn)},
                                                 {"free_right", Typed::of((row.right + 1.3) * kIn)},
                                                 {"loaded_left", Typed::of(row.left * kIn)},
                                                 {"loaded_right", Typed::of(row.right * kIn)},
                                                 {"wanted_loaded", Typed::of(3 * kIn)},
                                                 {"tolerance", Typed::of(0.25 * kIn)},
                                                 {"most_packing", Typed::of(0.5 * kIn)}});
        CHECK(answer.texts.at("verdict") == row.verdict);
        CHECK(shown(answer, "rearch_left") / kIn == doctest::Approx(row.rearch));
        CHECK(shown(answer, "packing_left") / kIn == doctest::Approx(row.packing));
        CHECK(shown(answer, "difference_loaded") / kIn == doctest::Approx(row.left - row.right));
        CHECK(answer.has_note(FETTLE_CAUTION, "Packing stands") == (row.packing > 0));
    }
}

TEST_CASE("rate and bounce are those the readings show, and the softer ride is a figure") {
    const SpringSheet sheet("spring.sag");
    // 820 lbf over 1.3 in = 630.8 lbf/in; a mass sunk 1.3 in bounces sqrt(g/1.3 in)/2pi = 2.743 Hz.
    TypedById typed = {
        {"free_left", Typed::of(4.3 * kIn)},   {"free_right", Typed::of(4.3 * kIn)},
        {"loaded_left", Typed::of(3.0 * kIn)}, {"loaded_right", Typed::of(3 * kIn)},
        {"load_left", Typed::of(820 * kLbf)},  {"load_right", Typed::of(820 * kLbf)}};
    typed["rate"] = Typed::of(820 / 1.3 / 0.9 * kLbfPerIn);
    const SheetAnswer answer = sheet.answer(typed);
    CHECK(shown(answer, "rate_left") / kLbfPerIn == doctest::Approx(820 / 1.3));
    CHECK(within(shown(answer, "frequency_left"), std::sqrt(386.0886 / 1.3) / 6.283185, 1e-6));
    CHECK(within(shown(answer, "softer"), 1 - std::sqrt(0.9), 1e-9));
    CHECK(answer.has_note(FETTLE_INFO, "softer"));
    CHECK(answer.has_note(FETTLE_INFO, "does not ride softer"));
    CHECK(answer.texts.at("verdict") == "Leave both");
    CHECK(series(answer, "arch", "Left").points.size() == 2);
}

TEST_CASE("a rate that its leaves do not explain stops everything until the spring is apart") {
    const SpringSheet sheet("spring.sag");
    TypedById typed = sheet.presets();
    typed["loaded_left"] = Typed::of(2.2 * kIn); // 820 lbf over 1.65 in: 497 against 630 lbf/in
    const SheetAnswer soft = sheet.answer(typed);
    CHECK(soft.has_note(FETTLE_STOP, "cracked"));
    CHECK(soft.texts.at("verdict").find("Take the left spring apart") == 0);
    typed["loaded_left"] = Typed::of(3.0 * kIn);
    CHECK(sheet.answer(typed).words.at("sides")[0][1].find("stiffer") != std::string::npos);
}

TEST_CASE("arches that contradict each other are refused by name") {
    const SpringSheet sheet("spring.sag");
    const auto refused = [&](const TypedById& typed, const char* field) {
        const SheetAnswer answer = sheet(typed);
        CHECK(answer.code == FETTLE_REFUSED);
        CHECK(answer.refused_field == field);
        CHECK(answer.refusal.find("not less than") != std::string::npos);
    };
    refused(sheet.with("loaded_right", Typed::of(5 * kIn)), "loaded_right");
    refused(sheet.with("free_left", Typed::of(2 * kIn)), "loaded_left");
    refused(sheet.with("wanted_loaded", Typed::of(5 * kIn)), "wanted_loaded");
    const SheetAnswer blank = sheet(sheet.without({"loaded_left"}));
    CHECK(blank.refused_field == "loaded_left");
    CHECK(sheet.answer(sheet.with("wanted_loaded", Typed::of(1 * kIn)))
              .has_note(FETTLE_CAUTION, "do not go with the rate"));
}

TEST_CASE("without anything wanted one side is judged by the other, on the bench too") {
    const SpringSheet sheet("spring.sag");
    const SheetAnswer bench =
        sheet.answer({{"free_left", Typed::of(0.10)}, {"free_right", Typed::of(0.13)}});
    CHECK(bench.texts.at("verdict") == "Re-arch the left, leave the right");
    CHECK(shown(bench, "rearch_left") == doctest::Approx(0.03));
    CHECK(bench.has_working("the higher side"));
    CHECK(bench.numbers.count("rate_left") == 0);
}
