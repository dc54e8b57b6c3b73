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
constexpr fettle_table kTables[] = {
    {sizeof(fettle_table), "leaves", "Leaf by leaf", kLeafShownList.size(), kLeafShownList.data()},
    {sizeof(fettle_table), "clips", "Clips", kClipShownList.size(), kClipShownList.data()}};
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
    const fettle_value* clips = values[kClips];
    for (std::uint32_t row = 0; clips->given != 0 && row < clips->rows; ++row)
        typed.clips.push_back(clips->numbers[row]);
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
    if (work.book.full > 0) sink->number(sink->context, "stress_full_textbook", full);
    if (work.book.graduated > 0)
        sink->number(sink->context, "stress_graduated_textbook", graduated);
    if (!work.nip_book) return;
    sink->number(sink->context, "nip_textbook", work.nip_book->nip);
    sink->number(sink->context, "closing_textbook", work.nip_book->closing);
}

void give_friction(const fettle_sink* sink, const PackAnswer& answer) {
    const auto& loop = answer.work.loop;
    if (!loop) return;
    sink->number(sink->context, "rate_loading", loop->down.rate);
    sink->number(sink->context, "rate_unloading", loop->up.rate);
    sink->number(sink->context, "friction_force", loop->half_band());
    if (!answer.loaded_arch) return;
    const double level = *answer.loaded_arch + answer.work.loaded.eye.drop;
    sink->number(sink->context, "arch_settled", level - loop->down.drop);
    sink->number(sink->context, "arch_risen", level - loop->up.drop);
}

void give_leaves(const fettle_sink* sink, const PackAnswer& answer) {
    const PackWork& work = answer.work;
    const std::vector<double> free = nips(answer.pack);
    double whole = 0;
    for (const LeafState& leaf : work.loaded.leaves)
        whole += leaf.clamp_moment;
    const auto number_cell = [](double si) {
        return fettle_cell{sizeof(fettle_cell), si, nullptr};
    };
    for (std::size_t i = 0; i < work.loaded.leaves.size(); ++i) {
        const Leaf& leaf = answer.pack.leaves[i];
        const LeafState& state = work.loaded.leaves[i];
        const std::string where = where_it_touches(answer, i);
        const fettle_cell cells[] = {
            number_cell(static_cast<double>(i + 1)),
            number_cell(leaf.length),
            number_cell(leaf.thickness),
            number_cell(i == 0 ? 0 : free_gap(leaf.length / 2, free[i - 1])),
            number_cell(state.press),
            {sizeof(fettle_cell), 0, where.c_str()},
            number_cell(whole != 0 ? state.clamp_moment / whole : 0),
            number_cell(state.stress),
            number_cell(work.empty.leaves[i].stress),
            number_cell(work.book.stress[i])};
        sink->row(sink->context, "leaves", cells, std::size(cells));
    }
}

void give(const fettle_sink* sink, const PackTyped& typed, const PackAnswer& answer) {
    const PackWork& work = answer.work;
    const auto number_out = [sink](const char* id, double si) {
        sink->number(sink->context, id, si);
    };
    number_out("rate", work.rate);
    number_out("rate_textbook", work.book.rate);
    sink->text(sink->context, "why", answer.why.c_str());
    number_out("deflection", work.deflection);
    if (answer.loaded_arch) number_out("loaded_arch", *answer.loaded_arch);
    number_out("stress_max", work.stress_max);
    number_out("closing_force", work.closing);
    number_out("frequency", work.frequency);
    if (!work.clip_closing.empty()) {
        number_out("clip_force",
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
    give_account(sink, answer.account);
}

std::int32_t compute_pack(const fettle_value* const* values, std::uint32_t count,
                          const fettle_sink* sink) {
    return guarded(count, kInputList.size(), sink, [&] {
        const PackTyped typed = typed_from(values);
        const auto outcome = work_pack(typed);
        if (const auto* refusal = std::get_if<Refusal>(&outcome)) return refuse(sink, *refusal);
        give(sink, typed, std::get<PackAnswer>(outcome));
        return std::int32_t{FETTLE_DONE};
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
