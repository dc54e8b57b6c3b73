// A plugin of the second edition for the tests: readings of a rod at several tries, with everything
// that edition brought. Built a second time as of the first edition, with the sizes its structs
// had.
#include "describe.hpp"

#include <cmath>

namespace {

using namespace fettle::plugin;

constexpr std::array<const char*, 2> kWays = {"plain", "wide"};
constexpr std::array<const char*, 3> kSides = {"left", "middle", "right"};

constexpr fettle_column kTrial[] = {column("reading", "Reading", "length", "mm", true, 5),
                                    choice_column("side", "Side", false, kSides)};
constexpr auto kTrialList = pointers(kTrial);

enum Input : std::size_t { kWay, kWidth, kReading, kGauge, kSide, kAir, kWet, kEarlier };
constexpr fettle_input kInputs[] = {
    choice_input({.id = "way", .label = "Way", .help = "", .preset = "plain"}, kWays),
    input(FETTLE_NUMBER, {.id = "width",
                          .label = "Width",
                          .help = "",
                          .quantity = "length",
                          .unit = "mm",
                          .preset = "",
                          .least = 0.001,
                          .required = true,
                          .when = "way=wide"}),
    input(FETTLE_NUMBER, {.id = "reading",
                          .label = "Reading",
                          .help = "",
                          .quantity = "length",
                          .unit = "mm",
                          .preset = "10",
                          .least = 0.001,
                          .greatest = 0.1,
                          .required = true}),
    input(FETTLE_NUMBER, {.id = "gauge",
                          .label = "Gauge",
                          .help = "",
                          .quantity = "length",
                          .unit = "mm",
                          .preset = "0",
                          .continues = "same"}),
    choice_input({.id = "side", .label = "Side", .help = "", .preset = "middle"}, kSides),
    input(FETTLE_NUMBER, {.id = "air",
                          .label = "Air",
                          .help = "",
                          .quantity = "temperature",
                          .unit = "°C",
                          .preset = "20",
                          .day = "air_temperature"}),
    input(FETTLE_NUMBER, {.id = "wet",
                          .label = "Humidity",
                          .help = "",
                          .quantity = "ratio",
                          .unit = "%",
                          .preset = "50 %",
                          .day = "humidity"}),
    table_input({.id = "earlier", .label = "Earlier tries", .help = "", .continues = "trials"},
                kTrialList)};
constexpr auto kInputList = pointers(kInputs);

constexpr fettle_output kOutputs[] = {
    number_output({"product", "Reading by width", "area", "mm2", "in2", 6, "multiplication"}),
    number_output({"square", "Square of the reading", "area", "mm2", "in2", 6, "multiplication",
                   "series.try.gauge"}),
    text_output({"name", "Name", "", "series.try.side"})};
constexpr auto kOutputList = pointers(kOutputs);

constexpr fettle_table kTables[] = {
    {sizeof(fettle_table), "trials", "Tries", kTrialList.size(), kTrialList.data()}};
constexpr auto kTableList = pointers(kTables);

constexpr fettle_axis kTry = axis("Try", "count", "", "");
constexpr fettle_axis kLong = axis("Reading", "length", "mm", "in");
constexpr fettle_chart kCharts[] = {chart("tries", "Try by try", kTry, kLong),
                                    drawing("rod", "The rod", kLong, kLong)};
constexpr auto kChartList = pointers(kCharts);
constexpr std::array<const char*, 0> kSources = {};

#ifndef FIRST_EDITION
void give_charts(const fettle_sink* sink, const std::vector<fettle_point>& tries, double reading) {
    give_series(sink, "tries", "readings", FETTLE_DOTS, tries);
    give_series(sink, "tries", "wanted", FETTLE_DASHED,
                {{1, 0.010}, {static_cast<double>(tries.size()), 0.010}});
    give_series(sink, "rod", "", FETTLE_BODY,
                {{0, 0}, {reading, 0}, {reading, reading / 4}, {0, reading / 4}});
    give_label(sink, "rod", {reading, 0}, "read here");
}
#endif

std::int32_t compute(const fettle_value* const* values, std::uint32_t count,
                     const fettle_sink* sink) {
    return guarded(count, kInputList.size(), sink, [&] {
        const double reading = number(values[kReading]).value_or(0);
        const double width = number(values[kWidth]).value_or(1);
        sink->number(sink->context, "product", reading * width);
        sink->number(sink->context, "square", reading * reading);
        sink->text(sink->context, "name", text(values[kSide]).c_str());
        const fettle_value& earlier = *values[kEarlier];
        std::vector<fettle_point> tries;
        for (std::uint32_t row = 0; earlier.given != 0 && row < earlier.rows; ++row) {
            const double* cells = earlier.numbers + std::size_t{row} * earlier.columns;
            give_row(sink, "trials", {cells[0], cells[1]});
            tries.push_back({static_cast<double>(tries.size() + 1), cells[0]});
        }
        double side = 0;
        for (std::size_t i = 0; i < kSides.size(); ++i)
            if (text(values[kSide]) == kSides[i]) side = static_cast<double>(i);
        give_row(sink, "trials", {reading, side});
        tries.push_back({static_cast<double>(tries.size() + 1), reading});
#ifndef FIRST_EDITION
        give_charts(sink, tries, reading);
        if (std::fabs(reading - 0.010) < 1e-9)
            sink->note(sink->context, FETTLE_REACHED, "The rod is as long as was wanted.");
#endif
        return std::int32_t{FETTLE_DONE};
    });
}

#ifdef FIRST_EDITION
#define PLUGIN_ID "first"
#else
#define PLUGIN_ID "series"
#endif

fettle_sheet sheet_of_edition() {
    return sheet({.revision = 1,
                  .id = PLUGIN_ID ".try",
                  .title = "One try",
                  .answers = "How long is the rod?",
                  .caution = "",
                  .smooth = true},
                 kInputList, kOutputList, kTableList, kSources, compute, kChartList);
}

#ifdef FIRST_EDITION
// What a library built with the first edition's header looks like from here.
struct First {
    std::array<fettle_input, kInputList.size()> inputs;
    std::array<fettle_output, kOutputList.size()> outputs;
    std::array<const fettle_input*, kInputList.size()> input_list;
    std::array<const fettle_output*, kOutputList.size()> output_list;
    fettle_sheet whole = sheet_of_edition();

    First() {
        for (std::size_t i = 0; i < inputs.size(); ++i) {
            inputs[i] = kInputs[i];
            inputs[i].struct_size = offsetof(fettle_input, when);
            input_list[i] = &inputs[i];
        }
        for (std::size_t i = 0; i < outputs.size(); ++i) {
            outputs[i] = kOutputs[i];
            outputs[i].struct_size = offsetof(fettle_output, hands_to);
            output_list[i] = &outputs[i];
        }
        whole.inputs = input_list.data();
        whole.outputs = output_list.data();
        whole.struct_size = offsetof(fettle_sheet, smooth);
    }
};
const First kFirst;
const fettle_sheet& kSheet = kFirst.whole;
#else
const fettle_sheet kSheet = sheet_of_edition();
#endif

const fettle_sheet* const kSheetList[] = {&kSheet};
const fettle_plugin kPlugin = {
    sizeof(fettle_plugin), FETTLE_ABI_VERSION, PLUGIN_ID, "Tries", "1", 1, kSheetList};

} // namespace

const fettle_plugin* fettle_plugin_describe(std::uint32_t abi_version) {
    return abi_version == FETTLE_ABI_VERSION ? &kPlugin : nullptr;
}
