// fit.wear as the contract describes it, and a compute that moves values between host and sheet.
#include "fit/described.h"
#include "fit/wear_sheet.h"

namespace fettle::fit {
namespace {

using namespace fettle::plugin;

constexpr auto kInstrumentNames = named(kInstruments);

enum Input : std::size_t {
    kReadings,
    kFeature,
    kNewLower,
    kNewUpper,
    kWearLimit,
    kOvalityLimit,
    kTaperLimit,
    kMating,
    kClearanceLeast,
    kClearanceMost,
    kInstrument,
    kUncertainty,
    kApart,
    kRepairBy,
    kRepairSize
};

constexpr fettle_column kReadingColumns[] = {
    column("station", "Station", "count", "", true, 3),
    column("reading", "Reading", "length", "in", true, 6),
    column("direction", "Direction", "angle", "°", false, 3)};
constexpr auto kReadingColumnList = pointers(kReadingColumns);

constexpr fettle_input size_input(const char* id, const char* label, const char* help,
                                  const char* preset, const char* when = "") {
    return input(FETTLE_NUMBER, {.id = id,
                                 .label = label,
                                 .help = help,
                                 .quantity = "length",
                                 .unit = "in",
                                 .preset = preset,
                                 .least = 1e-4,
                                 .greatest = 2,
                                 .when = when});
}

constexpr fettle_input small_input(const char* id, const char* label, const char* help,
                                   const char* preset, double least, const char* when = "") {
    return input(FETTLE_NUMBER, {.id = id,
                                 .label = label,
                                 .help = help,
                                 .quantity = "length",
                                 .unit = "thou",
                                 .preset = preset,
                                 .least = least,
                                 .greatest = 0.01,
                                 .when = when});
}

constexpr fettle_input kInputs[] = {
    table_input({.id = "readings",
                 .label = "Readings",
                 .help = "A row for each reading: number of the place along the part, the size, "
                         "and the direction (0 in line with the load, 90 across). Repeat a place "
                         "to show how well you measure.",
                 .preset = "1 0.9982 0; 1 0.9990 90; 2 0.9968 0; 2 0.9986 90; 3 0.9980 0; "
                           "3 0.9990 90",
                 .required = true},
                kReadingColumnList),
    choice_input({.id = "feature",
                  .label = "Measured is",
                  .help = "A shaft wears smaller, a bore larger.",
                  .preset = "pin or shaft"},
                 kFeatures),
    size_input("new_lower", "New, least size",
               "Lower limit when new, from the drawing or from fit.limits.", "0.9985"),
    size_input("new_upper", "New, greatest size", "Upper limit when new.", "0.9995"),
    size_input("wear_limit", "Wear limit",
               "The maker's size at which the part is worn out. Blank holds it against the new "
               "limits.",
               "0.9950"),
    small_input("ovality_limit", "Ovality permitted",
                "Greatest less least diameter at one station. Blank where the maker gives none.",
                "3", 0),
    small_input("taper_limit", "Taper permitted",
                "Greatest less least mean diameter along the part. Blank where none is given.", "3",
                0),
    input(FETTLE_LIST, {.id = "mating",
                        .label = "Mating part measures",
                        .help = "Its readings split by ;, the bore for a pin and the pin for a "
                                "bore. Blank leaves the clearance out.",
                        .quantity = "length",
                        .unit = "in",
                        .preset = "1.0005; 1.0012",
                        .least = 1e-4,
                        .greatest = 2}),
    small_input("clearance_least", "Least clearance",
                "What must remain for oil or grease; negative where a press is wanted. Blank "
                "where none is asked.",
                "0.5", -0.001),
    small_input("clearance_most", "Clearance when worn",
                "The most the maker permits. Blank where none is given.", "8", -0.001),
    choice_input({.id = "instrument",
                  .label = "Measured with",
                  .help = "Sets how sure a reading is; check it against a setting piece first.",
                  .preset = "micrometer, to 0.001 mm or 0.0001 in"},
                 kInstrumentNames),
    small_input("uncertainty", "Uncertainty (k = 2)",
                "From the certificate, or twice the scatter of many readings of one place.", "",
                1e-7, "instrument=as typed"),
    input(FETTLE_NUMBER, {.id = "apart",
                          .label = "Part and gauge differ by",
                          .help = "Degrees they may differ by. Blank takes 2 K, for parts that lay "
                                  "together overnight.",
                          .quantity = "temperature_difference",
                          .unit = "K",
                          .preset = "",
                          .least = 0,
                          .greatest = 50}),
    choice_input({.id = "repair",
                  .label = "Repair that is possible",
                  .help = "Whether the part can be machined to a size that a mating part is made "
                          "for, or built up, sleeved or bushed.",
                  .preset = "machine to a repair size"},
                 kRepairs),
    size_input("repair_size", "Repair size", "The size it would be machined to.", "0.9800",
               "repair=machine to a repair size")};
constexpr auto kInputList = pointers(kInputs);

constexpr const char* kReadingSource = "the readings typed";

constexpr fettle_output kOutputs[] = {
    text_output({"verdict", "Verdict", "ISO 14253-1, decision rule"}),
    text_output({"because", "Because", "ISO 14253-1, decision rule"}),
    number_output({"mean", "Mean", "length", "mm", "in", 6, kReadingSource}),
    number_output({"least", "Least", "length", "mm", "in", 6, kReadingSource}),
    number_output({"greatest", "Greatest", "length", "mm", "in", 6, kReadingSource}),
    number_output({"wear", "Wear, worst place", "length", "µm", "thou", 3,
                   "from the middle of the new limits"}),
    number_output({"ovality", "Ovality", "length", "µm", "thou", 3, kReadingSource}),
    number_output({"taper", "Taper", "length", "µm", "thou", 3, kReadingSource}),
    number_output(
        {"remaining", "Left to the wear limit", "length", "µm", "thou", 3, kReadingSource}),
    number_output({"clearance_min", "Least clearance", "length", "µm", "thou", 3,
                   "bore less shaft, tightest places"}),
    number_output({"clearance_max", "Greatest clearance", "length", "µm", "thou", 3,
                   "bore less shaft, slackest places"}),
    number_output({"uncertainty", "Uncertainty (k = 2)", "length", "µm", "thou", 2,
                   "JCGM 100; ISO 3611 and ISO 13385-1, from memory"})};
constexpr auto kOutputList = pointers(kOutputs);

constexpr fettle_axis kStation = axis("Station", "count", "", "");
constexpr fettle_axis kSize = axis("Size", "length", "mm", "in");
constexpr fettle_chart kCharts[] = {chart("readings", "Readings by place", kStation, kSize)};
constexpr auto kChartList = pointers(kCharts);

constexpr std::array<const char*, 3> kSources = {
    "ISO 14253-1 (a limit is proven kept or broken only beyond the uncertainty)",
    "JCGM 100, Guide to the expression of uncertainty in measurement",
    "ISO 3611 and ISO 13385-1 (limits of error, from memory); transfer gauges: common practice"};

constexpr const char* kCaution =
    "Size alone does not make a part sound: look for cracks, pitting, bending and overheating. "
    "Parts of brakes, steering and suspension are judged by the maker's limits, local codes and "
    "licensed practice first.";

std::vector<Reading> readings_of(const fettle_value* value) {
    std::vector<Reading> all;
    if (value->given == 0 || value->numbers == nullptr || value->columns != 3) return all;
    for (std::uint32_t row = 0; row < value->rows; ++row) {
        const double* cell = value->numbers + std::size_t{3} * row;
        if (!std::isfinite(cell[0]) || !std::isfinite(cell[1])) continue;
        all.push_back({std::clamp(cell[0], -1e6, 1e6), cell[1],
                       std::isfinite(cell[2]) ? std::optional(cell[2]) : std::nullopt});
    }
    return all;
}

void give_numbers(const fettle_sink* sink, const WearAnswer& answer) {
    give_output(sink, "mean", answer.found.mean);
    give_output(sink, "least", answer.found.least);
    give_output(sink, "greatest", answer.found.greatest);
    give_output(sink, "wear", answer.wear);
    give_output(sink, "ovality", answer.found.ovality);
    give_output(sink, "taper", answer.found.taper);
    give_output(sink, "remaining", answer.remaining);
    give_output(sink, "clearance_min", answer.clearance_min);
    give_output(sink, "clearance_max", answer.clearance_max);
    give_output(sink, "uncertainty", answer.uncertainty);
}

std::int32_t compute_wear(const fettle_value* const* values, std::uint32_t count,
                          const fettle_sink* sink) {
    return guarded(count, kInputList.size(), sink, [&] {
        const WearTyped typed{readings_of(values[kReadings]),  text(values[kFeature]),
                              number(values[kNewLower]),       number(values[kNewUpper]),
                              number(values[kWearLimit]),      number(values[kOvalityLimit]),
                              number(values[kTaperLimit]),     numbers(values[kMating]),
                              number(values[kClearanceLeast]), number(values[kClearanceMost]),
                              text(values[kInstrument]),       number(values[kUncertainty]),
                              number(values[kApart]),          text(values[kRepairBy]),
                              number(values[kRepairSize])};
        return answered(sink, work_wear(typed), [&](const WearAnswer& answer) {
            give_output(sink, "verdict", answer.verdict);
            give_output(sink, "because", answer.because);
            give_numbers(sink, answer);
            give_picture(sink, answer.picture);
        });
    });
}

} // namespace

constexpr fettle_sheet kWearSheet =
    sheet({.revision = 1,
           .id = "fit.wear",
           .title = "Wear from readings",
           .answers = "How worn is it, and is it fit to use again, to repair, or to replace?",
           .caution = kCaution,
           .smooth = true},
          kInputList, kOutputList, std::array<const fettle_table*, 0>{}, kSources, compute_wear,
          kChartList);

} // namespace fettle::fit
