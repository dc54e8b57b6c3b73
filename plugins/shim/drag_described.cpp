// The sheet shim.drag, described, and a compute that moves values between host and sheet.
#include "shim/described.h"
#include "shim/drag_sheet.h"

namespace fettle::shim {
namespace {

using namespace plugin;

enum Input : std::size_t { kPull, kDiameter, kCord, kWhat, kAge, kWanted };

constexpr fettle_input kInputs[] = {
    input(FETTLE_LIST,
          {.id = "pull",
           .label = "Pull on the cord",
           .help = "Wind a cord round the flange, hook a spring balance to it and pull "
                   "evenly, square to the shaft: what it shows while turning, not at "
                   "the start. Several, split by ;. Seal out, bearings oiled.",
           .quantity = "force",
           .unit = "lbf",
           .preset = "9.5; 10; 9.5",
           .least = 0,
           .greatest = 2000,
           .required = true}),
    input(FETTLE_NUMBER, {.id = "diameter",
                          .label = "Diameter the cord is wound on",
                          .help = "Of the flange or drum, by calliper.",
                          .quantity = "length",
                          .unit = "in",
                          .preset = "4.25",
                          .least = 0.005,
                          .greatest = 1,
                          .required = true}),
    input(FETTLE_NUMBER, {.id = "cord",
                          .label = "Thickness of the cord",
                          .help = "The pull acts at the middle of the cord. Blank for thin twine.",
                          .quantity = "length",
                          .unit = "in",
                          .preset = "0.08",
                          .least = 0,
                          .greatest = 0.02}),
    choice_input({.id = "turned",
                  .label = "What turns",
                  .help = "The pinion before the carrier goes in, or both together.",
                  .preset = "pinion alone"},
                 kTurned),
    choice_input({.id = "bearings",
                  .label = "Bearings",
                  .help = "Bearings that have run count as used, also when they were just cleaned.",
                  .preset = "new"},
                 kBearings),
    input(FETTLE_LIST, {.id = "wanted",
                        .label = "Maker's lowest and highest",
                        .help = "Turning torque, the two split by ;. Blank compares with what is "
                                "usual.",
                        .quantity = "torque",
                        .unit = "lbf.in",
                        .preset = "",
                        .least = 1e-4,
                        .greatest = 100})};
constexpr auto kInputList = pointers(kInputs);

constexpr const char* kArm = "torque = pull × arm";

constexpr fettle_output kOutputs[] = {
    number_output({"torque", "Turning torque", "torque", "N.m", "lbf.in", 3, kArm}),
    number_output({"pull_low", "Least pull", "force", "N", "lbf", 2, kArm}),
    number_output({"pull_high", "Greatest pull", "force", "N", "lbf", 2, kArm}),
    text_output({"verdict", "Verdict", "the maker's range, else makers' service manuals"})};
constexpr auto kOutputList = pointers(kOutputs);

constexpr std::array<const char*, 3> kSources = {
    kArm, "Makers' service manuals: pinion bearings new 15 to 35 lbf·in, used 8 to 15 lbf·in",
    "Maker's service manual, 1982: pinion and carrier new 35 to 40 lbf·in, used 20 to 25 lbf·in"};

constexpr const char* kCaution =
    "Preload that is wrong either way breaks an axle on the road. Keep hands out of the gears "
    "while "
    "they turn. The maker's range comes first: it depends on bearing, oil and seal.";

std::int32_t compute_drag(const fettle_value* const* values, std::uint32_t count,
                          const fettle_sink* sink) {
    return guarded(count, kInputList.size(), sink, [&] {
        const DragTyped typed{numbers(values[kPull]), number(values[kDiameter]),
                              number(values[kCord]),  text(values[kWhat]),
                              text(values[kAge]),     numbers(values[kWanted])};
        return answered(sink, work_drag(typed), [&](const DragAnswer& answer) {
            give_output(sink, "torque", answer.torque);
            give_output(sink, "pull_low", answer.pull_low);
            give_output(sink, "pull_high", answer.pull_high);
            give_output(sink, "verdict", answer.verdict);
        });
    });
}

} // namespace

constexpr fettle_sheet kDragSheet =
    sheet({.revision = 1,
           .id = "shim.drag",
           .title = "Bearing preload by pull on a cord",
           .answers = "How hard does it turn, and is that right?",
           .caution = kCaution,
           .smooth = true},
          kInputList, kOutputList, std::array<const fettle_table*, 0>{}, kSources, compute_drag);

} // namespace fettle::shim
