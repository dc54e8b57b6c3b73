// Our conversions against two outside programs, GNU units and udunits2, each with its own table.
// A missing program fails the test: tests/packages.txt names their packages.
#include "base/quantity.h"
#include "command.h"
#include "near.h"

#include <doctest/doctest.h>

#include <cmath>
#include <cstdlib>
#include <string>

using namespace fettle;
using fettle::test::near;
using fettle::test::output_of;

namespace {

struct Case {
    const char* kind;
    const char* text;
    const char* from; // the same in the words of the outside program
    const char* si;
};

constexpr Case kAgainstGnuUnits[] = {
    Case{"length", "1 3/4 in", "(1+3|4) inch", "m"},
    Case{"length", "12 thou", "12 thou", "m"},
    Case{"length", "3' 4 1/2\"", "3 ft + 4.5 inch", "m"},
    Case{"length", "7 yd", "7 yard", "m"},
    Case{"length", "3 mi", "3 mile", "m"},
    Case{"length", "8 µin", "8 microinch", "m"},
    Case{"area", "3 sq in", "3 in^2", "m^2"},
    Case{"area", "3 ft²", "3 ft^2", "m^2"},
    Case{"volume", "3 cu in", "3 in^3", "m^3"},
    Case{"volume", "3 cu ft", "3 ft^3", "m^3"},
    Case{"volume", "2 imp gal", "2 brgallon", "m^3"},
    Case{"volume", "2 US gal", "2 usgallon", "m^3"},
    Case{"volume", "2 imp qt", "2 brquart", "m^3"},
    Case{"volume", "2 US qt", "2 usquart", "m^3"},
    Case{"volume", "2 imp pt", "2 brpint", "m^3"},
    Case{"volume", "2 US pt", "2 uspint", "m^3"},
    Case{"volume", "2 imp fl oz", "2 brfloz", "m^3"},
    Case{"volume", "2 US fl oz", "2 usfloz", "m^3"},
    Case{"angle", "20°", "20 degree", "radian"},
    Case{"angle", "20′", "20 arcmin", "radian"},
    Case{"angle", "20″", "20 arcsec", "radian"},
    Case{"angle", "2 rev", "2 revolution", "radian"},
    Case{"mass", "5 lb", "5 lb", "kg"},
    Case{"mass", "5 oz", "5 oz", "kg"},
    Case{"mass", "5 st", "5 stone", "kg"},
    Case{"mass", "25 imp cwt", "25*112 lb", "kg"},
    Case{"mass", "2 US cwt", "2*100 lb", "kg"},
    Case{"mass", "2 imp ton", "2 brton", "kg"},
    Case{"mass", "2 US ton", "2 uston", "kg"},
    Case{"force", "18 lb", "18 lbf", "N"},
    Case{"force", "18 oz", "18 oz force", "N"},
    Case{"force", "18 kgf", "18 kgf", "N"},
    Case{"force", "18 gf", "18 gram force", "N"},
    Case{"force", "18 dyn", "18 dyne", "N"},
    Case{"force", "2 tf", "2 tonne force", "N"},
    Case{"force", "2 imp tonf", "2 brton force", "N"},
    Case{"force", "2 US tonf", "2 uston force", "N"},
    Case{"torque", "18 lb-ft", "18 lbf ft", "N m"},
    Case{"torque", "18 in-lb", "18 lbf inch", "N m"},
    Case{"torque", "18 oz-in", "18 oz force inch", "N m"},
    Case{"torque", "18 mkp", "18 kgf m", "N m"},
    Case{"torque", "18 kg.cm", "18 kgf cm", "N m"},
    Case{"pressure", "30 psi", "30 psi", "Pa"},
    Case{"pressure", "85 ksi", "85 ksi", "Pa"},
    Case{"pressure", "30 lb/ft2", "30 lbf/ft^2", "Pa"},
    Case{"pressure", "2 bar", "2 bar", "Pa"},
    Case{"pressure", "2 kg/cm2", "2 kgf/cm^2", "Pa"},
    Case{"pressure", "2 kg/mm2", "2 kgf/mm^2", "Pa"},
    Case{"pressure", "20 inHg", "20 inHg", "Pa"},
    Case{"pressure", "20 mmHg", "20 mmHg", "Pa"},
    Case{"pressure", "20 inH2O", "20 inH2O", "Pa"},
    Case{"pressure", "20 mmH2O", "20 mmH2O", "Pa"},
    Case{"pressure", "2 atm", "2 atm", "Pa"},
    Case{"spring_rate", "120 lb/in", "120 lbf/inch", "N/m"},
    Case{"spring_rate", "120 lb/ft", "120 lbf/ft", "N/m"},
    Case{"spring_rate", "2 kg/mm", "2 kgf/mm", "N/m"},
    Case{"spring_rate", "2 kg/cm", "2 kgf/cm", "N/m"},
    Case{"temperature", "98.6 F", "tempF(98.6)", "K"},
    Case{"temperature", "-40 °F", "tempF(-40)", "K"},
    Case{"temperature", "20 C", "tempC(20)", "K"},
    Case{"temperature_difference", "45 °F", "45 degF", "K"},
    Case{"temperature_difference", "45 °C", "45 degC", "K"},
    Case{"time", "1 week", "1 week", "s"},
    Case{"time", "1 h 20 min", "80 min", "s"},
    Case{"frequency", "600 rpm", "600 /min", "Hz"},
    Case{"speed", "60 mph", "60 mph", "m/s"},
    Case{"speed", "60 kph", "60 km/hr", "m/s"},
    Case{"speed", "60 fpm", "60 ft/min", "m/s"},
    Case{"density", "0.284 lb/in3", "0.284 lb/in^3", "kg/m^3"},
    Case{"density", "490 lb/ft3", "490 lb/ft^3", "kg/m^3"},
    Case{"density", "7.85 g/cc", "7.85 g/cm^3", "kg/m^3"},
    Case{"expansion", "6.5e-6 1/°F", "6.5e-6 /degF", "1/K"},
    Case{"expansion", "6.5 µin/in·°F", "6.5 microinch/(inch degF)", "1/K"},
    Case{"ratio", "12 %", "12 percent", "1"},
};

double gnu_units(const std::string& from, const std::string& to) {
    const std::string answer =
        output_of("units -t --output-format '%.15g' '" + from + "' '" + to + "' 2>&1");
    CAPTURE(answer);
    char* end = nullptr;
    const double value = std::strtod(answer.c_str(), &end);
    REQUIRE((end != answer.c_str() && *end == '\0'));
    return value;
}

// "    1 lbf.ft = 1.35582 N.m": six digits are what udunits2 prints.
double udunits2(const std::string& from, const std::string& to) {
    const std::string answer = output_of("udunits2 -H '" + from + "' -W '" + to + "'");
    CAPTURE(answer);
    const auto equals = answer.find("= ");
    REQUIRE(equals != std::string::npos);
    return std::strtod(answer.c_str() + equals + 2, nullptr);
}

} // namespace

