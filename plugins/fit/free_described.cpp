// fit.free as the contract describes it, and a compute that moves values between host and sheet.
#include "fit/described.h"
#include "fit/free_sheet.h"

namespace fettle::fit {
namespace {

using namespace fettle::plugin;

constexpr auto kTemperNames = named(kTempers);
constexpr auto kCoatingNames = named(kCoatings);
constexpr auto kNearbyNames = named(kNearby);

enum Input : std::size_t {
    kJob,
    kDiameter,
    kInterference,
    kRoom,
    kHeating,
    kLag,
    kOuterMaterial,
    kOuterExpansion,
    kOuterTemper,
    kInnerMaterial,
    kInnerExpansion,
    kInnerTemper,
    kTemperedAt,
    kCoating,
    kNear
};

constexpr fettle_input temper_input(const char* id, const char* label) {
    return choice_input({.id = id,
                         .label = label,
                         .help = "A file skates over a hard part and bites a soft one. When in "
                                 "doubt take hardened, temper unknown.",
                         .preset = "soft"},
                        kTemperNames);
}

constexpr fettle_input kInputs[] = {
    choice_input({.id = "job",
                  .label = "What is to be done",
                  .help = "Sets the order of work.",
                  .preset = "free a seized pin or bush"},
                 kJobs),
    diameter_input("1.125"),
    input(FETTLE_NUMBER, {.id = "interference",
                          .label = "Opening needed",
                          .help = "The interference, and what must come on top to break rust. "
                                  "Blank takes half a thousandth of the diameter.",
                          .quantity = "length",
                          .unit = "thou",
                          .preset = "1.5",
                          .least = 1e-7,
                          .greatest = 0.02}),
    room_input(),
    choice_input({.id = "heating",
                  .label = "Heated is",
                  .help = "A quick flame on the outer part leaves the inner one cooler; in an oven "
                          "both grow, and only unequal materials open.",
                  .preset = "outer part, quickly"},
                 kHeatings),
    input(FETTLE_NUMBER, {.id = "lag",
                          .label = "Rise of the inner part",
                          .help = "Its share of the outer part's rise under a quick flame: small "
                                  "for a heavy pin. Blank takes 30 %, a guess.",
                          .quantity = "ratio",
                          .unit = "%",
                          .preset = "30 %",
                          .least = 0,
                          .greatest = 1,
                          .when = "heating=outer part, quickly"}),
    material_input("outer_material", "Material, outer part", "steel"),
    expansion_input("outer_expansion", "Expansion, outer part"),
    temper_input("outer_temper", "The outer part is"),
    material_input("inner_material", "Material, inner part", "bronze"),
    expansion_input("inner_expansion", "Expansion, inner part"),
    temper_input("inner_temper", "The inner part is"),
    input(FETTLE_NUMBER, {.id = "tempered_at",
                          .label = "Tempered at",
                          .help = "Needed where the temper is known: 30 K below it the part keeps "
                                  "its hardness.",
                          .quantity = "temperature",
                          .unit = "°C",
                          .preset = "",
                          .least = 373.15,
                          .greatest = 973.15}),
    choice_input({.id = "coating",
                  .label = "On the surface",
                  .help = "What covers the parts a hand's breadth around the heat; fumes of "
                          "plating and paint have killed.",
                  .preset = "bare or rusty"},
                 kCoatingNames),
    choice_input({.id = "nearby",
                  .label = "Near the flame",
                  .help = "The worst of what a flame or the heat can reach.",
                  .preset = "nothing that burns"},
                 kNearbyNames)};
constexpr auto kInputList = pointers(kInputs);

constexpr const char* kGrowth = "linear expansion of both parts";

constexpr fettle_output kOutputs[] = {
    text_output({"verdict", "Verdict", "comparison with what both parts bear"}),
    number_output({"temperature", "Heat to", "temperature", "°C", "°F", 2, kGrowth}),
    number_output({"rise", "Rise", "temperature_difference", "K", "°F", 2, kGrowth}),
    number_output({"heat_limit", "No hotter than", "temperature", "°C", "°F", 2,
                   "heat treatment handbooks, from memory, or temper as typed"}),
    number_output({"opening_at_limit", "Opens by then", "length", "µm", "thou", 2, kGrowth}),
    text_output({"colour", "Bright steel shows", "table of tempering colours, Butt"})};
constexpr auto kOutputList = pointers(kOutputs);

constexpr fettle_axis kTemperature = axis("Outer part at", "temperature", "°C", "°F");
constexpr fettle_axis kOpening = axis("Fit opens by", "length", "µm", "thou");
constexpr fettle_chart kCharts[] = {
    chart("opening", "Opening over temperature", kTemperature, kOpening)};
constexpr auto kChartList = pointers(kCharts);

constexpr std::array<const char*, 4> kSources = {
    "Linear expansion; coefficients read in makers' and handbook tables, which differ by up to 10 "
    "%",
    "Tempering colours: I. R. Butt, The Tinman's Manual and Builder's and Mechanic's Handbook",
    "Limits of heat and order of work: common practice and handbooks, from memory",
    "Fumes of zinc, cadmium, chromate and lead: common knowledge of occupational health"};

MaterialTyped material(const fettle_value* name, const fettle_value* expansion) {
    MaterialTyped typed;
    typed.name = text(name);
    typed.expansion = number(expansion);
    return typed;
}

std::int32_t compute_free(const fettle_value* const* values, std::uint32_t count,
                          const fettle_sink* sink) {
    return guarded(count, kInputList.size(), sink, [&] {
        const FreeTyped typed{text(values[kJob]),
                              number(values[kDiameter]),
                              number(values[kInterference]),
                              number(values[kRoom]),
                              text(values[kHeating]),
                              number(values[kLag]),
                              material(values[kOuterMaterial], values[kOuterExpansion]),
                              material(values[kInnerMaterial], values[kInnerExpansion]),
                              text(values[kOuterTemper]),
                              text(values[kInnerTemper]),
                              number(values[kTemperedAt]),
                              text(values[kCoating]),
                              text(values[kNear])};
        return answered(sink, work_free(typed), [&](const FreeAnswer& answer) {
            give_output(sink, "verdict", answer.verdict);
            give_output(sink, "temperature", answer.temperature);
            give_output(sink, "rise", answer.rise);
            give_output(sink, "heat_limit", answer.heat_limit);
            give_output(sink, "opening_at_limit", answer.opening_at_limit);
            give_output(sink, "colour", answer.colour);
            give_picture(sink, answer.picture);
        });
    });
}

} // namespace

constexpr fettle_sheet kFreeSheet =
    sheet({.revision = 1,
           .id = "fit.free",
           .title = "Heat to free or seat a part",
           .answers = "What heat frees or seats it, what does that do to the part, and is it safe?",
           .caution = kHeatCaution,
           .smooth = true},
          kInputList, kOutputList, std::array<const fettle_table*, 0>{}, kSources, compute_free,
          kChartList);

} // namespace fettle::fit
