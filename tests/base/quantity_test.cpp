#include "base/quantity.h"
#include "near.h"

#include <doctest/doctest.h>

#include <string>
#include <vector>

using namespace fettle;
using fettle::test::near;

namespace {

struct Case {
    const char* kind;
    const char* text;
    double si;
    const char* unit;
};

void check_all(const std::vector<Case>& cases) {
    for (const Case& c : cases) {
        CAPTURE(c.kind);
        CAPTURE(c.text);
        const auto measured = parse_quantity(c.text, c.kind, "");
        CHECK_MESSAGE(measured.ok(), (measured ? "" : measured.failure().sentence));
        if (!measured) continue;
        CAPTURE(measured->si);
        CHECK(near(measured->si, c.si, 2e-15));
        CHECK(measured->unit == c.unit);
    }
}

constexpr double kInch = 0.0254;              // 1959, exact
constexpr double kPound = 0.45359237;         // 1959, exact
constexpr double kLbf = 4.4482216152605;      // kPound * 9.80665, exact
constexpr double kLbfFt = 1.3558179483314004; // kLbf * 0.3048, exact
constexpr double kLbfIn = kLbfFt / 12;
constexpr double kOzfIn = kLbfIn / 16;
constexpr double kKgf = 9.80665; // standard gravity, CGPM 1901
constexpr double kPi = 3.14159265358979323846;

} // namespace

// Factors: NIST SP 811 (2008), appendix B.8, and the exact definitions above.
TEST_CASE("torques in every workshop spelling") {
    std::vector<Case> cases;
    for (const char* text :
         {"18 lbf.ft",   "18 lbf·ft",      "18 lbf⋅ft",      "18 lbf-ft", "18 lbf ft",
          "18 ft-lbf",   "18 ft lbf",      "18 ft_lbf",      "18 lb-ft",  "18 ft-lb",
          "18 ft lb",    "18 lb ft",       "18 lb.ft",       "18 ft.lb",  "18 ft lbs",
          "18 ft-lbs",   "18ftlb",         "18 lbft",        "18 ftlbs",  "18 FT-LBS",
          "18 Ft. Lbs.", "18 foot-pounds", "18 pounds feet", "18 ft*lb",  "18 lbf×ft"}) {
        cases.push_back({"torque", text, 18 * kLbfFt, "lbf.ft"});
    }
    for (const char* text : {"15 lbf.in", "15 in-lb", "15 in lb", "15 in_lbf", "15 inlb",
                             "15 in-lbs", "15 in.lbf", "15 IN-LBS", "15 inch-pounds"}) {
        cases.push_back({"torque", text, 15 * kLbfIn, "lbf.in"});
    }
    for (const char* text : {"25 N·m", "25 N.m", "25 Nm", "25Nm", "25 nm", "25 NM", "25 N-m",
                             "25 N*m", "25 N m", "25 newton metres"}) {
        cases.push_back({"torque", text, 25, "N.m"});
    }
    for (const char* text :
         {"2 kgm", "2 mkp", "2 kg.m", "2 kgf.m", "2 kgf·m", "2 kg-m", "2 m.kg"}) {
        cases.push_back({"torque", text, 2 * kKgf, "kgf.m"});
    }
    for (const char* text : {"40 oz-in", "40 ozf.in", "40 oz in", "40 in-oz", "40 oz.in"}) {
        cases.push_back({"torque", text, 40 * kOzfIn, "ozf.in"});
    }
    cases.push_back({"torque", "30 kgf.cm", 0.3 * kKgf, "kgf.cm"});
    cases.push_back({"torque", "500 N·mm", 0.5, "N.mm"});
    check_all(cases);
}

