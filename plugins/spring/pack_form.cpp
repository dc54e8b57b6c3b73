// spring.pack as the contract describes it, and a compute that moves values between host and sheet.
#include "spring/forms.h"
#include "spring/pack_charts.h"
#include "spring/pack_fields.h"
#include "spring/pack_sheet.h"

#include <algorithm>
#include <cmath>

namespace fettle::spring {
namespace {

using namespace fettle::plugin;
using namespace fettle::spring::pack_fields;

constexpr const char* kContact =
    "Euler-Bernoulli cantilevers in one-sided contact (linear complementarity)";
constexpr const char* kRubbing = "the same with Coulomb friction at every contact";
constexpr const char* kBook = "12FL³/(E b t³(3nf+2ng)): Khurmi & Gupta, Machine Design, ch. 23";

constexpr fettle_output kOutputs[] = {
    number_output({"rate", "Spring rate at this load", "spring_rate", "N/mm", "lbf/in", 3, kContact,
                   "spring.sag.rate"}),
    number_output(
        {"rate_textbook", "Spring rate, textbook", "spring_rate", "N/mm", "lbf/in", 3, kBook}),
    text_output({"why", "Why they differ", "the steps between both, each worked out here"}),
    number_output(
        {"rate_loading", "Rate while it settles", "spring_rate", "N/mm", "lbf/in", 3, kRubbing}),
    number_output(
        {"rate_unloading", "Rate while it rises", "spring_rate", "N/mm", "lbf/in", 3, kRubbing}),
    number_output({"deflection", "Deflection under the load", "length", "mm", "in", 3, kContact}),
    number_output({"loaded_arch", "Arch under the load", "length", "mm", "in", 3,
                   "free arch less deflection"}),
    number_output({"arch_settled", "Arch when it has settled", "length", "mm", "in", 3, kRubbing}),
    number_output({"arch_risen", "Arch when it has come up", "length", "mm", "in", 3, kRubbing}),
    number_output({"friction_force", "Friction, either way", "force", "N", "lbf", 2, kRubbing}),
    number_output({"stress_max", "Greatest stress", "pressure", "MPa", "psi", 3, kContact}),
    number_output({"stress_full_textbook", "Full-length leaves, textbook", "pressure", "MPa", "psi",
                   3, "18FL/(b t²(3nf+2ng)), no nip: Khurmi & Gupta, ch. 23"}),
    number_output({"stress_graduated_textbook", "Graduated leaves, textbook", "pressure", "MPa",
                   "psi", 3, "12FL/(b t²(3nf+2ng)), no nip: Khurmi & Gupta, ch. 23"}),
    number_output({"nip_textbook", "Nip that shares alike, textbook", "length", "mm", "in", 3,
                   "2FL³/(n E b t³): Khurmi & Gupta, ch. 23"}),
    number_output({"closing_textbook", "Load closing that nip, textbook", "force", "N", "lbf", 3,
                   "2 nf ng F/(n(3nf+2ng)): Khurmi & Gupta, ch. 23"}),
    number_output({"closing_force", "Force closing this pack", "force", "N", "lbf", 3, kContact}),
    number_output({"clip_force", "Force closing the hardest clip", "force", "N", "lbf", 3,
                   "the same, leaves brought together to the clip's play"}),
    number_output({"frequency", "Bounce of this load on this spring", "frequency", "Hz", "", 3,
                   "natural frequency of a mass on a spring"})};
constexpr auto kOutputList = pointers(kOutputs);

constexpr fettle_column kLeafShown[] = {
    column("number", "Leaf", "count", "", false, 2),
    column("length", "Length", "length", "in", false, 4),
    column("thickness", "Thickness", "length", "in", false, 3),
    column("nip", "Free nip", "length", "mm", false, 2),
    column("contact", "Presses, each end", "force", "N", false, 3),
    text_column("touches", "Where"),
    column("share", "Share of moment at the clamp", "ratio", "%", false, 3),
    column("stress", "Stress", "pressure", "MPa", false, 3),
    column("stress_unloaded", "Stress unloaded", "pressure", "MPa", false, 2),
    column("stress_textbook", "Stress, textbook", "pressure", "MPa", false, 3)};
constexpr auto kLeafShownList = pointers(kLeafShown);
constexpr fettle_column kClipShown[] = {
    column("at", "From the middle", "length", "in", false, 3),
    column("closing", "Closes with", "force", "N", false, 2),
    column("pull", "Pulls under the load", "force", "N", false, 2)};
constexpr auto kClipShownList = pointers(kClipShown);
constexpr fettle_table kTables[] = {answer_table("leaves", "Leaf by leaf", kLeafShownList),
                                    answer_table("clips", "Clips", kClipShownList)};
constexpr auto kTableList = pointers(kTables);

constexpr fettle_axis kDeflection = axis("Deflection", "length", "mm", "in");
constexpr fettle_axis kLoadAxis = axis("Load", "force", "N", "lbf");
constexpr fettle_axis kFromMiddle = axis("From the middle", "length", "mm", "in");
constexpr fettle_axis kStressAxis = axis("Stress in the hollow face", "pressure", "MPa", "psi");
constexpr fettle_axis kPlain = axis("", "length", "mm", "in");
constexpr fettle_chart kCharts[] = {
    chart("load", "Load over deflection", kDeflection, kLoadAxis),
    chart("stress", "Stress along each leaf", kFromMiddle, kStressAxis),
    drawing("pack", "The pack under its load", kPlain, kPlain)};
constexpr auto kChartList = pointers(kCharts);

constexpr std::array<const char*, 4> kSources = {
    "R. S. Khurmi & J. K. Gupta, A Textbook of Machine Design, ch. 23 (laminated springs)",
    "V. B. Bhandari, Design of Machine Elements, ch. 10 (multi-leaf springs)",
    "Beam theory: M = E I (1/R - 1/R free), small deflections",
    "C. L. Lawson & R. J. Hanson, Solving Least Squares Problems, ch. 23 (active sets)"};

std::optional<double> cell(const double* cells, std::uint32_t columns, std::uint32_t at) {
    if (at >= columns || std::isnan(cells[at])) return std::nullopt;
    return cells[at];
}

PackTyped typed_from(const fettle_value* const* values) {
    PackTyped typed{};
    const fettle_value* leaves = values[kLeaves];
    const std::uint32_t columns = leaves->columns;
    for (std::uint32_t row = 0; leaves->given != 0 && columns >= 2 && row < leaves->rows; ++row) {
        const double* cells = leaves->numbers + static_cast<std::size_t>(row) * columns;
        typed.leaves.push_back({cells[0], cells[1], cell(cells, columns, 2),
                                cell(cells, columns, 3), cell(cells, columns, 4)});
    }
    typed.clips = numbers(values[kClips]);
    typed.clip_play = number(values[kClipPlay]);
    typed.width = number(values[kWidth]).value_or(0);
    typed.tip_width = number(values[kTipWidth]);
    typed.clamp = number(values[kClamp]).value_or(0);
    typed.two_thirds = text(values[kClampTakenAs]) == kClampTaken[1];
    typed.modulus = number(values[kModulus]).value_or(kDefaultModulus);
    typed.load = number(values[kLoad]).value_or(0);
    typed.friction = number(values[kFriction]).value_or(0);
    typed.free_arch = number(values[kFreeArch]);
    typed.limit = number(values[kLimit]);
    typed.master_apart = text(values[kCountingAs]) == kCounting[1];
    return typed;
}

void give_textbook(const fettle_sink* sink, const PackTyped& typed, const PackAnswer& answer) {
    const PackWork& work = answer.work;
    const std::size_t spare = typed.master_apart ? 1 : 0;
    double full = 0;
    double graduated = 0;
    for (std::size_t i = 0; i < work.book.stress.size(); ++i) {
        const bool long_one = i >= spare && i < spare + static_cast<std::size_t>(work.book.full);
        double& most = long_one ? full : graduated;
        most = std::max(most, work.book.stress[i]);
    }
    if (work.book.full > 0) give_output(sink, "stress_full_textbook", full);
    if (work.book.graduated > 0) give_output(sink, "stress_graduated_textbook", graduated);
    if (!work.nip_book) return;
    give_output(sink, "nip_textbook", work.nip_book->nip);
    give_output(sink, "closing_textbook", work.nip_book->closing);
}

void give_friction(const fettle_sink* sink, const PackAnswer& answer) {
    const auto& loop = answer.work.loop;
    if (!loop) return;
    give_output(sink, "rate_loading", loop->down.rate);
    give_output(sink, "rate_unloading", loop->up.rate);
    give_output(sink, "friction_force", loop->half_band());
    if (!answer.loaded_arch) return;
    const double level = *answer.loaded_arch + answer.work.loaded.eye.drop;
    give_output(sink, "arch_settled", level - loop->down.drop);
    give_output(sink, "arch_risen", level - loop->up.drop);
}

void give_leaves(const fettle_sink* sink, const PackAnswer& answer) {
    const PackWork& work = answer.work;
    const std::vector<double> free = nips(answer.pack);
    double whole = 0;
    for (const LeafState& leaf : work.loaded.leaves)
        whole += leaf.clamp_moment;
    for (std::size_t i = 0; i < work.loaded.leaves.size(); ++i) {
        const Leaf& leaf = answer.pack.leaves[i];
        const LeafState& state = work.loaded.leaves[i];
        give_row(sink, "leaves",
                 {static_cast<double>(i + 1), leaf.length, leaf.thickness,
                  i == 0 ? 0.0 : free_gap(leaf.length / 2, free[i - 1]), state.press,
                  where_it_touches(answer, i), whole != 0 ? state.clamp_moment / whole : 0.0,
                  state.stress, work.empty.leaves[i].stress, work.book.stress[i]});
    }
}

void give(const fettle_sink* sink, const PackTyped& typed, const PackAnswer& answer) {
    const PackWork& work = answer.work;
    give_output(sink, "rate", work.rate);
    give_output(sink, "rate_textbook", work.book.rate);
    give_output(sink, "why", answer.why);
    give_output(sink, "deflection", work.deflection);
    give_output(sink, "loaded_arch", answer.loaded_arch);
    give_output(sink, "stress_max", work.stress_max);
    give_output(sink, "closing_force", work.closing);
    give_output(sink, "frequency", work.frequency);
    if (!work.clip_closing.empty()) {
        give_output(sink, "clip_force",
                    *std::max_element(work.clip_closing.begin(), work.clip_closing.end()));
    }
    give_textbook(sink, typed, answer);
    give_friction(sink, answer);
    give_leaves(sink, answer);
    for (std::size_t i = 0; i < answer.pack.clips.size(); ++i) {
        give_row(sink, "clips", {answer.pack.clips[i], work.clip_closing[i], work.loaded.clips[i]});
    }
    draw_load(sink, typed, answer);
    draw_stress(sink, typed, answer);
    draw_pack(sink, answer);
}

std::int32_t compute_pack(const fettle_value* const* values, std::uint32_t count,
                          const fettle_sink* sink) {
    return guarded(count, kInputList.size(), sink, [&] {
        const PackTyped typed = typed_from(values);
        return answered(sink, work_pack(typed),
                        [&](const PackAnswer& answer) { give(sink, typed, answer); });
    });
}

} // namespace

// Revision 2: contact solved, friction a coefficient between leaves, stress of that alone.
constinit const fettle_sheet kPackForm = sheet(
    {.revision = 2,
     .id = "spring.pack",
     .title = "Leaf spring pack",
     .answers = "How stiff is this pack, how far does the load bend it, and how hard is each leaf "
                "worked?",
     .caution = kCaution,
     .smooth = true},
    kInputList, kOutputList, kTableList, kSources, compute_pack, kChartList);

} // namespace fettle::spring
