#include "coat/weather_sheet.h"

#include <algorithm>
#include <cmath>

namespace fettle::coat {
namespace {

using plugin::line;
using plugin::Outcome;
using plugin::Refusal;

constexpr double kHair = 1e-9; // what rounding in the last place does to a limit typed

std::string hectopascals(double pascals) {
    return line(plugin::figure(pascals / 100, 4), " hPa");
}

bool by_wet_bulb(const WeatherTyped& typed) {
    return typed.humidity_by == kHumidityBy[1];
}

std::optional<Refusal> unfit_typed(const WeatherTyped& typed) {
    const bool wet = by_wet_bulb(typed);
    const std::optional<double> none;
    if (auto no =
            unfit({{"air", typed.air, kAirBounds, degrees, true},
                   {"humidity", wet ? none : typed.humidity, kShareBounds, percent, !wet},
                   {"wet_bulb", wet ? typed.wet_bulb : none, kAirBounds, degrees, wet},
                   {"pressure", wet ? typed.pressure : none, kPressureBounds, hectopascals, false},
                   {"steel", typed.steel, kSteelBounds, degrees, true},
                   {"steel_low", typed.steel_low, kSteelBounds, degrees, false},
                   {"margin_wanted", typed.margin_wanted, kMarginBounds, difference, false},
                   {"humidity_limit", typed.humidity_limit, kLimitBounds, percent, false},
                   {"paint_least", typed.paint_least, kSteelBounds, degrees, false},
                   {"paint_greatest", typed.paint_greatest, kSteelBounds, degrees, false},
                   {"since_blasting", typed.since_blasting, kSinceBounds, spell, false},
                   {"blast_limit", typed.blast_limit, kTimeBounds, spell, false}}))
        return no;
    if (typed.paint_least && typed.paint_greatest && *typed.paint_least > *typed.paint_greatest)
        return Refusal{"paint_greatest", line("paint_greatest: ", degrees(*typed.paint_greatest),
                                              " lies below the least temperature; accepted is ",
                                              degrees(*typed.paint_least), " or more.")};
    if (typed.steel_low && *typed.steel_low > *typed.steel)
        return Refusal{"steel_low", line("steel_low: ", degrees(*typed.steel_low),
                                         " is warmer than the steel is now; accepted is ",
                                         degrees(*typed.steel), " or less.")};
    return std::nullopt;
}

// Vapour pressure of the air, by either instrument.
Outcome<double> vapour_typed(const WeatherTyped& typed, std::vector<std::string>& working) {
    const double air = *typed.air;
    working.push_back(line("saturation at ", degrees(air), " = 6.112 exp(17.62 × ",
                           decimals(air - kIce, 1), "/(243.12 + ", decimals(air - kIce, 1),
                           ")) = ", hectopascals(saturation(air))));
    if (!by_wet_bulb(typed)) {
        const double vapour = vapour_of(air, *typed.humidity);
        working.push_back(
            line("water vapour e = ", percent(*typed.humidity), " of it = ", hectopascals(vapour)));
        return vapour;
    }
    const double wet = *typed.wet_bulb;
    if (wet < kIce)
        return Refusal{"wet_bulb", line("wet_bulb: ", degrees(wet),
                                        " means a frozen wick; accepted is 0.0 °C (32.0 °F) or "
                                        "more, below it use a hygrometer.")};
    if (wet > air)
        return Refusal{"wet_bulb",
                       line("wet_bulb: ", degrees(wet), " is warmer than the air; accepted is ",
                            degrees(air), " or less.")};
    const double pressure = typed.pressure.value_or(kStandardAir);
    const double vapour = vapour_by_wet_bulb(air, wet, pressure);
    if (vapour < kShareBounds.least * saturation(air))
        return Refusal{"wet_bulb",
                       line("wet_bulb: ", degrees(wet), " is too cold for air of ", degrees(air),
                            "; accepted are readings that leave 1 % humidity. Wet the "
                            "wick and read again.")};
    working.push_back(line("water vapour e = ", hectopascals(saturation(wet)),
                           " at the wet bulb - 0.000653 (1 + 0.000944 × ", decimals(wet - kIce, 1),
                           ") × ", hectopascals(pressure), " × ", difference(air - wet), " = ",
                           hectopascals(vapour)));
    return vapour;
}

// Why not to paint, collected: each reason is a part of the verdict and a note of its own.
struct Judgement {
    std::vector<std::string> reasons;
    std::vector<plugin::Note>& notes;

