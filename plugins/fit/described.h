// The sheets of the plugin "fit", each described in a file of its own, and the inputs that several
// of them ask alike. Part of the adapter: the calculations know nothing of it.
#pragma once

#include "describe.hpp"
#include "fit/materials.h"

namespace fettle::fit {

extern const fettle_sheet kLimitsSheet;
extern const fettle_sheet kPressSheet;
extern const fettle_sheet kShrinkSheet;
extern const fettle_sheet kFreeSheet;
extern const fettle_sheet kWearSheet;

constexpr fettle_input diameter_input(const char* preset) {
    return plugin::input(FETTLE_NUMBER, {.id = "diameter",
                                         .label = "Diameter of the fit",
                                         .help = "The nominal diameter where both parts touch.",
                                         .quantity = "length",
                                         .unit = "in",
                                         .preset = preset,
                                         .least = 0.001,
                                         .greatest = 2,
                                         .required = true});
}

constexpr fettle_input material_input(const char* id, const char* label, const char* preset) {
    return plugin::choice_input(
        {.id = id,
         .label = label,
         .help = "Gives stiffness, strength, expansion and the heat it bears as guide "
                 "values; what you type beside it goes before them.",
         .preset = preset},
        kMaterialNames);
}

constexpr fettle_input expansion_input(const char* id, const char* label) {
    return plugin::input(FETTLE_NUMBER,
                         {.id = id,
                          .label = label,
                          .help = "Growth by length and degree where it is known; sources differ "
                                  "by up to 10 %. Blank takes the material's.",
                          .quantity = "expansion",
                          .unit = "µm/m.K",
                          .preset = "",
                          .least = 1e-6,
                          .greatest = 40e-6});
}

constexpr fettle_input room_input() {
    return plugin::input(FETTLE_NUMBER,
                         {.id = "room",
                          .label = "Temperature of the workshop",
                          .help = "Both parts lie at it before they are heated or cooled.",
                          .quantity = "temperature",
                          .unit = "°C",
                          .preset = "18",
                          .least = 253.15,
                          .greatest = 323.15,
                          .required = true,
                          .day = "air_temperature"});
}

inline constexpr const char* kHeatCaution =
    "Heat is judged by thermometer or heat crayon, not by eye. Gloves, goggles, good air, an "
    "extinguisher and a second person at hand; nothing that burns near, and a look again after an "
    "hour. Zinc, cadmium, chromate, lead paint and burning oil give poisonous fumes. Parts of "
    "brakes and steering, springs and hardened pins are not heated; the maker's figures, local "
    "codes and licensed practice come first.";

} // namespace fettle::fit
