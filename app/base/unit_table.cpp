#include "base/unit_spellings.h"

#include <array>

// Factors are exact by definition: the international yard and pound (1 in = 25.4 mm,
// 1 lb = 0.45359237 kg, 1959), standard gravity 9.80665 m/s2 (so 1 lbf = 4.4482216152605 N), the US
// gallon of 231 in3, the imperial gallon of 4.54609 L (Weights and Measures Act 1985). Columns of
// mercury and water are the conventional ones (13595.1 and 1000 kg/m3), NIST SP 811 appendix B.
// UDUNITS' own names stand where its table is exact.
namespace fettle {
namespace {

constexpr std::array kKinds = {
    QuantityKind{"number", "number", ""},
    QuantityKind{"count", "count", ""},
    QuantityKind{"ratio", "ratio", "1"},
    QuantityKind{"length", "length", "m"},
    QuantityKind{"area", "area", "m2"},
    QuantityKind{"volume", "volume", "m3"},
    QuantityKind{"angle", "angle", "radian"},
    QuantityKind{"mass", "mass", "kg"},
    QuantityKind{"force", "force", "N"},
    QuantityKind{"torque", "torque", "N.m"},
    QuantityKind{"pressure", "pressure", "Pa"},
    QuantityKind{"spring_rate", "spring rate", "N/m"},
    QuantityKind{"temperature", "temperature", "K"},
    QuantityKind{"temperature_difference", "temperature difference", "K"},
    QuantityKind{"time", "time", "s"},
    QuantityKind{"frequency", "frequency", "Hz"},
    QuantityKind{"speed", "speed", "m/s"},
    QuantityKind{"density", "density", "kg/m3"},
    QuantityKind{"expansion", "thermal expansion", "K-1"},
};

constexpr std::array kUnits = {
    UnitSpelling{"ratio", "%", "0.01", "percent pct"},
    UnitSpelling{"ratio", "1", "1", ""},
    UnitSpelling{"ratio", "ppm", "1e-6", ""},

    UnitSpelling{"length", "mm", "0.001 m", "millimetre millimetres millimeter millimeters"},
    UnitSpelling{"length", "in", "0.0254 m", "\" '' inch inches ins"},
    UnitSpelling{"length", "thou", "2.54e-5 m", "thous thousandth thousandths mil mils"},
    UnitSpelling{"length", "ft", "0.3048 m", "' foot feet"},
    UnitSpelling{"length", "m", "m", "metre metres meter meters"},
    UnitSpelling{"length", "cm", "0.01 m", "centimetre centimetres centimeter centimeters"},
    UnitSpelling{"length", "µm", "1e-6 m", "micron microns micrometre micrometres micrometer"},
    UnitSpelling{"length", "µin", "2.54e-8 m", "microinch microinches"},
    UnitSpelling{"length", "yd", "0.9144 m", "yds yard yards"},
    UnitSpelling{"length", "km", "1000 m", "kilometre kilometres kilometer kilometers"},
    UnitSpelling{"length", "mi", "1609.344 m", "mile miles"},

    UnitSpelling{"area", "mm2", "1e-6 m2", "sq.mm"},
    UnitSpelling{"area", "in2", "6.4516e-4 m2",
                 "sq.in sqin sq.inch sq.inches square.inch "
                 "square.inches"},
    UnitSpelling{"area", "cm2", "1e-4 m2", "sq.cm"},
    UnitSpelling{"area", "m2", "m2", "sq.m square.metre square.metres square.meter square.meters"},
    UnitSpelling{"area", "ft2", "0.09290304 m2", "sq.ft sqft square.foot square.feet"},

    UnitSpelling{"volume", "L", "0.001 m3", "litre litres liter liters ltr"},
    UnitSpelling{"volume", "mL", "1e-6 m3", "millilitre millilitres milliliter milliliters"},
    UnitSpelling{"volume", "cm3", "1e-6 m3", "cc ccm cu.cm"},
    UnitSpelling{"volume", "in3", "1.6387064e-5 m3",
                 "cu.in cuin cu.inch cu.inches cubic.inch "
                 "cubic.inches"},
    UnitSpelling{"volume", "ft3", "0.028316846592 m3", "cu.ft cuft cubic.foot cubic.feet"},
    UnitSpelling{"volume", "mm3", "1e-9 m3", "cu.mm"},
    UnitSpelling{"volume", "m3", "m3", "cu.m cubic.metre cubic.metres cubic.meter cubic.meters"},
    UnitSpelling{"volume", "imp gal", "4.54609e-3 m3",
                 "uk.gal imperial.gal imp.gallon imp.gallons "
                 "uk.gallon uk.gallons imperial.gallon imperial.gallons impgal ukgal"},
    UnitSpelling{"volume", "US gal", "3.785411784e-3 m3",
                 "u.s.gal usgal us.gallon us.gallons "
                 "u.s.gallon u.s.gallons"},
    UnitSpelling{"volume", "imp qt", "1.1365225e-3 m3",
                 "uk.qt imperial.qt imp.quart imp.quarts "
                 "uk.quart uk.quarts imperial.quart imperial.quarts"},
    UnitSpelling{"volume", "US qt", "9.46352946e-4 m3", "u.s.qt us.quart us.quarts u.s.quart"},
    UnitSpelling{"volume", "imp pt", "5.6826125e-4 m3",
                 "uk.pt imperial.pt imp.pint imp.pints "
                 "uk.pint uk.pints imperial.pint imperial.pints"},
    UnitSpelling{"volume", "US pt", "4.73176473e-4 m3", "u.s.pt us.pint us.pints u.s.pint"},
    UnitSpelling{"volume", "imp fl oz", "2.84130625e-5 m3",
                 "imp.floz uk.fl.oz uk.floz imp.oz "
                 "uk.oz imperial.fl.oz"},
    UnitSpelling{"volume", "US fl oz", "2.95735295625e-5 m3", "us.floz u.s.fl.oz us.oz"},

    UnitSpelling{"angle", "°", "arc_degree", "deg degs degree degrees"},
    UnitSpelling{"angle", "′", "arc_minute", "arcmin arcminute arcminutes min minutes"},
    UnitSpelling{"angle", "″", "arc_second", "'' arcsec arcsecond arcseconds sec seconds"},
    UnitSpelling{"angle", "rad", "radian", "radian radians"},
    UnitSpelling{"angle", "mrad", "0.001 radian", "milliradian milliradians"},
    UnitSpelling{"angle", "rev", "360 arc_degree", "revs revolution revolutions turn turns"},

    UnitSpelling{"mass", "kg", "kg", "kgs kilo kilos kilogram kilograms kilogramme kilogrammes"},
    UnitSpelling{"mass", "lb", "0.45359237 kg", "lbs lbm lbsm pound pounds"},
    UnitSpelling{"mass", "g", "0.001 kg", "gram grams gramme grammes gm gms"},
    UnitSpelling{"mass", "oz", "0.028349523125 kg", "ozs ounce ounces ozm"},
    UnitSpelling{"mass", "mg", "1e-6 kg", "milligram milligrams"},
    UnitSpelling{"mass", "t", "1000 kg", "tonne tonnes metric.ton metric.tons"},
    UnitSpelling{"mass", "st", "6.35029318 kg", "stone stones"},
    UnitSpelling{"mass", "imp cwt", "50.80234544 kg", "uk.cwt long.cwt"},
    UnitSpelling{"mass", "US cwt", "45.359237 kg", "short.cwt u.s.cwt"},
    UnitSpelling{"mass", "imp ton", "1016.0469088 kg",
                 "imp.tons uk.ton uk.tons long.ton "
                 "long.tons imperial.ton imperial.tons"},
    UnitSpelling{"mass", "US ton", "907.18474 kg", "us.tons short.ton short.tons u.s.ton"},

    UnitSpelling{"force", "N", "N", "newton newtons"},
    UnitSpelling{"force", "lbf", "4.4482216152605 N", "lb lbs lbsf pound pounds pound.force lb.f"},
    UnitSpelling{"force", "kN", "1000 N", "kilonewton kilonewtons"},
    UnitSpelling{"force", "kgf", "9.80665 N",
                 "kp kg kgs kilo kilos kilopond kiloponds kilogram.force "
                 "kg.f"},
    UnitSpelling{"force", "ozf", "0.27801385095378125 N", "oz ozs ounce ounces ounce.force oz.f"},
    UnitSpelling{"force", "gf", "9.80665e-3 N", "g gram grams gram.force"},
    UnitSpelling{"force", "dyn", "1e-5 N", "dyne dynes"},
    UnitSpelling{"force", "tf", "9806.65 N", "t tonne tonnes tonne.force metric.tonf"},
    UnitSpelling{"force", "imp tonf", "9964.01641818352 N",
                 "uk.tonf long.tonf imp.ton uk.ton "
                 "long.ton"},
    UnitSpelling{"force", "US tonf", "8896.443230521 N", "short.tonf us.ton short.ton"},

    UnitSpelling{"torque", "N.m", "N.m",
                 "nm newton.metre newton.metres newton.meter newton.meters"},
    UnitSpelling{
        "torque", "lbf.ft", "1.3558179483314004 N.m",
        "lbft ft.lbf ftlbf lbfft lb.ft "
        "lbs.ft ft.lb ft.lbs ftlb ftlbs lbsft foot.pound foot.pounds pound.foot pound.feet "
        "pounds.feet pounds.foot lbf.feet"},
    UnitSpelling{"torque", "lbf.in", "0.1129848290276167 N.m",
                 "lbin in.lbf inlbf lbfin lb.in "
                 "lbs.in in.lb in.lbs inlb inlbs lbsin inch.pound inch.pounds pound.inch "
                 "pound.inches pounds.inches"},
    UnitSpelling{"torque", "kgf.m", "9.80665 N.m",
                 "kgm kg.m kp.m mkp m.kp kpm mkg m.kg mkgf m.kgf"},
    UnitSpelling{"torque", "kgf.cm", "0.0980665 N.m", "kgcm kg.cm kp.cm cmkp cm.kp cm.kg cm.kgf"},
    UnitSpelling{"torque", "ozf.in", "7.061551814226044e-3 N.m",
                 "oz.in in.oz ozin inoz in.ozf "
                 "ounce.inch ounce.inches inch.ounce inch.ounces"},
    UnitSpelling{"torque", "N.cm", "0.01 N.m", "ncm"},
    UnitSpelling{"torque", "N.mm", "0.001 N.m", "nmm"},
    UnitSpelling{"torque", "kN.m", "1000 N.m", "knm"},

    UnitSpelling{"pressure", "bar", "1e5 Pa", "bars"},
    UnitSpelling{"pressure", "psi", "6894.757293168361 Pa",
                 "lbf/in2 lb/in2 lbs/in2 lbf/sq.in "
                 "lb/sq.in lbs/sq.in p.s.i"},
    UnitSpelling{"pressure", "MPa", "1e6 Pa", "N/mm2 megapascal megapascals"},
    UnitSpelling{"pressure", "kPa", "1000 Pa", "kilopascal kilopascals"},
    UnitSpelling{"pressure", "Pa", "Pa", "pascal pascals N/m2"},
    UnitSpelling{"pressure", "GPa", "1e9 Pa", "gigapascal gigapascals kN/mm2"},
    UnitSpelling{"pressure", "kgf/cm2", "98066.5 Pa", "kg/cm2 kp/cm2 kg/sq.cm kgf/sq.cm at"},
    UnitSpelling{"pressure", "kgf/mm2", "9806650 Pa", "kg/mm2 kp/mm2 kg/sq.mm"},
    UnitSpelling{"pressure", "ksi", "6894757.293168361 Pa", "kip/in2"},
    UnitSpelling{"pressure", "mbar", "100 Pa", "millibar millibars hPa"},
    UnitSpelling{"pressure", "inHg", "3386.388640341 Pa", "in.hg in.of.hg inches.hg"},
    UnitSpelling{"pressure", "mmHg", "133.322387415 Pa", "mm.hg"},
    UnitSpelling{"pressure", "inH2O", "249.08891 Pa", "in.h2o inwg in.wg in.w.g"},
    UnitSpelling{"pressure", "mmH2O", "9.80665 Pa", "mm.h2o mmwg mm.wg"},
    UnitSpelling{"pressure", "atm", "101325 Pa", "atmosphere atmospheres"},
    UnitSpelling{"pressure", "lbf/ft2", "47.88025898033584 Pa",
                 "lb/ft2 lbs/ft2 psf lb/sq.ft "
                 "lbf/sq.ft"},

    UnitSpelling{"spring_rate", "N/mm", "1000 N/m", ""},
    UnitSpelling{"spring_rate", "lbf/in", "175.12683524647636 N/m",
                 "lb/in lbs/in lb/inch lbs/inch "
                 "lbf/inch pounds/inch pound/inch"},
    UnitSpelling{"spring_rate", "N/m", "N/m", ""},
    UnitSpelling{"spring_rate", "kN/m", "1000 N/m", ""},
    UnitSpelling{"spring_rate", "kgf/mm", "9806.65 N/m", "kg/mm kp/mm"},
    UnitSpelling{"spring_rate", "kgf/cm", "980.665 N/m", "kg/cm kp/cm"},
    UnitSpelling{"spring_rate", "lbf/ft", "14.593902937206364 N/m", "lb/ft lbs/ft"},

    UnitSpelling{"temperature", "°C", "degC", "C celsius centigrade deg.C degrees.C"},
    UnitSpelling{"temperature", "°F", "degF", "F fahrenheit deg.F degrees.F"},
    UnitSpelling{"temperature", "K", "K", "kelvin"},

    UnitSpelling{"temperature_difference", "K", "K", "kelvin"},
    UnitSpelling{"temperature_difference", "°C", "K", "C celsius centigrade deg.C degrees.C"},
    UnitSpelling{"temperature_difference", "°F", "K/1.8", "F fahrenheit deg.F degrees.F"},

    UnitSpelling{"time", "h", "3600 s", "hr hrs hour hours"},
    UnitSpelling{"time", "min", "60 s", "mins minute minutes"},
    UnitSpelling{"time", "s", "s", "sec secs second seconds"},
    UnitSpelling{"time", "ms", "0.001 s", "msec millisecond milliseconds"},
    UnitSpelling{"time", "d", "86400 s", "day days"},
    UnitSpelling{"time", "week", "604800 s", "weeks wk wks"},

    UnitSpelling{"frequency", "Hz", "Hz", "hertz 1/s s.1 cps c/s cycles/s rev/s r/s rps revs/s"},
    UnitSpelling{"frequency", "rpm", "Hz/60",
                 "r.p.m r/min rev/min revs/min rev/minute revs/minute 1/min min.1 "
                 "revolutions/minute"},
    UnitSpelling{"frequency", "kHz", "1000 Hz", "kilohertz"},

    UnitSpelling{"speed", "km/h", "km/3600 s-1", "kph kmh kmph km/hr k.p.h km.h.1"},
    UnitSpelling{"speed", "mph", "0.44704 m/s", "m.p.h mi/h miles/h miles/hour mi/hr"},
    UnitSpelling{"speed", "m/s", "m/s", "m.s.1"},
    UnitSpelling{"speed", "m/min", "m/60 s-1", ""},
    UnitSpelling{"speed", "mm/s", "0.001 m/s", ""},
    UnitSpelling{"speed", "ft/s", "0.3048 m/s", "fps ft/sec"},
    UnitSpelling{"speed", "ft/min", "0.00508 m/s", "fpm sfm sfpm"},
    UnitSpelling{"speed", "in/s", "0.0254 m/s", "ips in/sec"},

    UnitSpelling{"density", "kg/m3", "kg/m3", "kg/cu.m"},
    UnitSpelling{"density", "g/cm3", "1000 kg/m3", "g/cc g/ml"},
    UnitSpelling{"density", "kg/L", "1000 kg/m3", "kg/dm3"},
    UnitSpelling{"density", "lb/in3", "27679.904710203125 kg/m3", "lbs/in3 lb/cu.in lbs/cu.in"},
    UnitSpelling{"density", "lb/ft3", "16.018463373960142 kg/m3", "lbs/ft3 lb/cu.ft lbs/cu.ft"},

    UnitSpelling{"expansion", "1/K", "K-1", "/K K.1 m/m/K m/m.K m/m/degC"},
    UnitSpelling{"expansion", "1/°C", "K-1", "/degC degC.1 1/C /C"},
    UnitSpelling{"expansion", "µm/m.K", "1e-6 K-1",
                 "um/m/K um/m.degC um/m/degC ppm/K ppm/degC "
                 "ppm/C um/m.C um/m/C"},
    UnitSpelling{"expansion", "1/°F", "1.8 K-1",
                 "/degF degF.1 1/F /F in/in/degF in/in.degF in/in/F"},
    UnitSpelling{"expansion", "µin/in.°F", "1.8e-6 K-1",
                 "uin/in/degF uin/in.F uin/in/F ppm/degF "
                 "ppm/F"},
};

constexpr std::array kUnclear = {
    UnclearSpelling{"length", "Mm", true, "Mm is a megametre, mm a millimetre: write mm or MM"},
    UnclearSpelling{"length", "tenth tenths", false,
                    "a tenth can be 0.1 mm, 0.1 in or 0.0001 in: write the decimal"},
    UnclearSpelling{"volume", "gal gals gallon gallons", false,
                    "a US gallon is 3.785 L, an imperial one 4.546 L: write US gal or imp gal"},
    UnclearSpelling{"volume", "qt qts quart quarts", false,
                    "a US quart is 0.946 L, an imperial one 1.137 L: write US qt or imp qt"},
    UnclearSpelling{"volume", "pt pts pint pints", false,
                    "a US pint is 473 mL, an imperial one 568 mL: write US pt or imp pt"},
    UnclearSpelling{"volume", "oz ozs ounce ounces floz fl.oz fluid.oz fluid.ounce fluid.ounces",
                    false,
                    "a US fluid ounce is 29.6 mL, an imperial one 28.4 mL: write US fl oz or "
                    "imp fl oz"},
    UnclearSpelling{"mass", "Mg", true, "Mg is a megagram, mg a milligram: write t or mg"},
    UnclearSpelling{"mass", "gr grs", false, "gr can be a gram or a grain: write g"},
    UnclearSpelling{"mass", "ton tons", false,
                    "a US ton is 907 kg, an imperial one 1016 kg, a tonne "
                    "1000 kg: write US ton, imp ton or t"},
    UnclearSpelling{
        "mass", "cwt hundredweight hundredweights", false,
        "a US hundredweight is 100 lb, an imperial one 112 lb: write US cwt or imp cwt"},
    UnclearSpelling{
        "force", "ton tons tonf tonsf ton.force", false,
        "a US ton-force is 8.90 kN, an imperial one 9.96 kN, a tonne-force 9.81 kN: write "
        "US tonf, imp tonf or tf"},
    UnclearSpelling{"pressure", "mPa", true, "mPa is a millipascal, MPa a megapascal: write MPa"},
    UnclearSpelling{"pressure", "Mbar", true, "Mbar is a megabar, mbar a millibar: write mbar"},
    UnclearSpelling{"pressure", "lb lbs pound pounds", false,
                    "a pound is no pressure by itself: write psi"},
    UnclearSpelling{"pressure", "kg kgs kilo kilos", false,
                    "a kilogram is no pressure by itself: write kgf/cm2"},
    UnclearSpelling{"temperature", "deg degree degrees", false,
                    "degrees can be Celsius or Fahrenheit: write °C or °F"},
    UnclearSpelling{"temperature_difference", "deg degree degrees", false,
                    "degrees can be Celsius or Fahrenheit: write °C or °F"},
    UnclearSpelling{"time", "m", false, "m can be a minute or a month: write min"},
    UnclearSpelling{"time", "'", false, "' can be a minute or a foot: write min"},
};

constexpr std::array kChains = {
    UnitChain{"length", "yd ft in", "in"},
    UnitChain{"angle", "° ′ ″", "°"},
    UnitChain{"mass", "st lb oz", "lb"},
    UnitChain{"time", "week d h min s", "h"},
};

} // namespace

std::span<const QuantityKind> quantity_kinds() {
    return kKinds;
}
std::span<const UnitSpelling> unit_table() {
    return kUnits;
}
std::span<const UnclearSpelling> unclear_spellings() {
    return kUnclear;
}
std::span<const UnitChain> unit_chains() {
    return kChains;
}

} // namespace fettle
