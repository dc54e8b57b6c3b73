// The sheet coat.weather, described, and a compute that moves values between host and sheet.
#include "coat/described.h"
#include "coat/weather_sheet.h"

namespace fettle::coat {
namespace {

using namespace plugin;

enum Input : std::size_t {
    kAir,
    kHumidityHow,
    kHumidity,
    kWetBulb,
    kPressure,
    kSteel,
    kSteelLow,
    kMarginWanted,
    kHumidityLimit,
    kPaintLeast,
    kPaintGreatest,
    kSurface,
    kSinceBlasting,
    kBlastLimit
};

constexpr const char* kBare = "surface=blasted bare steel|bare steel cleaned by hand or power tool";

constexpr fettle_input kInputs[] = {
    input(FETTLE_NUMBER,
          {.id = "air",
           .label = "Air temperature",
           .help = "By thermometer beside the part, in the shade, after ten minutes. "
                   "Typed once a day, it is filled in wherever it is asked.",
           .quantity = "temperature",
           .unit = "°C",
           .preset = "11",
           .least = kAirBounds.least,
           .greatest = kAirBounds.greatest,
           .required = true,
           .day = "air_temperature"}),
    choice_input({.id = "humidity_by",
                  .label = "Humidity by",
                  .help = "A hygrometer that reads in per cent, or two thermometers, one in a wet "
                          "wick, whirled or fanned until they stand still.",
                  .preset = "hygrometer"},
                 kHumidityBy),
    input(FETTLE_NUMBER, {.id = "humidity",
                          .label = "Relative humidity",
                          .help = "By hygrometer beside the part. Cheap ones are off by 5 % and "
                                  "more: check yours over moist salt, it must read 75 %.",
                          .quantity = "ratio",
                          .unit = "%",
                          .preset = "72",
                          .least = kShareBounds.least,
                          .greatest = kShareBounds.greatest,
                          .when = "humidity_by=hygrometer",
                          .day = "humidity"}),
    input(FETTLE_NUMBER,
          {.id = "wet_bulb",
           .label = "Wet bulb",
           .help = "The thermometer in the wet wick, clean water, read at once after "
                   "whirling. The dry one is the air temperature.",
           .quantity = "temperature",
           .unit = "°C",
           .preset = "8.6",
           .least = kAirBounds.least,
           .greatest = kAirBounds.greatest,
           .when = "humidity_by=dry and wet bulb"}),
    input(FETTLE_NUMBER, {.id = "pressure",
                          .label = "Air pressure",
                          .help = "At your place, not reduced to sea level: about 12 mbar less for "
                                  "each 100 m of height. Blank takes 1013 mbar.",
                          .quantity = "pressure",
                          .unit = "mbar",
                          .preset = "",
                          .least = kPressureBounds.least,
                          .greatest = kPressureBounds.greatest,
                          .when = "humidity_by=dry and wet bulb"}),
    input(FETTLE_NUMBER,
          {.id = "steel",
           .label = "Steel temperature",
           .help = "On the part itself, at its thickest and coldest place, by contact "
                   "thermometer. An infrared one reads bare bright steel wrong: aim "
                   "at a strip of masking tape.",
           .quantity = "temperature",
           .unit = "°C",
           .preset = "10.5",
           .least = kSteelBounds.least,
           .greatest = kSteelBounds.greatest,
           .required = true}),
    input(FETTLE_NUMBER, {.id = "steel_low",
                          .label = "Steel at its coldest while wet",
                          .help = "How cold the part gets before the paint is touch dry, tonight's "
                                  "low for an unheated garage. Blank is not judged.",
                          .quantity = "temperature",
                          .unit = "°C",
                          .preset = "",
                          .least = kSteelBounds.least,
                          .greatest = kSteelBounds.greatest}),
    input(FETTLE_NUMBER,
          {.id = "margin_wanted",
           .label = "Margin over the dew point",
           .help = "3 K by ISO 8502-4 unless the paint's data sheet asks more; charts "
                   "in Fahrenheit say 5 °F. Blank takes 3 K.",
           .quantity = "temperature_difference",
           .unit = "K",
           .preset = "3",
           .least = kMarginBounds.least,
           .greatest = kMarginBounds.greatest,
           .continues = "same"}),
    input(FETTLE_NUMBER, {.id = "humidity_limit",
                          .label = "Greatest humidity",
                          .help = "From the paint's data sheet. Blank takes 85 %, what most sheets "
                                  "say; moisture-curing paints want more, not less.",
                          .quantity = "ratio",
                          .unit = "%",
                          .preset = "85",
                          .least = kLimitBounds.least,
                          .greatest = kLimitBounds.greatest,
                          .continues = "same"}),
    input(FETTLE_NUMBER, {.id = "paint_least",
                          .label = "Paint's least temperature",
                          .help = "From the paint's data sheet, for air and steel alike; usually "
                                  "10 °C, for winter hardeners less. Blank is not judged.",
                          .quantity = "temperature",
                          .unit = "°C",
                          .preset = "10",
                          .least = kSteelBounds.least,
                          .greatest = kSteelBounds.greatest,
                          .continues = "same"}),
    input(FETTLE_NUMBER, {.id = "paint_greatest",
                          .label = "Paint's greatest temperature",
                          .help = "Of the steel, from the paint's data sheet; usually 35 °C. Blank "
                                  "is not judged.",
                          .quantity = "temperature",
                          .unit = "°C",
                          .preset = "35",
                          .least = kSteelBounds.least,
                          .greatest = kSteelBounds.greatest,
                          .continues = "same"}),
    choice_input({.id = "surface",
                  .label = "What is painted",
                  .help = "Bare steel rusts while it waits, freshly blasted steel fastest.",
                  .preset = "blasted bare steel"},
                 kSurfaces),
    input(FETTLE_NUMBER, {.id = "since_blasting",
                          .label = "Bare since",
                          .help = "Time since blasting or cleaning ended, on the part that waited "
                                  "longest. Blank is not judged.",
                          .quantity = "time",
                          .unit = "h",
                          .preset = "2",
                          .least = kSinceBounds.least,
                          .greatest = kSinceBounds.greatest,
                          .when = kBare}),
    input(FETTLE_NUMBER,
          {.id = "blast_limit",
           .label = "Paint maker's limit for bare steel",
           .help = "From blasting to painting, as the data sheet states. Blank takes "
                   "what is usual in such air: 8 h to 50 % humidity, 4 h at 85 %.",
           .quantity = "time",
           .unit = "h",
           .preset = "",
           .least = kTimeBounds.least,
           .greatest = kTimeBounds.greatest,
           .when = kBare})};
constexpr auto kInputList = pointers(kInputs);

constexpr const char* kMagnus = "WMO No. 8, annex 4.B: e = 6.112 exp(17.62 t/(243.12 + t)) hPa";
constexpr const char* kGuidance = "ISO 8502-4 (3 K); the limits typed";

constexpr fettle_output kOutputs[] = {
    text_output({"verdict", "Verdict", kGuidance}),
    number_output({"dew_point", "Dew point", "temperature", "°C", "°F", 3, kMagnus}),
    number_output({"margin", "Steel above dew point", "temperature_difference", "K", "°F", 2,
                   "steel less dew point"}),
    number_output({"humidity_now", "Humidity of the air", "ratio", "%", "", 2,
                   "vapour pressure over saturation, WMO No. 8, annex 4.B"}),
    number_output({"humidity_at_steel", "Humidity at the steel", "ratio", "%", "", 2,
                   "vapour pressure over saturation at the steel, WMO No. 8, annex 4.B"}),
    number_output({"steel_needed", "Steel needed", "temperature", "°C", "°F", 3,
                   "dew point and margin, not below the paint's least", "coat.cure.warmed"}),
    number_output({"warm_by", "Warm the steel by", "temperature_difference", "K", "°F", 2,
                   "steel needed less steel now"}),
    number_output(
        {"air_at_limit", "Air at the limit of humidity", "temperature", "°C", "°F", 3, kMagnus}),
    number_output({"bare_for", "Bare steel may stand", "time", "h", "", 2,
                   "the paint maker's sheet; else common practice, no source"})};
constexpr auto kOutputList = pointers(kOutputs);

constexpr fettle_axis kHumidityAxis = axis("Humidity", "ratio", "%", "");
constexpr fettle_axis kDewAxis = axis("Dew point", "temperature", "°C", "°F");
constexpr fettle_axis kAirAxis = axis("Air", "temperature", "°C", "°F");
constexpr fettle_chart kCharts[] = {
    chart("dew_point", "Dew point over humidity", kHumidityAxis, kDewAxis),
    chart("warming", "What warming the air gives", kAirAxis, kHumidityAxis)};
constexpr auto kChartList = pointers(kCharts);

constexpr std::array<const char*, 5> kSources = {
    "WMO No. 8, Guide to Instruments and Methods of Observation, annex 4.B (vapour, psychrometer)",
    "ISO 8502-4 (guidance on condensation before painting; the 3 K from memory)",
    "ISO 8501-1 (grades of cleaned steel)",
    "Coating makers' sheets: humidity to 85 %, paint and steel 10 to 35 °C",
    "Common practice, no source: how long bare steel may stand"};

constexpr const char* kCaution =
    "Solvent vapour burns and harms: air the room, keep flames, sparks and heaters out, wear the "
    "mask "
    "the data sheet names. Two-pack paints with isocyanates need air-fed masks and, in many "
    "places, "
    "licensed practice; local codes come first. Old paint may hold lead: no dry sanding. The paint "
    "maker's sheet outranks this one.";

std::int32_t compute(const fettle_value* const* values, std::uint32_t count,
                     const fettle_sink* sink) {
    return guarded(count, kInputList.size(), sink, [&] {
        const WeatherTyped typed{.air = number(values[kAir]),
                                 .humidity_by = text(values[kHumidityHow]),
                                 .humidity = number(values[kHumidity]),
                                 .wet_bulb = number(values[kWetBulb]),
                                 .pressure = number(values[kPressure]),
                                 .steel = number(values[kSteel]),
                                 .steel_low = number(values[kSteelLow]),
                                 .margin_wanted = number(values[kMarginWanted]),
                                 .humidity_limit = number(values[kHumidityLimit]),
                                 .paint_least = number(values[kPaintLeast]),
                                 .paint_greatest = number(values[kPaintGreatest]),
                                 .surface = text(values[kSurface]),
                                 .since_blasting = number(values[kSinceBlasting]),
                                 .blast_limit = number(values[kBlastLimit])};
        return answered(sink, work_weather(typed), [&](const WeatherAnswer& answer) {
            give_output(sink, "verdict", answer.verdict);
            give_output(sink, "dew_point", answer.dew_point);
            give_output(sink, "margin", answer.margin);
            give_output(sink, "humidity_now", answer.humidity);
            give_output(sink, "humidity_at_steel", answer.humidity_at_steel);
            give_output(sink, "steel_needed", answer.steel_needed);
            give_output(sink, "warm_by", answer.warm_by);
            give_output(sink, "air_at_limit", answer.air_at_limit);
            give_output(sink, "bare_for", answer.bare_for);
            for (const Picture& picture : answer.pictures)
                give_picture(sink, picture);
        });
    });
}

} // namespace

constinit const fettle_sheet kWeatherSheet = sheet(
    {.revision = 1,
     .id = "coat.weather",
     .title = "Weather for painting",
     .answers = "Can I paint tonight, and what would warming the steel or the air give?",
     .caution = kCaution,
     .smooth = true},
    kInputList, kOutputList, std::array<const fettle_table*, 0>{}, kSources, compute, kChartList);

} // namespace fettle::coat
