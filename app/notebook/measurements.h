// Measurements of parts: readings of one feature on one day, judged, with the whole answer of the
// sheet that judged them; and what may be measured at a position, with the limits it is held to.
#pragma once

#include "base/date.h"
#include "notebook/notebook.h"

#include <map>
#include <string>
#include <vector>

namespace fettle {

struct Measurement {
    MeasurementId id;
    PartId part;
    std::string feature; // "pin diameter"
    Day day{};
    std::string sheet; // "fit.wear"
    std::string plugin_version;
    std::string answer;  // JSON as app/calc writes it; the notebook does not look inside
    std::string verdict; // its word: "reuse", "repair", "replace", "measure again"
    std::string note;
};

// Adds it, or overwrites the one with its id. Refused: a blank feature, a part that is not there.
Result<MeasurementId> keep_measurement(Notebook& notebook, const Measurement& measurement);
Done remove_measurement(Notebook& notebook, MeasurementId id);
// By feature, of each the newest first.
Result<std::vector<Measurement>> list_measurements(const Notebook& notebook, PartId part);

struct PositionFeature {
    PositionId position;
    std::string feature;
    std::map<std::string, std::string> typed; // input of the sheet -> text as typed
};

// Adds it, or overwrites the one of that name, in any case of its letters.
Done keep_feature(Notebook& notebook, const PositionFeature& feature);
Done remove_feature(Notebook& notebook, PositionId position, const std::string& feature);
Result<std::vector<PositionFeature>> list_features(const Notebook& notebook, PositionId position);

} // namespace fettle
