// Readings to a verdict: sums done by hand, the decision rule of ISO 14253-1, and what must hold.
#include "fit/wear.h"
#include "plugins/asked_sheet.h"

#include <random>

using namespace fettle::fit;
using namespace fettle::test;

namespace {

constexpr double kIn = 0.0254;
constexpr double kThou = kIn / 1000;
constexpr double kRight = 1.5707963267948966;

Typed table(std::vector<double> rows) {
    return Typed::list(std::move(rows), 3);
}

// A pin, new 0.9985 to 0.9995 in, wear limit 0.9950 in, one reading and a typed uncertainty.
SheetAnswer pin(double reading, double uncertainty, TypedById more = {}) {
    const Sheet sheet("fit.wear");
    TypedById typed{{"readings", table({1, reading * kIn, 0})},
                    {"new_lower", Typed::of(0.9985 * kIn)},
                    {"new_upper", Typed::of(0.9995 * kIn)},
                    {"wear_limit", Typed::of(0.9950 * kIn)},
                    {"instrument", Typed::of("as typed")},
                    {"uncertainty", Typed::of(uncertainty * kThou)}};
    typed.insert(more.begin(), more.end());
    return sheet.answer(typed);
}

} // namespace

TEST_CASE("mean, ovality, taper and repeat come out as by hand") {
    // Station 1: 10.00 and 9.98; station 2: 9.96 and 9.90, the latter read twice as 9.89 and 9.91.
    // Mean of places 9.96, ovality 0.06, station means 9.99 and 9.93: taper 0.06, s of the pair
    // sqrt(2 x 0.01²/1) = 0.01414.
    const double mm = 1e-3;
    const Measured found = measured({{1, 10.00 * mm, 0.0},
                                     {1, 9.98 * mm, kRight},
                                     {2, 9.96 * mm, 0.0},
                                     {2, 9.89 * mm, kRight},
                                     {2, 9.91 * mm, kRight}});
    CHECK(found.places.size() == 4);
    CHECK(found.mean / mm == doctest::Approx(9.96));
    CHECK(found.least / mm == doctest::Approx(9.90));
    CHECK(found.greatest / mm == doctest::Approx(10.00));
    CHECK(*found.ovality / mm == doctest::Approx(0.06));
    CHECK(*found.taper / mm == doctest::Approx(0.06));
    CHECK(*found.repeat / mm == doctest::Approx(0.0141421).epsilon(1e-5));
}

TEST_CASE("opposite directions are one diameter, and what was not measured is not made up") {
    const Measured turned = measured({{1, 0.01, 0.0}, {1, 0.0102, 2 * kRight}});
    CHECK(turned.places.size() == 1);
    CHECK(turned.repeat.has_value());
    CHECK(!turned.ovality);
    const Measured plain = measured({{1, 0.01, {}}, {1, 0.0102, {}}});
    CHECK(plain.places.size() == 2);
    CHECK(!plain.ovality);
    CHECK(!plain.taper);
    CHECK(!plain.repeat);
}

TEST_CASE("uncertainty adds by squares with k = 2") {
    // By hand: 2 sqrt(3²/3 + 2²/12 + 0.6²/3 + 1²) = 2 sqrt(3 + 0.3333 + 0.12 + 1) = 4.2206.
    CHECK(expanded({3e-6, 2e-6, 0.6e-6, 1e-6}) * 1e6 == doctest::Approx(4.2206).epsilon(1e-4));
    CHECK(expanded({0, 0, 0, 0}) == 0);
}

TEST_CASE("a limit is kept or broken only beyond the uncertainty") {
    // ISO 14253-1: proven inside when within the limit by U, outside when beyond it by U.
    CHECK(pin(0.9962, 0.5).texts.at("verdict") == "reuse");
    CHECK(pin(0.9953, 0.5).texts.at("verdict") == "measure again");
    CHECK(pin(0.9947, 0.5).texts.at("verdict") == "measure again");
    CHECK(pin(0.9940, 0.5).texts.at("verdict") == "replace");
    CHECK(pin(0.9953, 0.2).texts.at("verdict") == "reuse");
    CHECK(pin(0.9947, 0.2).texts.at("verdict") == "replace");
    CHECK(pin(0.9940, 0.5).has_note(FETTLE_STOP, "Do not refit"));
    CHECK(!pin(0.9962, 0.5).has_note(FETTLE_STOP));
    CHECK(pin(0.9962, 0.5).texts.at("because").find("wear limit") != std::string::npos);
    // 0.9990 less 0.9962 in is 2.8 thou of wear, 1.2 thou are left.
    CHECK(pin(0.9962, 0.5).numbers.at("wear") / kThou == doctest::Approx(2.8));
    CHECK(pin(0.9962, 0.5).numbers.at("remaining") / kThou == doctest::Approx(1.2));
}

TEST_CASE("a worn part is repaired where its repair size cleans it up") {
    const TypedById rework{{"repair", Typed::of("machine to a repair size")},
                           {"repair_size", Typed::of(0.990 * kIn)}};
    CHECK(pin(0.9940, 0.5, rework).texts.at("verdict") == "repair");
    CHECK(pin(0.9895, 0.5, rework).texts.at("verdict") == "replace");
    CHECK(
        pin(0.9940, 0.5, {{"repair", Typed::of("build up, sleeve or bush")}}).texts.at("verdict") ==
        "repair");
    CHECK(pin(0.9940, 0.5, {{"repair", Typed::of("none")}}).texts.at("verdict") == "replace");
    CHECK(pin(0.9940, 0.5, {{"repair", Typed::of("machine to a repair size")}})
              .texts.at("because")
              .find("No repair size") != std::string::npos);
}

