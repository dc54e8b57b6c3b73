// The sheet shim.backlash, described, and a compute that moves values between host and sheet.
#include "shim/backlash_sheet.h"
#include "shim/described.h"

namespace fettle::shim {
namespace {

using namespace plugin;

constexpr FactorInputs kFactor = factor_inputs("");

enum Input : std::size_t {
    kReading,
    kWanted,
    kVariation,
    kRingSide,
    kLeft,
    kRight,
    kRingDiameter,
    kVehicle,
    kFactorFirst
};

constexpr fettle_input kInputs[] = {
    input(FETTLE_LIST,
          {.id = "reading",
           .label = "Backlash, several places",
           .help = "Pinion held fast, the ring gear rocked by hand: what the dial gauge "
                   "shows, at four or more teeth evenly around, split by ;.",
           .quantity = "length",
           .unit = "in",
           .preset = "0.0115; 0.012; 0.013; 0.0125",
           .least = 0,
           .greatest = 0.005,
           .required = true}),
    input(FETTLE_LIST, {.id = "wanted",
                        .label = "Backlash wanted",
                        .help = "The maker's figure, or his lowest and highest split by ;.",
                        .quantity = "length",
                        .unit = "in",
                        .preset = "0.006; 0.009",
                        .least = 1e-6,
                        .greatest = 0.005,
                        .required = true}),
    input(FETTLE_NUMBER, {.id = "variation",
                          .label = "Variation permitted",
                          .help = "Between the tightest and the slackest place. Blank takes "
                                  "0.002 in, which most makers permit.",
                          .quantity = "length",
                          .unit = "in",
                          .preset = "0.002",
                          .least = 0,
                          .greatest = 0.002}),
    choice_input({.id = "ring_side",
                  .label = "Side of the ring gear",
                  .help = "Seen from behind the axle with the pinion to the front: the side whose "
                          "bearing stands behind the ring gear's plain back. More shim there "
                          "brings it toward the pinion.",
                  .preset = "left"},
                 kSides),
    input(FETTLE_NUMBER, {.id = "left",
                          .label = "Shim that is in, left",
                          .help = "The stack by micrometer. Blank where only the move is asked.",
                          .quantity = "length",
                          .unit = "in",
                          .preset = "0.0375",
                          .least = 0,
                          .greatest = 0.05}),
    input(FETTLE_NUMBER, {.id = "right",
                          .label = "Shim that is in, right",
                          .help = "The stack by micrometer. Blank where only the move is asked.",
                          .quantity = "length",
                          .unit = "in",
                          .preset = "0.042",
                          .least = 0,
                          .greatest = 0.05}),
    input(FETTLE_NUMBER, {.id = "ring_diameter",
                          .label = "Pitch diameter of the ring gear",
                          .help = "With its teeth counted, what is usual for such teeth is set "
                                  "beside what is wanted. Blank to leave that out.",
                          .quantity = "length",
                          .unit = "in",
                          .preset = "",
                          .least = 0.01,
                          .greatest = 2}),
    choice_input({.id = "vehicle",
                  .label = "Kind of vehicle",
                  .help = "What makers usually ask of such a vehicle is set beside what is wanted. "
                          "Blank to leave that out.",
                  .preset = "car or light lorry"},
                 kVehicles),
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

constexpr const char* kTransfer =
    "change / factor, from one side to the other: total shim stays (makers' service manuals)";

constexpr fettle_output kOutputs[] = {
    number_output({"backlash", "Backlash, mean", "length", "mm", "in", 3, "mean of the readings"}),
    number_output({"move", "Shim to move across", "length", "mm", "in", 3, kTransfer}),
    text_output({"from_side", "From the side", kTransfer}),
    text_output({"to_side", "To the side", kTransfer}),
    number_output({"runout", "Variation over the teeth", "length", "mm", "in", 2,
                   "greatest less least reading"}),
    number_output({"after", "Backlash then", "length", "mm", "in", 3, kMeshSource}),
    number_output({"factor", "Backlash a move of the ring gear", "number", "", "", 3, kMeshSource}),
    number_output(
        {"new_left", "Stack then, left", "length", "mm", "in", 4, kTransfer, "shim.stack.target"}),
    number_output({"new_right", "Stack then, right", "length", "mm", "in", 4, kTransfer,
                   "shim.stack.target"}),
    text_output({"verdict", "Verdict", "comparison with what is wanted"})};
constexpr auto kOutputList = pointers(kOutputs);

constexpr std::array<const char*, 3> kSources = {
    kMeshSource, "AGMA, usual backlash of bevel and hypoid gears by diametral pitch (in a reprint)",
    "Makers' service manuals: backlash 0.004 to 0.009 in, 0.008 to 0.018 in heavy, variation "
    "0.002 in"};

constexpr const char* kCaution =
    "A differential that is set wrongly whines, wears and can lock the axle on the road. Chock the "
    "vehicle and stand the axle on proper stands; keep fingers out of the gears. The maker's "
    "figures come first; read backlash again after every change, all round.";

std::int32_t compute_backlash(const fettle_value* const* values, std::uint32_t count,
                              const fettle_sink* sink) {
    return guarded(count, kInputList.size(), sink, [&] {
        const BacklashTyped typed{numbers(values[kReading]),
                                  numbers(values[kWanted]),
                                  number(values[kVariation]),
                                  text(values[kRingSide]),
                                  number(values[kLeft]),
                                  number(values[kRight]),
                                  number(values[kRingDiameter]),
                                  text(values[kVehicle]),
                                  factor_typed(values + kFactorFirst)};
        return answered(sink, work_backlash(typed), [&](const BacklashAnswer& answer) {
            give_output(sink, "backlash", answer.backlash);
            give_output(sink, "move", answer.move);
            give_output(sink, "from_side", answer.from_side);
            give_output(sink, "to_side", answer.to_side);
            give_output(sink, "runout", answer.runout);
            give_output(sink, "after", answer.after);
            give_output(sink, "factor", answer.factor);
            give_output(sink, "new_left", answer.left);
            give_output(sink, "new_right", answer.right);
            give_output(sink, "verdict", answer.verdict);
        });
    });
}

} // namespace

constexpr fettle_sheet kBacklashSheet = sheet(
    {.revision = 1,
     .id = "shim.backlash",
     .title = "Backlash by the carrier shims",
     .answers = "How much shim goes from which side to which for the backlash wanted?",
     .caution = kCaution,
     .smooth = true},
    kInputList, kOutputList, std::array<const fettle_table*, 0>{}, kSources, compute_backlash);

} // namespace fettle::shim