    void against(const std::string& reason, const std::string& note) {
        reasons.push_back(reason);
        notes.push_back({FETTLE_STOP, note});
    }
};

void judge_condensation(const WeatherTyped& typed, const Weather& weather,
                        const WeatherAnswer& answer, Judgement& judgement) {
    if (answer.margin <= 0) {
        judgement.against(line("the steel is not above the dew point of ", degrees(weather.dew)),
                          "Water is condensing on this steel now. Dry it and warm it first; paint "
                          "laid on water lifts.");
    } else if (answer.margin < weather.margin_wanted - kHair) {
        judgement.against(line("the steel is ", difference(answer.margin),
                               " above the dew point, wanted are ",
                               difference(weather.margin_wanted)),
                          line("Too near the dew point: water may condense on the steel or into "
                               "the wet film. Warm the steel to ",
                               degrees(answer.steel_needed), " or dry the air."));
    }
    if (answer.humidity > weather.limit + kHair)
        judgement.against(
            line("humidity is ", percent(answer.humidity), ", the limit ", percent(weather.limit)),
            line("The air is too humid for the paint to give off its solvent and "
                 "cure. Dry the air, or warm it to ",
                 degrees(answer.air_at_limit), " without adding water."));
    if (!typed.steel_low) return;
    const double low = *typed.steel_low - weather.dew;
    if (low <= 0)
        judgement.against(
            line("the steel will fall to ", degrees(*typed.steel_low), ", not above the dew point"),
            "Dew will fall on the wet film as the steel cools: it blooms and loses "
            "its gloss. Keep the steel warm until it is touch dry, or wait.");
    else if (low < weather.margin_wanted - kHair)
        judgement.notes.push_back(
            {FETTLE_CAUTION, line("Before it is touch dry the steel comes within ", difference(low),
                                  " of the dew point. Keep it warm through the "
                                  "night.")});
}

void judge_temperature(const WeatherTyped& typed, Judgement& judgement) {
    const double coldest = std::min(*typed.steel, *typed.air);
    if (typed.paint_least && coldest < *typed.paint_least - kHair)
        judgement.against(line(*typed.steel < *typed.paint_least ? "the steel" : "the air", " is ",
                               degrees(coldest), ", the paint's least ",
                               degrees(*typed.paint_least)),
                          line("Too cold for this paint: below ", degrees(*typed.paint_least),
                               " it neither flows nor cures as it should, however dry it looks."));
    if (typed.paint_greatest && *typed.steel > *typed.paint_greatest + kHair)
        judgement.against(line("the steel is ", degrees(*typed.steel), ", the paint's greatest ",
                               degrees(*typed.paint_greatest)),
                          "Too hot for this paint: solvent boils off before the film has flowed, "
                          "and leaves pinholes and dry spray.");
    if (!typed.paint_least)
        judgement.notes.push_back({FETTLE_INFO,
                                   "The paint's least temperature was not typed, so it "
                                   "was not judged; it stands on the data sheet."});
    if (*typed.steel < kIce)
        judgement.against("the steel is below freezing",
                          "There may be ice on the steel that nobody sees.");
}

void judge_bare_steel(const WeatherTyped& typed, WeatherAnswer& answer, Judgement& judgement) {
    if (typed.surface != kSurfaces[0] && typed.surface != kSurfaces[1]) return;
    answer.bare_for = typed.blast_limit.value_or(usual_bare_time(answer.humidity));
    const std::string whose =
        typed.blast_limit ? "the paint maker's limit"
                          : "usual (common practice, no source; the paint maker's sheet first)";
    answer.account.working.push_back(line("bare steel in ", percent(answer.humidity),
                                          " humidity may stand ", spell(*answer.bare_for), ", ",
                                          whose));
    const bool blasted = typed.surface == kSurfaces[0];
    const std::string grade = blasted ? "Sa 2½" : "St 2 or St 3";
    if (typed.since_blasting && *typed.since_blasting > *answer.bare_for * (1 + kHair)) {
        const std::string passed = line("bare for ", spell(*typed.since_blasting), ", the limit ",
                                        spell(*answer.bare_for));
        const std::string again =
            line("Look for flash rust before painting: if the steel no longer "
                 "shows its grade of ISO 8501-1 (",
                 grade, " or what the paint asks), clean it again.");
        if (typed.blast_limit)
            judgement.against(passed, again);
        else
            judgement.notes.push_back({FETTLE_CAUTION, line("It was ", passed, ". ", again)});
        return;
    }
    judgement.notes.push_back(
        {FETTLE_INFO, line("Compare the steel with its grade of ISO 8501-1 (", grade,
                           ") just before painting; wear clean gloves, a finger mark rusts under "
                           "paint.")});
}

std::string verdict_of(const std::vector<std::string>& reasons, const WeatherAnswer& answer) {
    if (reasons.empty())
        return line("Paint: the steel is ", difference(answer.margin),
                    " above the dew point, humidity ", percent(answer.humidity), ".");
    std::string all;
    for (const std::string& reason : reasons)
        all += line(all.empty() ? "" : "; ", reason);
    return line("Do not paint: ", all, ".");
}

void reckon(const WeatherTyped& typed, const Weather& weather, WeatherAnswer& answer) {
    answer.dew_point = weather.dew;
    answer.margin = weather.steel - weather.dew;
    answer.humidity = std::min(weather.vapour / saturation(weather.air), 1.0);
    answer.humidity_at_steel = weather.vapour / saturation(weather.steel);
    answer.steel_needed = weather.dew + weather.margin_wanted;
    if (typed.paint_least) answer.steel_needed = std::max(answer.steel_needed, *typed.paint_least);
    answer.warm_by = std::max(0.0, answer.steel_needed - weather.steel);
    answer.air_at_limit = temperature_for(weather.vapour, weather.limit);
    auto& working = answer.account.working;
    working.push_back(
        line("dew point: x = ln(e/6.112) = ", decimals(std::log(weather.vapour / 611.2), 4),
             ", 243.12 x/(17.62 - x) = ", degrees(answer.dew_point)));
    working.push_back(line("margin = steel ", degrees(weather.steel),
                           " - dew point = ", difference(answer.margin)));
    working.push_back(line(
        "humidity ", percent(answer.humidity), " in the room, ", percent(answer.humidity_at_steel),
        " where the air touches the steel; water in the air ",
        plugin::figure(1e3 * water_content(weather.vapour, weather.air), 3), " g/m³"));
    working.push_back(line("steel needed = dew point + ", difference(weather.margin_wanted),
                           typed.paint_least ? ", and not below the paint's least," : "", " = ",
                           degrees(answer.steel_needed)));
    working.push_back(line("with the same water in it the air has ", percent(weather.limit),
                           " humidity at ", degrees(answer.air_at_limit)));
}

void note_warming(std::vector<plugin::Note>& notes) {
    notes.push_back(
        {FETTLE_CAUTION,
         "If you warm part or room: no flame and no glowing heater near solvent, wet "
         "paint or rags. A flueless gas or paraffin heater also puts water into the "
         "air, about 1.6 kg for each kg of propane, and takes the oxygen you breathe."});
}

} // namespace

double usual_bare_time(double humidity) {
    if (humidity <= 0.5) return 8 * kHour;
    if (humidity <= 0.85) return (8 - 4 * (humidity - 0.5) / 0.35) * kHour;
    return 4 * (1 - humidity) / 0.15 * kHour;
}

Outcome<WeatherAnswer> work_weather(const WeatherTyped& typed) {
    if (auto no = unfit_typed(typed)) return *no;
    WeatherAnswer answer{};
    const auto vapour = vapour_typed(typed, answer.account.working);
    if (const auto* no = std::get_if<Refusal>(&vapour)) return *no;
    const double e = std::get<double>(vapour);
    const Weather weather{*typed.air,
                          e,
                          dew_point(e),
                          *typed.steel,
                          typed.margin_wanted.value_or(kUsualMargin),
                          typed.humidity_limit.value_or(kUsualHumidity)};
    reckon(typed, weather, answer);
    auto& notes = answer.account.notes;
    Judgement judgement{{}, notes};
    judge_condensation(typed, weather, answer, judgement);
    judge_temperature(typed, judgement);
    judge_bare_steel(typed, answer, judgement);
    answer.verdict = verdict_of(judgement.reasons, answer);
    if (!judgement.reasons.empty()) note_warming(notes);
    if (weather.dew < kIce)
        notes.push_back({FETTLE_INFO,
                         "The dew point lies below freezing: what settles on the steel "
                         "is frost, at a slightly higher temperature."});
    answer.pictures = {dew_point_chart(weather), warming_chart(weather)};
    return answer;
}

} // namespace fettle::coat