TEST_CASE("lengths in every workshop spelling") {
    std::vector<Case> cases;
    for (const char* text : {"3 in", "3\"", "3″", "3 ''", "3''", "3’’", "3 ”", "3 inch", "3 Inches",
                             "3 IN", "3 in.", "  3 in  ", "3in"}) {
        cases.push_back({"length", text, 3 * kInch, "in"});
    }
    for (const char* text :
         {"12 thou", "12 thous", "12 thousandths", "12 mil", "12 mils", "12 Thou"}) {
        cases.push_back({"length", text, 0.012 * kInch, "thou"});
    }
    cases.push_back({"length", "1 thousandth", 0.001 * kInch, "thou"});
    for (const char* text :
         {"12 mm", "12 MM", "12 mm.", "  12 mm", "12 mm ", "12mm", "12 millimetres"}) {
        cases.push_back({"length", text, 0.012, "mm"});
    }
    for (const char* text : {"5 µm", "5 μm", "5 um", "5 micron", "5 microns"}) {
        cases.push_back({"length", text, 5e-6, "µm"});
    }
    cases.insert(cases.end(), {
                                  {"length", "1 1/2 in", 1.5 * kInch, "in"},
                                  {"length", "1-1/2\"", 1.5 * kInch, "in"},
                                  {"length", "1½ in", 1.5 * kInch, "in"},
                                  {"length", "5/16 in", 0.3125 * kInch, "in"},
                                  {"length", "1 3/4 in", 1.75 * kInch, "in"},
                                  {"length", "3' 4 1/2\"", 40.5 * kInch, "in"},
                                  {"length", "3'-4 1/2\"", 40.5 * kInch, "in"},
                                  {"length", "3′ 4½″", 40.5 * kInch, "in"},
                                  {"length", "3 ft 4.5 in", 40.5 * kInch, "in"},
                                  {"length", "-3' 6\"", -42 * kInch, "in"},
                                  {"length", "6'", 72 * kInch, "ft"},
                                  {"length", "8 µin", 8e-6 * kInch, "µin"},
                                  {"length", "2 m", 2, "m"},
                              });
    check_all(cases);
}

// NIST SP 811 (2008), appendix B.8; the imperial gallon: Weights and Measures Act 1985, schedule 1.
TEST_CASE("areas, volumes, masses and forces mean what their field says") {
    check_all({
        {"area", "2 sq in", 2 * kInch * kInch, "in2"},
        {"area", "2 in²", 2 * kInch * kInch, "in2"},
        {"area", "2 in^2", 2 * kInch * kInch, "in2"},
        {"area", "9 mm²", 9e-6, "mm2"},
        {"volume", "231 cu in", 3.785411784e-3, "in3"},
        {"volume", "1 US gal", 3.785411784e-3, "US gal"},
        {"volume", "1 imp gal", 4.54609e-3, "imp gal"},
        {"volume", "1 UK_gallon", 4.54609e-3, "imp gal"},
        {"volume", "1 imperial_gallon", 4.54609e-3, "imp gal"},
        {"volume", "4 US qt", 3.785411784e-3, "US qt"},
        {"volume", "8 imp pt", 4.54609e-3, "imp pt"},
        {"volume", "160 imp fl_oz", 4.54609e-3, "imp fl oz"},
        {"volume", "128 US fl oz", 3.785411784e-3, "US fl oz"},
        {"volume", "50 cc", 50e-6, "cm3"},
        {"volume", "50 ml", 50e-6, "mL"},
        {"mass", "2 lb", 2 * kPound, "lb"},
        {"mass", "2 lbs", 2 * kPound, "lb"},
        {"mass", "2 lbm", 2 * kPound, "lb"},
        {"mass", "3 oz", 3 * kPound / 16, "oz"},
        {"mass", "8 lb 4 oz", 8.25 * kPound, "lb"},
        {"mass", "8 lb, 4 oz", 8.25 * kPound, "lb"},
        {"mass", "25 imp cwt", 25 * 112 * kPound, "imp cwt"},
        {"mass", "1 long ton", 2240 * kPound, "imp ton"},
        {"mass", "1 US ton", 2000 * kPound, "US ton"},
        {"mass", "1 tonne", 1000, "t"},
        {"mass", "3 KG", 3, "kg"},
        {"force", "2 lb", 2 * kLbf, "lbf"},
        {"force", "2 lbs", 2 * kLbf, "lbf"},
        {"force", "2 lbf", 2 * kLbf, "lbf"},
        {"force", "3 oz", 3 * kLbf / 16, "ozf"},
        {"force", "4 kp", 4 * kKgf, "kgf"},
        {"force", "4 kg", 4 * kKgf, "kgf"},
        {"force", "5 dyn", 5e-5, "dyn"},
        {"force", "1 US tonf", 2000 * kLbf, "US tonf"},
        {"force", "1 imp tonf", 2240 * kLbf, "imp tonf"},
        {"force", "1 tf", 1000 * kKgf, "tf"},
        {"force", "1.5 kN", 1500, "kN"},
    });
}

