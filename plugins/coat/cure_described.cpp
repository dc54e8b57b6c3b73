// The sheet coat.cure, described, and a compute that moves values between host and sheet.
#include "coat/cure_sheet.h"
#include "coat/described.h"

namespace fettle::coat {
namespace {

using namespace plugin;

enum Input : std::size_t {
    kPaint,
    kTemperature,
    kRule,
    kKnownTime,
    kKnownTemperature,
    kHalving,
    kSecondTime,
    kSecondTemperature,
    kLeast,
    kGreatest,
    kWarmed,
    kHours,
    kRecoatLeast,
    kRecoatMost,
    kSince
};

constexpr fettle_input temperature_input(const char* id, const char* label, const char* help,
                                         const char* preset, const char* continues,
                                         const char* when = "") {
    return input(FETTLE_NUMBER, {.id = id,
                                 .label = label,
                                 .help = help,
                                 .quantity = "temperature",
                                 .unit = "°C",
                                 .preset = preset,
                                 .least = kCureBounds.least,
                                 .greatest = kCureBounds.greatest,
                                 .when = when,
                                 .continues = continues});
}

constexpr fettle_input time_input(const char* id, const char* label, const char* help,
                                  const char* preset, const char* continues, Bounds bounds,
                                  bool required = false, const char* when = "") {
    return input(FETTLE_NUMBER, {.id = id,
                                 .label = label,
                                 .help = help,
                                 .quantity = "time",
                                 .unit = "h",
                                 .preset = preset,
                                 .least = bounds.least,
                                 .greatest = bounds.greatest,
                                 .required = required,
                                 .when = when,
                                 .continues = continues});
}

constexpr const char* kTwoPoints = "rule=two points of the data sheet";

constexpr fettle_input kInputs[] = {
    choice_input({.id = "paint",
                  .label = "Kind of paint",
                  .help = "As the tin says. It decides what to beware of, not the figures.",
                  .preset = "oil or alkyd enamel",
                  .continues = "same"},
                 kPaints),
    input(FETTLE_NUMBER, {.id = "temperature",
                          .label = "Temperature where it cures",
                          .help = "Of the steel, the mean over the hours to come; an unheated "
                                  "garage is colder at night than now. The day's air is filled in.",
                          .quantity = "temperature",
                          .unit = "°C",
                          .preset = "11",
                          .least = kCureBounds.least,
                          .greatest = kCureBounds.greatest,
                          .required = true,
                          .day = "air_temperature"}),
    choice_input({.id = "rule",
                  .label = "How time follows warmth",
                  .help = "By rule of thumb, or through two times that the data sheet gives at two "
                          "temperatures.",
                  .preset = "halves for each step of temperature",
                  .continues = "same"},
                 kRules),
    time_input("known_time", "Time on the data sheet",
               "Until it is dry to handle, or hard through: whichever you wait for.", "16", "same",
               kTimeBounds, true),
    input(FETTLE_NUMBER, {.id = "known_temperature",
                          .label = "At this temperature",
                          .help = "The temperature the data sheet states with that time, mostly 20 "
                                  "or 23 °C.",
                          .quantity = "temperature",
                          .unit = "°C",
                          .preset = "20",
                          .least = kCureBounds.least,
                          .greatest = kCureBounds.greatest,
                          .required = true,
                          .continues = "same"}),
    input(FETTLE_NUMBER, {.id = "halving",
                          .label = "Half the time for each",
                          .help = "10 K is the rule of thumb for paints that cure by reaction, "
                                  "stated by makers of two-pack paints. Blank takes 10 K.",
                          .quantity = "temperature_difference",
                          .unit = "K",
                          .preset = "10",
                          .least = kHalvingBounds.least,
                          .greatest = kHalvingBounds.greatest,
                          .when = "rule=halves for each step of temperature",
                          .continues = "same"}),
    time_input("second_time", "Second time on the data sheet",
               "For the same state of the film, at another temperature.", "32", "same", kTimeBounds,
               false, kTwoPoints),
    temperature_input("second_temperature", "At a second temperature",
                      "The temperature the data sheet states with the second time.", "10", "same",
                      kTwoPoints),
    temperature_input("least", "Least curing temperature",
                      "From the data sheet: below it the paint does not cure at all. Enamels and "
                      "summer hardeners mostly 10 °C. Blank is not judged.",
                      "10", "same"),
    temperature_input(
        "greatest", "Greatest curing temperature",
        "Of the steel, from the data sheet, for curing with heat. Blank is not judged.", "60",
        "same"),
    temperature_input("warmed", "If the part were warmed to",
                      "What a heated cupboard, a lamp or a warm room would bring the steel to. "
                      "Blank asks nothing.",
                      "25", ""),
    time_input("hours", "Time there is",
               "An evening's hours, or until the next coat must go on: gives the temperature that "
               "would be needed.",
               "8", "", kTimeBounds),
    time_input("recoat_least", "Next coat not before",
               "From the data sheet, at the temperature of the first time. Blank is not asked.",
               "16", "same", kTimeBounds),
    time_input("recoat_most", "Next coat not after",
               "From the data sheet, at the temperature of the first time; later it must be rubbed "
               "down. Blank where there is no end.",
               "72", "same", kTimeBounds),
    time_input("since", "Painted since",
               "Time since the last coat was laid on, at about this temperature. Blank before "
               "painting.",
               "", "", kSinceBounds)};
constexpr auto kInputList = pointers(kInputs);

constexpr const char* kBySheet =
    "half the time for each step (common practice), or Arrhenius through two points";

constexpr fettle_output kOutputs[] = {
    text_output({"verdict", "Verdict", kBySheet}),
    number_output({"time_here", "Time here", "time", "h", "", 2, kBySheet}),
    number_output({"time_warmed", "Time when warmed", "time", "h", "", 2, kBySheet}),
    number_output({"temperature_needed", "Temperature needed", "temperature", "°C", "°F", 3,
                   kBySheet, "coat.weather.steel"}),
    number_output({"recoat_from", "Next coat from", "time", "h", "", 2, kBySheet}),
    number_output({"recoat_until", "Next coat until", "time", "h", "", 2, kBySheet}),
    number_output({"cured", "Cured so far", "ratio", "%", "", 2, "time passed over time needed"})};
constexpr auto kOutputList = pointers(kOutputs);

constexpr fettle_axis kWarmth = axis("Steel", "temperature", "°C", "°F");
constexpr fettle_axis kTime = axis("Time", "time", "h", "");
constexpr fettle_chart kCharts[] = {chart("time", "Time over temperature", kWarmth, kTime)};
constexpr auto kChartList = pointers(kCharts);

constexpr std::array<const char*, 3> kSources = {
    "The paint maker's data sheet, as typed",
    "Half the time for each 10 K: common practice, stated by coating makers for two-pack paints",
    "Arrhenius equation, t = t1 exp(E/R (1/T - 1/T1)); R of CODATA 2018"};

constexpr const char* kCaution =
    "Wet paint gives off vapour that burns and harms: air the room, keep flame, lamp and heater at "
    "a "
    "distance, do not sleep beside it. Two-pack paints with isocyanates need air-fed masks and "
    "licensed practice where the law asks for it; local codes come first. Brake, steering and "
    "wheel "
    "seats stay bare where the maker says so. The paint maker's sheet outranks this one.";

std::int32_t compute(const fettle_value* const* values, std::uint32_t count,
                     const fettle_sink* sink) {
    return guarded(count, kInputList.size(), sink, [&] {
        const CureTyped typed{.paint = text(values[kPaint]),
                              .temperature = number(values[kTemperature]),
                              .rule = text(values[kRule]),
                              .known_time = number(values[kKnownTime]),
                              .known_temperature = number(values[kKnownTemperature]),
                              .halving = number(values[kHalving]),
                              .second_time = number(values[kSecondTime]),
                              .second_temperature = number(values[kSecondTemperature]),
                              .least = number(values[kLeast]),
                              .greatest = number(values[kGreatest]),
                              .warmed = number(values[kWarmed]),
                              .hours = number(values[kHours]),
                              .recoat_least = number(values[kRecoatLeast]),
                              .recoat_most = number(values[kRecoatMost]),
                              .since = number(values[kSince])};
        return answered(sink, work_cure(typed), [&](const CureAnswer& answer) {
            give_output(sink, "verdict", answer.verdict);
            give_output(sink, "time_here", answer.time_here);
            give_output(sink, "time_warmed", answer.time_warmed);
            give_output(sink, "temperature_needed", answer.temperature_needed);
            give_output(sink, "recoat_from", answer.recoat_from);
            give_output(sink, "recoat_until", answer.recoat_until);
            give_output(sink, "cured", answer.cured);
            give_picture(sink, answer.picture);
        });
    });
}

} // namespace

constinit const fettle_sheet kCureSheet = sheet(
    {.revision = 1,
     .id = "coat.cure",
     .title = "Curing in the cold",
     .answers = "How long does the paint need here, and what would warming the part give?",
     .caution = kCaution,
     .smooth = true},
    kInputList, kOutputList, std::array<const fettle_table*, 0>{}, kSources, compute, kChartList);

} // namespace fettle::coat
