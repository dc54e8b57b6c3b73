// fit.shrink as the contract describes it, and a compute that moves values between host and sheet.
#include "fit/described.h"
#include "fit/heat.h"
#include "fit/shrink_sheet.h"

namespace fettle::fit {
namespace {

using namespace fettle::plugin;

enum Input : std::size_t {
    kDiameter,
    kInterference,
    kClearance,
    kRoom,
    kHubMaterial,
    kHubExpansion,
    kHeatLimit,
    kShaftMaterial,
    kShaftExpansion,
    kCooling,
    kShaftTemperature
};

constexpr fettle_input kInputs[] = {
    diameter_input("2.25"),
    input(FETTLE_NUMBER, {.id = "interference",
                          .label = "Interference",
                          .help = "Outside of the inner part less bore of the outer, on the "
                                  "diameter, at its greatest.",
                          .quantity = "length",
                          .unit = "thou",
                          .preset = "2.7",
                          .least = 0,
                          .greatest = 0.02,
                          .required = true}),
    input(FETTLE_NUMBER, {.id = "clearance",
                          .label = "Clearance to slip in",
                          .help = "Play wanted while the parts are put together. Blank takes a "
                                  "thousandth of the diameter (common practice).",
                          .quantity = "length",
                          .unit = "thou",
                          .preset = "",
                          .least = 0,
                          .greatest = 0.005}),
    room_input(),
    material_input("hub_material", "Material of the hub", "steel"),
    expansion_input("hub_expansion", "Expansion of the hub"),
    input(FETTLE_NUMBER, {.id = "heat_limit",
                          .label = "Heat the hub bears",
                          .help = "The temperature it was tempered at less 30 K, or the maker's "
                                  "figure. Blank takes the guide value of the material.",
                          .quantity = "temperature",
                          .unit = "°C",
                          .preset = "",
                          .least = 323.15,
                          .greatest = 1273.15}),
    material_input("shaft_material", "Material of the inner part", "steel"),
    expansion_input("shaft_expansion", "Expansion, inner part"),
    choice_input({.id = "cooling",
                  .label = "The inner part is",
                  .help = "A freezer gives -18 °C, dry ice -78 °C, liquid nitrogen -196 °C once "
                          "the part has stopped boiling.",
                  .preset = "not cooled"},
                 kCoolingNames),
    input(FETTLE_NUMBER, {.id = "shaft_temperature",
                          .label = "Inner part at",
                          .help = "As measured when it goes in.",
                          .quantity = "temperature",
                          .unit = "°C",
                          .preset = "",
                          .least = 73.15,
                          .greatest = 323.15,
                          .when = "cooling=as typed"})};
constexpr auto kInputList = pointers(kInputs);

constexpr const char* kGrowth = "linear expansion: d a dT";

constexpr fettle_output kOutputs[] = {
    number_output({"hub_temperature", "Heat the hub to", "temperature", "°C", "°F", 3, kGrowth}),
    number_output({"hub_rise", "Rise", "temperature_difference", "K", "°F", 3, kGrowth}),
    number_output({"shaft_temperature", "Inner part at", "temperature", "°C", "°F", 3,
                   "boiling points: tables of physics"}),
    number_output({"shaft_shrinks", "Inner part shrinks", "length", "µm", "thou", 3, kGrowth}),
    number_output(
        {"opening", "Opening needed", "length", "µm", "thou", 3, "interference and clearance"}),
    number_output({"gap", "Play as they meet", "length", "µm", "thou", 3, kGrowth}),
    number_output({"heat_limit", "The hub bears", "temperature", "°C", "°F", 3,
                   "heat treatment handbooks, from memory, or as typed"}),
    text_output({"method", "By", "common practice, no source"})};
constexpr auto kOutputList = pointers(kOutputs);

constexpr fettle_axis kTemperature = axis("Hub at", "temperature", "°C", "°F");
constexpr fettle_axis kSize = axis("Larger by", "length", "µm", "thou");
constexpr fettle_chart kCharts[] = {
    chart("sizes", "Bore and inner part against the inner part cold", kTemperature, kSize)};
constexpr auto kChartList = pointers(kCharts);

constexpr std::array<const char*, 3> kSources = {
    "Linear expansion; coefficients read in makers' and handbook tables, which differ by up to 10 "
    "%",
    "Shrinkage of a thousandth of the diameter: F. D. Jones, Turning and Boring, for locomotive "
    "tyres",
    "Limits of heat: heat treatment handbooks and bearing makers, from memory"};

std::int32_t compute_shrink(const fettle_value* const* values, std::uint32_t count,
                            const fettle_sink* sink) {
    return guarded(count, kInputList.size(), sink, [&] {
        const ShrinkTyped typed{number(values[kDiameter]),
                                number(values[kInterference]),
                                number(values[kClearance]),
                                number(values[kRoom]),
                                {.name = text(values[kHubMaterial]),
                                 .modulus = {},
                                 .poisson = {},
                                 .strength = {},
                                 .expansion = number(values[kHubExpansion])},
                                {.name = text(values[kShaftMaterial]),
                                 .modulus = {},
                                 .poisson = {},
                                 .strength = {},
                                 .expansion = number(values[kShaftExpansion])},
                                text(values[kCooling]),
                                number(values[kShaftTemperature]),
                                number(values[kHeatLimit])};
        return answered(sink, work_shrink(typed), [&](const ShrinkAnswer& answer) {
            give_output(sink, "hub_temperature", answer.hub_temperature);
            give_output(sink, "hub_rise", answer.hub_rise);
            give_output(sink, "shaft_temperature", answer.shaft_temperature);
            give_output(sink, "shaft_shrinks", answer.shaft_shrinks);
            give_output(sink, "opening", answer.opening);
            give_output(sink, "gap", answer.gap);
            give_output(sink, "heat_limit", answer.heat_limit);
            give_output(sink, "method", answer.method);
            give_picture(sink, answer.picture);
        });
    });
}

} // namespace

constexpr fettle_sheet kShrinkSheet =
    sheet({.revision = 1,
           .id = "fit.shrink",
           .title = "Shrink fit",
           .answers = "How hot must the hub be, or how cold the shaft, to slip together?",
           .caution = kHeatCaution,
           .smooth = true},
          kInputList, kOutputList, std::array<const fettle_table*, 0>{}, kSources, compute_shrink,
          kChartList);

} // namespace fettle::fit