TEST_CASE("conversions agree with GNU units") {
    for (const auto& [kind, text, from, si] : kAgainstGnuUnits) {
        CAPTURE(text);
        const auto ours = parse_quantity(text, kind, "");
        REQUIRE(ours.ok());
        CHECK(near(ours->si, gnu_units(from, si), 1e-14));
    }
}

TEST_CASE("temperatures shown in Celsius agree with the tempF and tempC functions of GNU units") {
    for (const char* fahrenheit : {"-40", "0", "32", "72", "98.6", "212", "1500"}) {
        const auto ours = parse_quantity(fahrenheit, "temperature", "°F");
        REQUIRE(ours.ok());
        const double theirs = gnu_units("tempF(" + std::string(fahrenheit) + ")", "tempC");
        CHECK(std::fabs(*to_unit(ours->si, "temperature", "°C") - theirs) < 1e-10);
    }
}

TEST_CASE("conversions agree with the udunits2 command in the digits it prints") {
    for (const auto& [kind, text, from, si] : {
             Case{"torque", "1 ft lb", "lbf.ft", "N.m"},
             Case{"torque", "1 in-lb", "lbf.in", "N.m"},
             Case{"torque", "1 kgm", "kgf.m", "N.m"},
             Case{"torque", "1 oz-in", "ozf.in", "N.m"},
             Case{"pressure", "1 PSI", "psi", "Pa"},
             Case{"pressure", "1 inHg", "inHg", "Pa"},
             Case{"pressure", "1 kp/cm2", "kgf/cm2", "Pa"},
             Case{"temperature", "1 F", "degF", "K"},
             Case{"temperature", "1 C", "degC", "K"},
             Case{"length", "1 thou", "mil", "m"},
             Case{"volume", "1 US gal", "US_liquid_gallon", "m3"},
             Case{"volume", "1 imp gal", "Canadian_liquid_gallon", "m3"},
             Case{"spring_rate", "1 lb/in", "lbf/in", "N/m"},
         }) {
        CAPTURE(text);
        const auto ours = parse_quantity(text, kind, "");
        REQUIRE(ours.ok());
        CHECK(near(ours->si, udunits2(from, si), 6e-6));
    }
}
