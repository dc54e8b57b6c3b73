// fit.press as the contract describes it, and a compute that moves values between host and sheet.
#include "fit/described.h"
#include "fit/press_sheet.h"

namespace fettle::fit {
namespace {

using namespace fettle::plugin;

enum Input : std::size_t {
    kDiameter,
    kHubOd,
    kShaftBore,
    kLength,
    kInterferenceMin,
    kInterferenceMax,
    kHubMaterial,
    kShaftMaterial,
    kFriction,
    kWarmer,
    kHubRz,
    kShaftRz,
    kHubModulus,
    kHubPoisson,
    kHubStrength,
    kHubExpansion,
    kShaftModulus,
    kShaftPoisson,
    kShaftStrength,
    kShaftExpansion
};

constexpr fettle_input length_input(const char* id, const char* label, const char* help,
                                    const char* preset, double least, bool required) {
    return input(FETTLE_NUMBER, {.id = id,
                                 .label = label,
                                 .help = help,
                                 .quantity = "length",
                                 .unit = "in",
                                 .preset = preset,
                                 .least = least,
                                 .greatest = 4,
                                 .required = required});
}

constexpr fettle_input interference_input(const char* id, const char* label, const char* help,
                                          const char* preset, bool required) {
    return input(FETTLE_NUMBER, {.id = id,
                                 .label = label,
                                 .help = help,
                                 .quantity = "length",
                                 .unit = "thou",
                                 .preset = preset,
                                 .least = -0.001,
                                 .greatest = 0.02,
                                 .required = required});
}

constexpr fettle_input modulus_input(const char* id, const char* label) {
    return input(FETTLE_NUMBER, {.id = id,
                                 .label = label,
                                 .help = "Where it is known from a data sheet. Blank takes the "
                                         "material's.",
                                 .quantity = "pressure",
                                 .unit = "GPa",
                                 .preset = "",
                                 .least = 1e9,
                                 .greatest = 700e9});
}

constexpr fettle_input poisson_input(const char* id, const char* label) {
    return input(FETTLE_NUMBER, {.id = id,
                                 .label = label,
                                 .help = "About 0.3 for metals. Blank takes the material's.",
                                 .quantity = "number",
                                 .unit = "",
                                 .preset = "",
                                 .least = 0.05,
                                 .greatest = 0.49});
}

constexpr fettle_input strength_input(const char* id, const char* label) {
    return input(FETTLE_NUMBER, {.id = id,
                                 .label = label,
                                 .help = "Yield stress; of cast iron the tensile strength. Blank "
                                         "takes the guide value of the material.",
                                 .quantity = "pressure",
                                 .unit = "MPa",
                                 .preset = "",
                                 .least = 5e6,
                                 .greatest = 3e9});
}

constexpr fettle_input roughness_input(const char* id, const char* label) {
    return input(FETTLE_NUMBER, {.id = id,
                                 .label = label,
                                 .help = "Rz: about 4 µm ground, 10 µm reamed or fine turned, "
                                         "25 µm turned. Blank takes no loss by smoothing.",
                                 .quantity = "length",
                                 .unit = "µm",
                                 .preset = "",
                                 .least = 0,
                                 .greatest = 1e-4});
}

constexpr fettle_input kInputs[] = {
    diameter_input("1.125"),
    length_input("hub_od", "Outside of the hub",
                 "Diameter of the outer part; where it is no round, that of the largest circle "
                 "that lies within it.",
                 "1.875", 0.001, true),
    length_input("shaft_bore", "Bore of the inner part",
                 "Inside diameter of a bush or hollow shaft before it is pressed in. Blank for a "
                 "solid one.",
                 "1.000", 0, false),
    length_input("length", "Length of the fit", "How far both parts touch along the axis.", "1.5",
                 0.0005, true),
    interference_input("interference_min", "Least interference",
                       "Outside of the inner part less bore of the outer, on the diameter, at its "
                       "least. Blank where both parts are measured: the greatest alone counts.",
                       "0.3", false),
    interference_input("interference_max", "Greatest interference",
                       "The same at its greatest, or as measured: always on the diameter, not on "
                       "the radius.",
                       "1.0", true),
    material_input("hub_material", "Material of the hub", "steel"),
    material_input("shaft_material", "Material of the inner part", "bronze"),
    input(FETTLE_NUMBER, {.id = "friction",
                          .label = "Friction",
                          .help = "0.05 to 0.1 oiled, 0.12 usual, 0.15 to 0.2 dry or shrunk. "
                                  "Blank takes 0.12.",
                          .quantity = "number",
                          .unit = "",
                          .preset = "0.12",
                          .least = 0.01,
                          .greatest = 1}),
    input(FETTLE_NUMBER, {.id = "warmer",
                          .label = "Warmer in service by",
                          .help = "How much warmer than 20 °C both parts run; negative for colder. "
                                  "Unequal materials then grip more or less.",
                          .quantity = "temperature_difference",
                          .unit = "K",
                          .preset = "",
                          .least = -100,
                          .greatest = 500}),
    roughness_input("hub_rz", "Roughness of the bore"),
    roughness_input("shaft_rz", "Roughness of the inner part"),
    modulus_input("hub_modulus", "Modulus of the hub"),
    poisson_input("hub_poisson", "Poisson's ratio, hub"),
    strength_input("hub_strength", "Strength of the hub"),
    expansion_input("hub_expansion", "Expansion of the hub"),
    modulus_input("shaft_modulus", "Modulus of the inner part"),
    poisson_input("shaft_poisson", "Poisson's ratio, inner"),
    strength_input("shaft_strength", "Strength, inner part"),
    expansion_input("shaft_expansion", "Expansion, inner part")};
constexpr auto kInputList = pointers(kInputs);

constexpr const char* kLame = "Lamé: Shigley section 3-16, unequal materials";

constexpr fettle_output kOutputs[] = {
    number_output({"pressure_min", "Pressure, least", "pressure", "MPa", "psi", 3, kLame}),
    number_output({"pressure_max", "Pressure, greatest", "pressure", "MPa", "psi", 3, kLame}),
    number_output({"push_force", "Push it home with", "force", "kN", "lbf", 3,
                   "mu p pi d l at the greatest interference"}),
    number_output({"slip_force", "Slides under", "force", "kN", "lbf", 3,
                   "mu p pi d l at the least interference"}),
    number_output({"slip_torque", "Slips at", "torque", "N.m", "lbf.ft", 3,
                   "mu p pi d² l/2 at the least interference"}),
    number_output({"hub_stress", "Stress in the hub", "pressure", "MPa", "psi", 3, kLame}),
    number_output({"hub_share", "Of its strength", "ratio", "%", "", 3,
                   "von Mises over yield; cast iron: tension over tensile strength"}),
    number_output({"shaft_stress", "Stress, inner part", "pressure", "MPa", "psi", 3, kLame}),
    number_output(
        {"shaft_share", "Of its strength, inner", "ratio", "%", "", 3, "von Mises over yield"}),
    number_output({"interference_allowed", "Most interference", "length", "µm", "thou", 3,
                   "that brings the weaker part to its strength"}),
    number_output({"hub_growth", "Hub grows by", "length", "µm", "thou", 3, kLame}),
    number_output({"close_in", "Bore closes in by", "length", "µm", "thou", 3, kLame}),
    number_output({"bore_after", "Bore then measures", "length", "mm", "in", 6, kLame})};
constexpr auto kOutputList = pointers(kOutputs);

constexpr fettle_axis kInterference = axis("Interference", "length", "µm", "thou");
constexpr fettle_axis kPressure = axis("Pressure", "pressure", "MPa", "psi");
constexpr fettle_chart kCharts[] = {
    chart("pressure", "Pressure over interference", kInterference, kPressure)};
constexpr auto kChartList = pointers(kCharts);

constexpr std::array<const char*, 4> kSources = {
    "Lamé's thick cylinders: Shigley, Mechanical Engineering Design, 9th ed., section 3-16; Mott, "
    "Machine Elements, ch. 13",
    "DIN 7190 (loss by smoothing; from memory)",
    "Guide values of materials: textbooks and makers' tables, in part from memory",
    "Friction while pressing: handbooks, from memory"};

constexpr const char* kCaution =
    "Press behind a guard, with the part square and supported right round; hubs and bearings "
    "burst. Never drive hardened parts with a hardened hammer. Where a press fit holds brakes, "
    "steering or running gear, the maker's interference and licensed practice come first.";

std::int32_t compute_press(const fettle_value* const* values, std::uint32_t count,
                           const fettle_sink* sink) {
    return guarded(count, kInputList.size(), sink, [&] {
        const PressTyped typed{number(values[kDiameter]),
                               number(values[kHubOd]),
                               number(values[kShaftBore]),
                               number(values[kLength]),
                               number(values[kInterferenceMin]),
                               number(values[kInterferenceMax]),
                               {text(values[kHubMaterial]), number(values[kHubModulus]),
                                number(values[kHubPoisson]), number(values[kHubStrength]),
                                number(values[kHubExpansion])},
                               {text(values[kShaftMaterial]), number(values[kShaftModulus]),
                                number(values[kShaftPoisson]), number(values[kShaftStrength]),
                                number(values[kShaftExpansion])},
                               number(values[kFriction]),
                               number(values[kHubRz]),
                               number(values[kShaftRz]),
                               number(values[kWarmer])};
        return answered(sink, work_press(typed), [&](const PressAnswer& answer) {
            give_output(sink, "pressure_min", answer.pressure_min);
            give_output(sink, "pressure_max", answer.pressure_max);
            give_output(sink, "push_force", answer.push_force);
            give_output(sink, "slip_force", answer.slip_force);
            give_output(sink, "slip_torque", answer.slip_torque);
            give_output(sink, "hub_stress", answer.hub_stress);
            give_output(sink, "hub_share", answer.hub_share);
            give_output(sink, "shaft_stress", answer.shaft_stress);
            give_output(sink, "shaft_share", answer.shaft_share);
            give_output(sink, "interference_allowed", answer.interference_allowed);
            give_output(sink, "hub_growth", answer.hub_growth);
            give_output(sink, "close_in", answer.close_in);
            give_output(sink, "bore_after", answer.bore_after);
            give_picture(sink, answer.picture);
        });
    });
}

} // namespace

constexpr fettle_sheet kPressSheet =
    sheet({.revision = 1,
           .id = "fit.press",
           .title = "Press fit",
           .answers = "How hard does it grip, what pushes it home, and does anything yield?",
           .caution = kCaution,
           .smooth = true},
          kInputList, kOutputList, std::array<const fettle_table*, 0>{}, kSources, compute_press,
          kChartList);

} // namespace fettle::fit