// NIST SP 811 (2008), appendix B.8.
TEST_CASE("pressures, spring rates, speeds, densities and expansions") {
    check_all({
        {"pressure", "30 PSI", 30 * kLbf / (kInch * kInch), "psi"},
        {"pressure", "30 psi", 30 * kLbf / (kInch * kInch), "psi"},
        {"pressure", "30 lb/in2", 30 * kLbf / (kInch * kInch), "psi"},
        {"pressure", "30 lbs per sq in", 30 * kLbf / (kInch * kInch), "psi"},
        {"pressure", "85 ksi", 85000 * kLbf / (kInch * kInch), "ksi"},
        {"pressure", "2 bar", 2e5, "bar"},
        {"pressure", "2 Bar", 2e5, "bar"},
        {"pressure", "2 kg/cm2", 2 * 98066.5, "kgf/cm2"},
        {"pressure", "2 kp/cm2", 2 * 98066.5, "kgf/cm2"},
        {"pressure", "2 kgf/cm²", 2 * 98066.5, "kgf/cm2"},
        {"pressure", "20 inHg", 20 * 3386.388640341, "inHg"},
        {"pressure", "10 inH2O", 10 * 249.08891, "inH2O"},
        {"pressure", "210 GPa", 210e9, "GPa"},
        {"pressure", "640 N/mm²", 640e6, "MPa"},
        {"pressure", "640 MPA", 640e6, "MPa"},
        {"spring_rate", "120 lb/in", 120 * kLbf / kInch, "lbf/in"},
        {"spring_rate", "120 lbs per inch", 120 * kLbf / kInch, "lbf/in"},
        {"spring_rate", "21 N/mm", 21000, "N/mm"},
        {"spring_rate", "2 kg/mm", 2 * kKgf * 1000, "kgf/mm"},
        {"speed", "60 mph", 60 * 0.44704, "mph"},
        {"speed", "36 kph", 10, "km/h"},
        {"speed", "36 km/h", 10, "km/h"},
        {"speed", "100 fpm", 0.508, "ft/min"},
        {"density", "7.85 g/cm³", 7850, "g/cm3"},
        {"density", "0.284 lb/in3", 0.284 * kPound / (kInch * kInch * kInch), "lb/in3"},
        {"expansion", "12e-6 1/K", 12e-6, "1/K"},
        {"expansion", "12 µm/(m·K)", 12e-6, "µm/m.K"},
        {"expansion", "12 ppm/°C", 12e-6, "µm/m.K"},
        {"expansion", "6.5e-6 1/°F", 11.7e-6, "1/°F"},
        {"expansion", "6.5 µin/in·°F", 11.7e-6, "µin/in.°F"},
        {"ratio", "12 %", 0.12, "%"},
        {"ratio", "12%", 0.12, "%"},
        {"ratio", "0.12", 0.12, ""},
        {"count", "4", 4, ""},
        {"number", "2 1/2", 2.5, ""},
    });
}

TEST_CASE("a quote mark is an inch in a length and an arc second in an angle") {
    check_all({
        {"angle", "3\"", 3.0 / 3600 * kPi / 180, "″"},
        {"angle", "3″", 3.0 / 3600 * kPi / 180, "″"},
        {"angle", "20'", 20.0 / 60 * kPi / 180, "′"},
        {"angle", "90°", kPi / 2, "°"},
        {"angle", "90 deg", kPi / 2, "°"},
        {"angle", "1 rev", 2 * kPi, "rev"},
        {"angle", "1/4 turn", kPi / 2, "rev"},
        {"angle", "12° 30′ 36″", 12.51 * kPi / 180, "°"},
        {"angle", "12 deg 30' 36\"", 12.51 * kPi / 180, "°"},
    });
}

// A revolution is no radian here: 60 r/min is one turn a second, 1 Hz (ISO 80000-3, rotational
// frequency).
TEST_CASE("revolutions a minute are a frequency in turns a second") {
    for (const char* text : {"600 rpm", "600 RPM", "600 r/min", "600 rev/min",
                             "600 revs per minute", "600 1/min", "600 min⁻¹"}) {
        check_all({{"frequency", text, 10, "rpm"}});
    }
    check_all({{"frequency", "10 rev/s", 10, "Hz"}, {"frequency", "1.2 kHz", 1200, "kHz"}});
}

// Fixed points by definition: 0 °C = 273.15 K, 32 °F = 0 °C, 212 °F = 100 °C, -40 °F = -40 °C.
TEST_CASE("temperatures carry their offset, differences only their scale") {
    check_all({
        {"temperature", "0 °C", 273.15, "°C"},
        {"temperature", "10 C", 283.15, "°C"},
        {"temperature", "10℃", 283.15, "°C"},
        {"temperature", "10 degC", 283.15, "°C"},
        {"temperature", "10 deg C", 283.15, "°C"},
        {"temperature", "32 F", 273.15, "°F"},
        {"temperature", "212 °F", 373.15, "°F"},
        {"temperature", "-40 °F", 233.15, "°F"},
        {"temperature", "−40 °F", 233.15, "°F"},
        {"temperature", "300 K", 300, "K"},
        {"temperature_difference", "10 °C", 10, "°C"},
        {"temperature_difference", "18 °F", 10, "°F"},
        {"temperature_difference", "-5 K", -5, "K"},
    });
}

