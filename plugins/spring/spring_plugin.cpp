// The plugin "spring": its description, and a compute that moves values between host and sheet.
#include "describe.hpp"
#include "spring/pack_sheet.h"

namespace {

using namespace fettle::plugin;
using fettle::spring::Leaf;
using fettle::spring::LeafUnderLoad;
using fettle::spring::PackAnswer;
using fettle::spring::PackTyped;

constexpr double kGPa = 1e9;
constexpr double kDefaultModulus = 207 * kGPa; // spring steel: Bhandari ch. 10

constexpr fettle_column kLeafTyped[] = {column("length", "Length", "length", "in", true, 4),
                                        column("thickness", "Thickness", "length", "in", true, 3),
                                        column("radius", "Free radius", "length", "in", false, 3)};
constexpr auto kLeafTypedList = pointers(kLeafTyped);

enum Input : std::size_t { kLeaves, kWidth, kClamp, kLoad, kFreeArch, kModulus, kFriction, kLimit };

constexpr fettle_input kInputs[] = {
    table_input({.id = "leaves",
                 .label = "Leaves, longest first",
                 .help = "One row a leaf: length along the leaf (of the master from eye centre to "
                         "eye centre), thickness with rust and scale off, and the free radius if "
                         "you have it.",
                 .preset = "38 0.3125; 38 0.3125; 33 0.3125; 28 0.3125; 23 0.3125; 18 0.3125; "
                           "13 0.3125",
                 .required = true},
                kLeafTypedList),
    input(FETTLE_NUMBER, {.id = "width",
                          .label = "Width of the leaves",
                          .help = "Across the leaf, by calliper.",
                          .quantity = "length",
                          .unit = "in",
                          .preset = "2",
                          .least = 0.001,
                          .greatest = 0.5,
                          .required = true}),
    input(FETTLE_NUMBER,
          {.id = "clamp",
           .label = "Length held by the clamp",
           .help = "What cannot bend at the axle: band width, or U-bolt spacing over "
                   "the outsides. It is taken off whole; some books take two thirds "
                   "of it, then type two thirds.",
           .quantity = "length",
           .unit = "in",
           .preset = "0",
           .least = 0,
           .greatest = 2}),
    input(FETTLE_NUMBER, {.id = "load",
                          .label = "Load on this spring",
                          .help = "What the middle of the spring carries: the weight on the wheel "
                                  "less wheel, brake and half the axle.",
                          .quantity = "force",
                          .unit = "lbf",
                          .preset = "900",
                          .least = 1,
                          .greatest = 1e6,
                          .required = true}),
    input(FETTLE_NUMBER, {.id = "free_arch",
                          .label = "Free arch",
                          .help = "With no load: from a line between the eye centres to the top of "
                                  "the master leaf at the middle.",
                          .quantity = "length",
                          .unit = "in",
                          .preset = "4.5",
                          .least = -1,
                          .greatest = 2}),
    input(FETTLE_NUMBER, {.id = "modulus",
                          .label = "Modulus of elasticity",
                          .help = "Of the steel; 200 to 210 GPa for any spring steel. Blank takes "
                                  "207 GPa.",
                          .quantity = "pressure",
                          .unit = "GPa",
                          .preset = "207",
                          .least = 10 * kGPa,
                          .greatest = 500 * kGPa}),
    input(FETTLE_NUMBER, {.id = "friction",
                          .label = "Friction, as a share of the load",
                          .help = "How much more it takes to press the spring down than it gives "
                                  "back, halved, over the load: 0.05 or 5 %. Blank or 0 for none.",
                          .quantity = "ratio",
                          .unit = "1",
                          .preset = "0",
                          .least = 0,
                          .greatest = 1}),
    input(FETTLE_NUMBER, {.id = "limit",
                          .label = "Limit for the stress",
                          .help = "The allowable stress, or the yield the spring maker states for "
                                  "the steel. A greater stress is marked: do not use.",
                          .quantity = "pressure",
                          .unit = "MPa",
                          .preset = "",
                          .least = 1e6,
                          .greatest = 3e9})};
constexpr auto kInputList = pointers(kInputs);

constexpr const char* kBeam = "bending of a stepped cantilever with common curvature of the leaves";
constexpr const char* kBook = "12FL³/(E b t³(3nf+2ng)): Khurmi & Gupta, Machine Design, ch. 23";

constexpr fettle_output kOutputs[] = {
    number_output({"rate", "Spring rate", "spring_rate", "N/mm", "lbf/in", 3, kBeam}),
    number_output(
        {"rate_textbook", "Spring rate, textbook", "spring_rate", "N/mm", "lbf/in", 3, kBook}),
    number_output({"deflection", "Deflection under the load", "length", "mm", "in", 3, kBeam}),
    number_output({"loaded_arch", "Arch under the load", "length", "mm", "in", 3,
                   "free arch less deflection"}),
    number_output({"stress_max", "Greatest stress", "pressure", "MPa", "psi", 3,
                   "greater of stepped beam and 18FL/(b t²(3nf+2ng)), Khurmi & Gupta, ch. 23"}),
    number_output({"frequency", "Bounce of this load on this spring", "frequency", "Hz", "", 3,
                   "natural frequency of a mass on a spring"})};
constexpr auto kOutputList = pointers(kOutputs);

constexpr fettle_column kLeafShown[] = {
    column("number", "Leaf", "count", "", false, 2),
    column("length", "Length", "length", "in", false, 4),
    column("thickness", "Thickness", "length", "in", false, 3),
    column("share", "Share of moment at the clamp", "ratio", "%", false, 3),
    column("stress", "Stress, beam", "pressure", "MPa", false, 3),
    column("stress_textbook", "Stress, textbook", "pressure", "MPa", false, 3)};
constexpr auto kLeafShownList = pointers(kLeafShown);
constexpr fettle_table kTables[] = {
    {sizeof(fettle_table), "leaves", "Leaf by leaf", kLeafShownList.size(), kLeafShownList.data()}};
constexpr auto kTableList = pointers(kTables);

constexpr std::array<const char*, 3> kSources = {
    "R. S. Khurmi & J. K. Gupta, A Textbook of Machine Design, ch. 23 (laminated springs)",
    "V. B. Bhandari, Design of Machine Elements, ch. 10 (multi-leaf springs)",
    "Beam theory: 1/R = M/(E I) over the stepped half spring"};

constexpr const char* kCaution =
    "A leaf spring under load holds enough to kill. Take the load off before any U-bolt, centre "
    "bolt or shackle is undone, clamp the pack before its centre bolt comes out, use a compressor "
    "rated for it, and stand clear of the line of travel. Springs are part of the vehicle's "
    "safety: "
    "the maker's figures, local codes and a licensed spring maker or engineer come first.";

PackTyped typed_from(const fettle_value* const* values) {
    PackTyped typed{};
    const fettle_value* leaves = values[kLeaves];
    const std::uint32_t columns = leaves->columns;
    for (std::uint32_t row = 0; leaves->given != 0 && columns >= 2 && row < leaves->rows; ++row) {
        const double* cells = leaves->numbers + static_cast<std::size_t>(row) * columns;
        Leaf leaf{cells[0], cells[1], std::nullopt};
        if (columns > 2 && !std::isnan(cells[2])) leaf.radius = cells[2];
        typed.pack.leaves.push_back(leaf);
    }
    typed.pack.width = number(values[kWidth]).value_or(0);
    typed.pack.clamp = number(values[kClamp]).value_or(0);
    typed.pack.modulus = number(values[kModulus]).value_or(kDefaultModulus);
    typed.load = number(values[kLoad]).value_or(0);
    typed.friction = number(values[kFriction]).value_or(0);
    typed.free_arch = number(values[kFreeArch]);
    typed.limit = number(values[kLimit]);
    return typed;
}

void give(const fettle_sink* sink, const PackTyped& typed, const PackAnswer& answer) {
    const auto number_out = [sink](const char* id, double si) {
        sink->number(sink->context, id, si);
    };
    number_out("rate", answer.under.rate);
    number_out("rate_textbook", answer.under.rate_book);
    number_out("deflection", answer.deflection);
    if (answer.loaded_arch) number_out("loaded_arch", *answer.loaded_arch);
    number_out("stress_max", answer.stress_max);
    number_out("frequency", answer.frequency);
    for (std::size_t i = 0; i < answer.under.leaves.size(); ++i) {
        const Leaf& leaf = typed.pack.leaves[i];
        const LeafUnderLoad& each = answer.under.leaves[i];
        give_row(sink, "leaves",
                 {static_cast<double>(i + 1), leaf.length, leaf.thickness, each.share,
                  each.stress_beam, each.stress_book});
    }
    give_account(sink, answer.account);
}

std::int32_t compute_pack(const fettle_value* const* values, std::uint32_t count,
                          const fettle_sink* sink) {
    return guarded(count, kInputList.size(), sink, [&] {
        const PackTyped typed = typed_from(values);
        const auto outcome = fettle::spring::work_pack(typed);
        if (const auto* refusal = std::get_if<Refusal>(&outcome)) return refuse(sink, *refusal);
        give(sink, typed, std::get<PackAnswer>(outcome));
        return std::int32_t{FETTLE_DONE};
    });
}

constexpr fettle_sheet kSheets[] = {
    {sizeof(fettle_sheet), 1, "spring.pack", "Leaf spring pack",
     "How stiff is this pack, how far does the load bend it, and how hard is the steel worked?",
     kCaution, kInputList.size(), kInputList.data(), kOutputList.size(), kOutputList.data(),
     kTableList.size(), kTableList.data(), kSources.size(), kSources.data(), compute_pack}};
constexpr auto kSheetList = pointers(kSheets);

constexpr fettle_plugin kPlugin = {
    sizeof(fettle_plugin), FETTLE_ABI_VERSION, "spring", "Leaf springs", "1.0.0",
    kSheetList.size(),     kSheetList.data()};

} // namespace

const fettle_plugin* fettle_plugin_describe(std::uint32_t abi_version) {
    return abi_version == FETTLE_ABI_VERSION ? &kPlugin : nullptr;
}
