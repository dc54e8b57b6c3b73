// The sheet shim.carrier, described, and a compute that moves values between host and sheet.
#include "shim/carrier_sheet.h"
#include "shim/described.h"

namespace fettle::shim {
namespace {

using namespace plugin;

constexpr FactorInputs kFactor = factor_inputs("");

enum Input : std::size_t {
    kLeft,
    kRight,
    kEndFloat,
    kMeet,
    kTravel,
    kFarBacklash,
    kPreload,
    kWanted,
    kRingSide,
    kFactorFirst
};

constexpr fettle_input kInputs[] = {
    input(FETTLE_NUMBER, {.id = "left",
                          .label = "Shim in while measuring, left",
                          .help = "The stack by micrometer. Blank where none is in.",
                          .quantity = "length",
                          .unit = "in",
                          .preset = "0.030",
                          .least = 0,
                          .greatest = 0.05}),
    input(FETTLE_NUMBER, {.id = "right",
                          .label = "Shim in while measuring, right",
                          .help = "The stack by micrometer. Blank where none is in.",
                          .quantity = "length",
                          .unit = "in",
                          .preset = "0.030",
                          .least = 0,
                          .greatest = 0.05}),
    input(FETTLE_NUMBER,
          {.id = "end_float",
           .label = "Float of the carrier",
           .help = "Pinion out, bearing caps just nipped: how far the carrier slides "
                   "from one stop to the other, by dial gauge.",
           .quantity = "length",
           .unit = "in",
           .preset = "0.0155",
           .least = 0,
           .greatest = 0.02,
           .required = true}),
    choice_input({.id = "meet_by",
                  .label = "Meeting of the teeth by",
                  .help = "With the pinion in, push the carrier away from it to the stop; then "
                          "either slide it until the teeth meet, or read the backlash there.",
                  .preset = "travel until the teeth meet"},
                 kMeetBy),
    input(FETTLE_NUMBER,
          {.id = "travel",
           .label = "Travel until the teeth meet",
           .help = "From the stop on the ring gear's back until there is no backlash "
                   "left, the gears being rocked gently.",
           .quantity = "length",
           .unit = "in",
           .preset = "0.0140",
           .least = 0,
           .greatest = 0.02,
           .when = "meet_by=travel until the teeth meet"}),
    input(FETTLE_NUMBER,
          {.id = "far_backlash",
           .label = "Backlash at the far stop",
           .help = "Carrier held against the stop on the ring gear's back: mean over "
                   "four or more teeth.",
           .quantity = "length",
           .unit = "in",
           .preset = "0.0098",
           .least = 0,
           .greatest = 0.02,
           .when = "meet_by=backlash at the far stop"}),
    input(FETTLE_NUMBER,
          {.id = "preload",
           .label = "Preload, both sides together",
           .help = "Shim beyond no float, as the maker states it: 0.004 in each side "
                   "is 0.008 in together. Blank for none.",
           .quantity = "length",
           .unit = "in",
           .preset = "0.008",
           .least = 0,
           .greatest = 0.002}),
    input(FETTLE_LIST, {.id = "wanted",
                        .label = "Backlash wanted",
                        .help = "The maker's figure, or his lowest and highest split by ;.",
                        .quantity = "length",
                        .unit = "in",
                        .preset = "0.006; 0.009",
                        .least = 1e-6,
                        .greatest = 0.005,
                        .required = true}),
    choice_input({.id = "ring_side",
                  .label = "Side of the ring gear",
                  .help = "Seen from behind the axle with the pinion to the front: the side whose "
                          "bearing stands behind the ring gear's plain back.",
                  .preset = "left"},
                 kSides),
    kFactor.read_how,
    kFactor.pressure,
    kFactor.pitch,
    kFactor.ring_teeth,
    kFactor.pinion_teeth,
    kFactor.spiral,
    kFactor.read_radius,
    kFactor.pitch_radius,
    kFactor.maker_figure,
    kFactor.maker_says};
constexpr auto kInputList = pointers(kInputs);

constexpr const char* kShares = "float and preload shared out so that the teeth stand off rightly";

constexpr fettle_output kOutputs[] = {
    number_output({"new_left", "Stack to build, left", "length", "mm", "in", 4, kShares,
                   "shim.stack.target"}),
    number_output({"new_right", "Stack to build, right", "length", "mm", "in", 4, kShares,
                   "shim.stack.target"}),
    number_output({"total", "Both together", "length", "mm", "in", 4,
                   "in while measuring + float + preload"}),
    number_output({"backlash", "Backlash to be expected", "length", "mm", "in", 2, kMeshSource}),
    text_output({"verdict", "Verdict", kShares})};
constexpr auto kOutputList = pointers(kOutputs);

constexpr std::array<const char*, 2> kSources = {
    kMeshSource, "Makers' service manuals: preload as shim beyond no float, equally on both sides"};

constexpr const char* kCaution =
    "Carrier bearings without preload let the gears climb apart; with too much they seize. Mind "
    "the "
    "fingers when the carrier goes in, it is heavy and tight. Check the turning torque after "
    "fitting; the maker's figures and licensed practice come first.";

std::int32_t compute_carrier(const fettle_value* const* values, std::uint32_t count,
                             const fettle_sink* sink) {
    return guarded(count, kInputList.size(), sink, [&] {
        const CarrierTyped typed{number(values[kLeft]),     number(values[kRight]),
                                 number(values[kEndFloat]), text(values[kMeet]),
                                 number(values[kTravel]),   number(values[kFarBacklash]),
                                 number(values[kPreload]),  numbers(values[kWanted]),
                                 text(values[kRingSide]),   factor_typed(values + kFactorFirst)};
        return answered(sink, work_carrier(typed), [&](const CarrierAnswer& answer) {
            give_output(sink, "new_left", answer.left);
            give_output(sink, "new_right", answer.right);
            give_output(sink, "total", answer.total);
            give_output(sink, "backlash", answer.backlash);
            give_output(sink, "verdict", answer.verdict);
        });
    });
}

} // namespace

constexpr fettle_sheet kCarrierSheet =
    sheet({.revision = 1,
           .id = "shim.carrier",
           .title = "Carrier shims from float and preload",
           .answers = "How thick are the stacks left and right of the carrier?",
           .caution = kCaution,
           .smooth = true},
          kInputList, kOutputList, std::array<const fettle_table*, 0>{}, kSources, compute_carrier);

} // namespace fettle::shim