TEST_CASE("absolute zero is a temperature, and nothing lies below it") {
    REQUIRE(parse_quantity("-273.15 °C", "temperature", "°C").ok());
    CHECK(parse_quantity("-273.15 °C", "temperature", "°C")->si < 1e-12);
    CHECK_FALSE(parse_quantity("-273.16 °C", "temperature", "°C").ok());
}

TEST_CASE("times may be mixed") {
    check_all({
        {"time", "1 h 20 min", 4800, "h"},
        {"time", "90 min", 5400, "min"},
        {"time", "1.5 hours", 5400, "h"},
        {"time", "2 days", 172800, "d"},
        {"time", "30 s", 30, "s"},
    });
}

TEST_CASE("a bare number takes the unit of its field, in any spelling of it") {
    CHECK(near(parse_quantity("18", "torque", "lbf.ft")->si, 18 * kLbfFt, 2e-15));
    CHECK(parse_quantity("18", "torque", "ft lb")->unit == "lbf.ft");
    CHECK(near(parse_quantity("5/16", "length", "in")->si, 0.3125 * kInch, 2e-15));
    CHECK(near(parse_quantity("10", "temperature", "°C")->si, 283.15, 2e-15));
    CHECK(near(parse_quantity("35", "ratio", "%")->si, 0.35, 2e-15));
    CHECK(near(parse_quantity("0.35", "ratio", "1")->si, 0.35, 2e-15));
}

// UDUNITS' own table has 3.785412 L for the gallon; exact equality shows it is not used.
TEST_CASE("defining factors are exact, not table values") {
    CHECK(*from_unit(1, "volume", "US gal") == 3.785411784e-3);
    CHECK(*from_unit(1, "volume", "imp gal") == 4.54609e-3);
    CHECK(*from_unit(1, "length", "in") == 0.0254);
    CHECK(near(*from_unit(1, "mass", "lb"), 0.45359237, 1e-15));
    CHECK(near(*from_unit(1, "force", "lbf"), 4.4482216152605, 1e-15));
    CHECK(near(*to_unit(0.0254, "length", "in"), 1, 1e-15));
}

TEST_CASE("what is ambiguous is asked back") {
    struct Asked {
        const char* kind;
        const char* text;
        const char* said;
    };
    for (const auto& [kind, text, said] : {
             Asked{"volume", "5 gal", "US gal or imp gal"},
             Asked{"volume", "5 gallons", "US gal or imp gal"},
             Asked{"volume", "2 qt", "US qt or imp qt"},
             Asked{"volume", "2 quarts", "US qt or imp qt"},
             Asked{"volume", "1 pint", "US pt or imp pt"},
             Asked{"volume", "3 oz", "US fl oz or imp fl oz"},
             Asked{"volume", "3 fl_oz", "US fl oz or imp fl oz"},
             Asked{"volume", "3 floz", "US fl oz or imp fl oz"},
             Asked{"mass", "2 ton", "US ton, imp ton or t"},
             Asked{"mass", "25 cwt", "US cwt or imp cwt"},
             Asked{"force", "2 tons", "US tonf, imp tonf or tf"},
             Asked{"force", "2 tonf", "US tonf, imp tonf or tf"},
             Asked{"pressure", "640 mPa", "write MPa"},
             Asked{"pressure", "30 lbs", "write psi"},
             Asked{"length", "3 Mm", "write mm"},
             Asked{"temperature", "20°", "°C or °F"},
             Asked{"length", "1,234 mm", "1.234 or as 1234"},
         }) {
        CAPTURE(text);
        const auto measured = parse_quantity(text, kind, "");
        REQUIRE_FALSE(measured.ok());
        CHECK(measured.failure().kind == FailureKind::invalid);
        CHECK(measured.failure().sentence.find(said) != std::string::npos);
    }
}