TEST_CASE("a bore wears the other way") {
    const Sheet sheet("fit.wear");
    TypedById typed{{"readings", table({1, 1.0030 * kIn, 0})},
                    {"feature", Typed::of("bore or bush")},
                    {"new_lower", Typed::of(1.0000 * kIn)},
                    {"new_upper", Typed::of(1.0010 * kIn)},
                    {"wear_limit", Typed::of(1.0040 * kIn)},
                    {"mating", Typed::list({0.9980 * kIn, 0.9990 * kIn})}};
    const SheetAnswer good = sheet.answer(typed);
    CHECK(good.texts.at("verdict") == "reuse");
    CHECK(good.numbers.at("wear") / kThou == doctest::Approx(2.5));
    CHECK(good.numbers.at("clearance_min") / kThou == doctest::Approx(4.0));
    CHECK(good.numbers.at("clearance_max") / kThou == doctest::Approx(5.0));
    typed["readings"] = table({1, 1.0050 * kIn, 0});
    CHECK(sheet.answer(typed).texts.at("verdict") == "replace");
    typed["wear_limit"] = Typed::of(0.9990 * kIn);
    CHECK(sheet(typed).refused_field == "wear_limit");
}

TEST_CASE("clearance, ovality and taper each decide, and a bind is a stop") {
    const AskedSheet sheet("fit.wear");
    CHECK(sheet.answer({}).texts.at("verdict") == "reuse");
    // Fresh sheet: pin 0.9968 to 0.9990, bush 1.0005 to 1.0012 in: 1.5 to 4.4 thou.
    CHECK(sheet.answer({}).numbers.at("clearance_min") / kThou == doctest::Approx(1.5));
    CHECK(sheet.answer({}).numbers.at("clearance_max") / kThou == doctest::Approx(4.4));
    CHECK(sheet.answer({}).numbers.at("ovality") / kThou == doctest::Approx(1.8));
    CHECK(sheet.answer({}).numbers.at("taper") / kThou == doctest::Approx(0.9));
    const SheetAnswer slack = sheet.answer({{"clearance_most", Typed::of(4 * kThou)}});
    CHECK(slack.texts.at("verdict") == "repair");
    CHECK(slack.texts.at("because").find("mating part") != std::string::npos);
    CHECK(sheet.answer({{"ovality_limit", Typed::of(1 * kThou)}}).texts.at("verdict") == "repair");
    CHECK(sheet.answer({{"taper_limit", Typed::of(0.9 * kThou)}}).texts.at("verdict") ==
          "measure again");
    const SheetAnswer tight = sheet.answer({{"mating", Typed::list({0.9985 * kIn})}});
    CHECK(tight.has_note(FETTLE_STOP, "Too tight"));
    CHECK(tight.numbers.at("clearance_min") < 0);
    CHECK(sheet.answer({{"readings", table({1, 0.9990 * kIn, NAN, 2, 0.9988 * kIn, NAN})}})
              .has_note(FETTLE_INFO, "not judged"));
}

TEST_CASE("more wear never betters the verdict, and a worse instrument never proves more") {
    const auto rank = [](const SheetAnswer& answer) {
        const std::string verdict = answer.texts.at("verdict");
        return verdict == "reuse" ? 0 : verdict == "measure again" ? 1 : 2;
    };
    int last = 0;
    for (double reading = 0.9990; reading > 0.990; reading -= 0.0001) {
        const int now = rank(pin(reading, 0.3));
        CHECK(now >= last);
        last = now;
        if (rank(pin(reading, 0.6)) != 1) CHECK(rank(pin(reading, 0.6)) == now);
    }
    CHECK(last == 2);
}

TEST_CASE("the order in which places are read does not matter") {
    std::mt19937 engine(5);
    std::vector<Reading> readings;
    for (int i = 0; i < 24; ++i)
        readings.push_back({double(i % 4), 0.025 + 1e-6 * (i * i % 17), kRight * (i % 3) / 2});
    const Measured first = measured(readings);
    for (int round = 0; round < 20; ++round) {
        std::shuffle(readings.begin(), readings.end(), engine);
        const Measured again = measured(readings);
        CHECK(again.mean == doctest::Approx(first.mean));
        CHECK(again.least == doctest::Approx(first.least));
        CHECK(*again.ovality == doctest::Approx(*first.ovality));
        CHECK(*again.taper == doctest::Approx(*first.taper));
        CHECK(*again.repeat == doctest::Approx(*first.repeat));
    }
}

TEST_CASE("slips of the pen in fit.wear are named") {
    const Sheet sheet("fit.wear");
    const auto refused = [&](const char* id, Typed value) {
        TypedById typed = sheet.presets();
        typed[id] = std::move(value);
        return sheet(typed).refused_field;
    };
    CHECK(refused("readings", table({1, 0.9982, 0})) == "readings"); // metres for inches
    CHECK(refused("readings", table({})) == "readings");
    CHECK(refused("mating", Typed::list({0.1})) == "mating");
    CHECK(refused("new_upper", Typed::of(0.9980 * kIn)) == "new_lower");
    CHECK(refused("wear_limit", Typed::of(0.9990 * kIn)) == "wear_limit");
    CHECK(refused("instrument", Typed::of("as typed")) == "uncertainty");
}
