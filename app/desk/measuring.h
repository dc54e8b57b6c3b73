// Measuring a part: readings of a feature judged by the sheet fit.wear, begun with the limits of
// the part's position and with what was typed the last time, and kept with the part.
#pragma once

#include "calc/answer.h"
#include "calc/catalogue.h"
#include "notebook/measurements.h"
#include "notebook/words.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace fettle::desk {

inline constexpr std::string_view kMeasuringSheet = "fit.wear";

struct Measured {
    Measurement record;
    calc::Answer answer;
};

struct MeasuredFeature {
    std::string feature;
    calc::TypedInputs limits;       // of the part's position; empty where it has none
    std::vector<Measured> measured; // the newest first
};

// What was measured on the part or has limits at its position, by name.
Result<std::vector<MeasuredFeature>> measured_features(const Notebook& notebook, PartId part);

// The one of that name, in any case of its letters; nullptr when there is none.
const MeasuredFeature* feature_named(const std::vector<MeasuredFeature>& features,
                                     std::string_view name);

// What the form holds when a feature is to be measured: every input of the sheet, blank where
// nothing is known. Presets belong to the demo and never stand in for limits. Readings are blank.
calc::TypedInputs begun_measurement(const calc::Sheet& sheet, const MeasuredFeature* known);

struct Readings {
    PartId part;
    std::string feature;
    calc::TypedInputs typed; // goes before what the form begins with; "readings" among them
    Day day{};
    std::string note;
};
// Judges the readings and keeps them with the part, as one act. Fails as run_sheet does.
Result<Measured> measure(Notebook& notebook, calc::Catalogue& sheets, const Readings& readings);

// Writes limits of a feature of a position over those it has; a blank one is taken away. Refused:
// names that the sheet does not have or that are no limits, and what cannot be read.
Done set_limits(Notebook& notebook, const calc::Catalogue& sheets, const PositionFeature& limits);

// The decision a verdict speaks for; nothing where it asks for more.
std::optional<Decision> decision_for(std::string_view verdict);

// Mean and worst size over the days, with the limits last typed; nothing for fewer than two days.
std::optional<calc::AnsweredChart> sizes_over_time(const std::vector<Measured>& newest_first);

} // namespace fettle::desk