TEST_CASE("what cannot be taken is refused, naming the value, the quantity and what is accepted") {
    struct Refused {
        const char* kind;
        const char* text;
        const char* said;
    };
    for (const auto& [kind, text, said] : {
             Refused{"torque", "12 parsecs",
                     "\"12 parsecs\" is no torque: accepted is a number with "
                     "N·m, lbf·ft, lbf·in, kgf·m"},
             Refused{"torque", "12 J", "is no torque"},
             Refused{"torque", "12 mNm", "is no torque"},
             Refused{"length", "", "nothing was typed: accepted is a number with mm, in"},
             Refused{"length", "   ", "nothing was typed"},
             Refused{"length", "abc", "\"abc\" is no length"},
             Refused{"length", "mm", "is no length"},
             Refused{"length", "5/0 in", "divides by zero"},
             Refused{"length", "12 mm rubbish", "is no length"},
             Refused{"length", "12 mm 3", "is no length"},
             Refused{"length", "10-20 mm", "is no length"},
             Refused{"length", "4 in 3 ft", "is no length"},
             Refused{"length", "3' -4\" 2", "is no length"},
             Refused{"length", "3 kg", "is no length"},
             Refused{"length", "12 TPI", "is no length"},
             Refused{"frequency", "12 TPI", "is no frequency"},
             Refused{"speed", "30 PS", "is no speed"},
             Refused{"force", "30 PS", "is no force"},
             Refused{"pressure", "30 PS", "is no pressure"},
             Refused{"temperature", "nan °C", "is no temperature"},
             Refused{"temperature", "inf", "is no temperature"},
             Refused{"temperature", "-300 °C", "absolute zero"},
             Refused{"length", "1e999 mm", "outside the numbers"},
             Refused{"length", "1e306 km", "too large"},
             Refused{"temperature_difference", "10 mm", "is no temperature difference"},
             Refused{"count", "2.5", "accepted is a whole number"},
             Refused{"count", "-3", "accepted is a whole number"},
             Refused{"count", "3 mm", "is no count"},
             Refused{"number", "3 mm", "is no number"},
             Refused{"ratio", "5 1", "is no ratio"},
         }) {
        CAPTURE(text);
        const auto measured = parse_quantity(text, kind, "");
        REQUIRE_FALSE(measured.ok());
        CHECK(measured.failure().kind == FailureKind::invalid);
        CAPTURE(measured.failure().sentence);
        CHECK(measured.failure().sentence.find(said) != std::string::npos);
    }
}

TEST_CASE("a foreign unit does not convert") {
    CHECK_FALSE(to_unit(1, "torque", "mm").ok());
    CHECK_FALSE(from_unit(1, "length", "lbf.ft").ok());
    CHECK_FALSE(to_unit(1, "number", "mm").ok());
    CHECK(to_unit(1, "length", "parsec").failure().sentence.find("\"parsec\"") !=
          std::string::npos);
}

TEST_CASE("quantities are shown with a label fit for reading") {
    CHECK(format_quantity(18 * kLbfFt, "torque", "lbf.ft", 3) == "18.0 lbf·ft");
    CHECK(format_quantity(18 * kLbfFt, "torque", "ft lb", 3) == "18.0 lbf·ft");
    CHECK(format_quantity(283.15, "temperature", "°C", 3) == "10.0 °C");
    CHECK(format_quantity(273.15, "temperature", "°C", 3) == "0 °C");
    CHECK(format_quantity(kPi / 2, "angle", "°", 3) == "90.0°");
    CHECK(format_quantity(98066.5, "pressure", "kgf/cm2", 2) == "1.0 kgf/cm²");
    CHECK(format_quantity(0.12, "ratio", "%", 2) == "12 %");
    CHECK(format_quantity(0.12, "ratio", "", 2) == "0.12");
    CHECK(format_quantity(12, "count", "", 3) == "12");
    CHECK(format_quantity(12345, "count", "", 3) == "12345");
    CHECK(format_quantity(2.5, "number", "", 3) == "2.50");
    CHECK(format_quantity(-1e-20, "length", "mm", 3) == "-1.00e-17 mm");
    CHECK(format_quantity(2, "length", "parsec", 3) == "2.00 m"); // unknown: in SI
    CHECK(unit_label("density", "kg/m3") == "kg/m³");
    CHECK(unit_label("pressure", "inH2O") == "inH₂O");
    CHECK(unit_label("length", "in") == "in");
}

TEST_CASE("the kinds of the plugin contract are known, and no others") {
    // The list stands in plugins/sdk/fettle_plugin.h.
    for (const char* kind :
         {"number", "count", "ratio", "length", "area", "volume", "angle", "mass", "force",
          "torque", "pressure", "spring_rate", "temperature", "temperature_difference", "time",
          "frequency", "speed", "density", "expansion"}) {
        CHECK(is_quantity_kind(kind));
    }
    CHECK_FALSE(is_quantity_kind("power"));
    CHECK_FALSE(is_quantity_kind(""));
    CHECK(unit_spellings("torque").front() == "N·m");
    CHECK(unit_spellings("number").empty());
}
