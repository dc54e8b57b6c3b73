// The sheet shim.pinion, described, and a compute that moves values between host and sheet.
#include "shim/described.h"
#include "shim/pinion_sheet.h"

namespace fettle::shim {
namespace {

using namespace plugin;

enum Input : std::size_t {
    kHow,
    kHousing,
    kParts,
    kExisting,
    kDepthError,
    kOldMark,
    kNewMark,
    kMarkSense,
    kActs
};

constexpr const char* kByHousing = "how=from the housing measured";
constexpr const char* kByShim = "how=from the shim that was in";

constexpr fettle_input kInputs[] = {
    choice_input({.id = "how",
                  .label = "Found how",
                  .help = "From the bare housing and the parts by gauge, or from the shim that was "
                          "in before and what has changed since.",
                  .preset = "from the housing measured"},
                 kPinionHow),
    input(FETTLE_NUMBER, {.id = "housing",
                          .label = "Ring gear axis to the seat",
                          .help = "From the middle of the carrier bearings' bores to the face that "
                                  "the shim, or the bearing on it, sits on.",
                          .quantity = "length",
                          .unit = "mm",
                          .preset = "84.01",
                          .least = 0.005,
                          .greatest = 1,
                          .when = kByHousing}),
    input(FETTLE_LIST, {.id = "parts",
                        .label = "What stands in that room",
                        .help = "Split by ;: the maker's mounting distance from the axis to the "
                                "pinion's end, the head from there to the bearing's seat, the "
                                "bearing's width. Or the maker's figure for all of it.",
                        .quantity = "length",
                        .unit = "mm",
                        .preset = "83.50",
                        .least = 0,
                        .greatest = 1,
                        .when = kByHousing}),
    input(FETTLE_NUMBER, {.id = "existing",
                          .label = "Shim that was in",
                          .help = "By micrometer, cleaned and flat. Blank where none is known.",
                          .quantity = "length",
                          .unit = "mm",
                          .preset = "0.46",
                          .least = 0,
                          .greatest = 0.05}),
    input(FETTLE_NUMBER, {.id = "depth_error",
                          .label = "Too far from the ring gear by",
                          .help = "What the depth gauge shows against the maker's figure with that "
                                  "shim in: minus where the pinion stands too near. Blank for "
                                  "nothing known.",
                          .quantity = "length",
                          .unit = "mm",
                          .preset = "0",
                          .least = -0.005,
                          .greatest = 0.005,
                          .when = kByShim}),
    input(FETTLE_NUMBER,
          {.id = "old_mark",
           .label = "Mark on the old pinion",
           .help = "Etched on its end with plus or minus, in thousandths of an inch; "
                   "with mm where the maker means hundredths of a millimetre.",
           .quantity = "length",
           .unit = "thou",
           .preset = "0",
           .least = -0.001,
           .greatest = 0.001,
           .when = kByShim}),
    input(FETTLE_NUMBER,
          {.id = "new_mark",
           .label = "Mark on the pinion going in",
           .help = "Etched on its end with plus or minus, in thousandths of an inch; "
                   "with mm where the maker means hundredths of a millimetre.",
           .quantity = "length",
           .unit = "thou",
           .preset = "0",
           .least = -0.001,
           .greatest = 0.001}),
    choice_input({.id = "mark_means",
                  .label = "The maker's plus",
                  .help = "Makers differ: with most, plus n is taken off the shim and minus n is "
                          "added. Look it up for this axle.",
                  .preset = "plus comes off the shim"},
                 kMarkMeans),
    choice_input({.id = "acts",
                  .label = "A thicker shim brings it",
                  .help =
                      "Behind the bearing at the pinion's head it comes nearer the ring gear; "
                      "under the flange of a pinion housing bolted on from outside it goes away.",
                  .preset = "nearer the ring gear"},
                 kPinionActs)};
constexpr auto kInputList = pointers(kInputs);

constexpr const char* kDifference = "shim = a - b (maker's service manual, p. 248)";
constexpr const char* kMarks = "+n off, -n onto the shim (maker's manual, 1983); his own sense";

constexpr fettle_output kOutputs[] = {
    number_output({"shim", "Pinion shim to build", "length", "mm", "in", 4, kDifference,
                   "shim.stack.target"}),
    number_output({"change", "Change of the shim", "length", "mm", "in", 3, kMarks}),
    text_output({"verdict", "Verdict", kDifference})};
constexpr auto kOutputList = pointers(kOutputs);

constexpr std::array<const char*, 2> kSources = {kDifference, kMarks};

constexpr const char* kCaution =
    "Pinion depth is found by measuring and proven by the contact pattern, never by one alone. A "
    "bearing pressed off a pinion can burst: use a proper puller and wear glasses. The maker's "
    "figures and licensed practice come first.";

std::int32_t compute_pinion(const fettle_value* const* values, std::uint32_t count,
                            const fettle_sink* sink) {
    return guarded(count, kInputList.size(), sink, [&] {
        const PinionTyped typed{
            text(values[kHow]),        number(values[kHousing]),    numbers(values[kParts]),
            number(values[kExisting]), number(values[kDepthError]), number(values[kOldMark]),
            number(values[kNewMark]),  text(values[kMarkSense]),    text(values[kActs])};
        return answered(sink, work_pinion(typed), [&](const PinionAnswer& answer) {
            give_output(sink, "shim", answer.shim);
            give_output(sink, "change", answer.change);
            give_output(sink, "verdict", answer.verdict);
        });
    });
}

} // namespace

constexpr fettle_sheet kPinionSheet =
    sheet({.revision = 1,
           .id = "shim.pinion",
           .title = "Pinion depth shim",
           .answers = "How thick a shim puts the pinion at its depth?",
           .caution = kCaution,
           .smooth = true},
          kInputList, kOutputList, std::array<const fettle_table*, 0>{}, kSources, compute_pinion);

} // namespace fettle::shim
