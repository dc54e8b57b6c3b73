// The sheet shim.endfloat, described, and a compute that moves values between host and sheet.
#include "shim/described.h"
#include "shim/endfloat_sheet.h"

namespace fettle::shim {
namespace {

using namespace plugin;

enum Input : std::size_t { kWhere, kHow, kFloat, kShim, kActs, kFork, kEye, kThrust, kWanted };

constexpr const char* kByGauge = "how=by gauge, shim in";
constexpr const char* kByParts = "how=from the parts measured";

constexpr fettle_input kInputs[] = {
    choice_input({.id = "where",
                  .label = "End float of",
                  .help = "King pin: the stub axle up and down on the axle eye. Wheel bearing: the "
                          "hub in and out on the stub axle.",
                  .preset = "king pin"},
                 kFloats),
    choice_input({.id = "how",
                  .label = "Found how",
                  .help = "By dial gauge or feeler with a shim in, or from the parts by micrometer "
                          "before assembly.",
                  .preset = "by gauge, shim in"},
                 kFloatHow),
    input(FETTLE_LIST, {.id = "end_float",
                        .label = "Float read",
                        .help = "Pushed and pulled firmly, at several places of the turn or lock, "
                                "split by ;. The least counts.",
                        .quantity = "length",
                        .unit = "in",
                        .preset = "0.014; 0.015",
                        .least = 0,
                        .greatest = 0.01,
                        .when = kByGauge}),
    input(FETTLE_NUMBER, {.id = "shim",
                          .label = "Shim that is in",
                          .help = "The stack by micrometer; 0 where none is in.",
                          .quantity = "length",
                          .unit = "in",
                          .preset = "0.012",
                          .least = 0,
                          .greatest = 0.05,
                          .when = kByGauge}),
    choice_input({.id = "acts",
                  .label = "A thicker shim",
                  .help = "In the gap itself it takes up float; between the inner races of two "
                          "bearings it gives float.",
                  .preset = "takes up float",
                  .when = kByGauge},
                 kShimActs),
    input(FETTLE_NUMBER, {.id = "fork",
                          .label = "Opening of the stub axle's fork",
                          .help = "Between the faces above and below the axle eye.",
                          .quantity = "length",
                          .unit = "in",
                          .preset = "3.010",
                          .least = 0.001,
                          .greatest = 1,
                          .when = kByParts}),
    input(FETTLE_NUMBER, {.id = "eye",
                          .label = "Height of the axle eye",
                          .help = "Over its faces, where the thrust bearing and the shim sit.",
                          .quantity = "length",
                          .unit = "in",
                          .preset = "2.500",
                          .least = 0.001,
                          .greatest = 1,
                          .when = kByParts}),
    input(FETTLE_NUMBER, {.id = "thrust",
                          .label = "Thickness of the thrust bearing",
                          .help = "Pressed together, clean. Blank where there is none.",
                          .quantity = "length",
                          .unit = "in",
                          .preset = "0.484",
                          .least = 0,
                          .greatest = 1,
                          .when = kByParts}),
    input(FETTLE_LIST, {.id = "wanted",
                        .label = "Float wanted",
                        .help = "The maker's figure, or his lowest and highest split by ;.",
                        .quantity = "length",
                        .unit = "in",
                        .preset = "0.002; 0.008",
                        .least = 0,
                        .greatest = 0.01,
                        .required = true})};
constexpr auto kInputList = pointers(kInputs);

constexpr const char* kRoom = "what is left of the room is float";

constexpr fettle_output kOutputs[] = {
    number_output({"end_float", "Float found", "length", "mm", "in", 3, kRoom}),
    number_output(
        {"new_shim", "Shim to build", "length", "mm", "in", 4, kRoom, "shim.stack.target"}),
    number_output({"change", "Change of the shim", "length", "mm", "in", 3, kRoom}),
    text_output({"verdict", "Verdict", kRoom})};
constexpr auto kOutputList = pointers(kOutputs);

constexpr std::array<const char*, 2> kSources = {
    "Wheel bearings 0.001 to 0.005 in: Technology & Maintenance Council, RP 618 (from memory)",
    "King pins 0.002 to 0.010 in: common practice, no source"};

constexpr const char* kCaution =
    "Wheel bearings and king pins keep the wheel on and the steering true. Stand the axle on "
    "proper "
    "stands; a new split pin, locked as the maker asks; the maker's figures, the law and licensed "
    "practice come first. Feel again for binding over the whole lock or turn.";

std::int32_t compute_endfloat(const fettle_value* const* values, std::uint32_t count,
                              const fettle_sink* sink) {
    return guarded(count, kInputList.size(), sink, [&] {
        const EndfloatTyped typed{
            text(values[kWhere]),  text(values[kHow]),      numbers(values[kFloat]),
            number(values[kShim]), text(values[kActs]),     number(values[kFork]),
            number(values[kEye]),  number(values[kThrust]), numbers(values[kWanted])};
        return answered(sink, work_endfloat(typed), [&](const EndfloatAnswer& answer) {
            give_output(sink, "end_float", answer.end_float);
            give_output(sink, "new_shim", answer.shim);
            give_output(sink, "change", answer.change);
            give_output(sink, "verdict", answer.verdict);
        });
    });
}

} // namespace

constexpr fettle_sheet kEndfloatSheet = sheet(
    {.revision = 1,
     .id = "shim.endfloat",
     .title = "End float of king pin or wheel bearing",
     .answers = "How thick a shim leaves the float wanted?",
     .caution = kCaution,
     .smooth = true},
    kInputList, kOutputList, std::array<const fettle_table*, 0>{}, kSources, compute_endfloat);

} // namespace fettle::shim
