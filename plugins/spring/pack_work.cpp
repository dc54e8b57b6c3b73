#include "spring/pack_work.h"

#include "spring/leaf_formulae.h"

#include <algorithm>
#include <cmath>

namespace fettle::spring {
namespace {

constexpr int kCurvePoints = 13;
constexpr int kFewerPoints = 7; // for more than kManyLeaves, to stay quick
constexpr std::size_t kManyLeaves = 12;
constexpr double kOneThickness = 1.1; // thickest over thinnest, up to which the nip formulae speak

// The load that holds the eye at this drop on a branch: Newton's way on a curve of straight pieces.
std::optional<double> load_for_drop(PackSolver& solver, double drop, double start, Branch branch) {
    double load = start;
    for (int round = 0; round < 8; ++round) {
        const auto eye = solver.eye(load, branch);
        if (!eye) return std::nullopt;
        const double next = std::max(0.0, load + (drop - eye->drop) * eye->rate);
        if (std::fabs(next - load) < 1e-9 * start) return next;
        load = next;
    }
    return load;
}

std::optional<FrictionLoop> loop_of(PackSolver& solver, double load, double drop) {
    const auto down = solver.eye(load, Branch::loading);
    const auto load_down = down ? load_for_drop(solver, drop, load, Branch::loading) : std::nullopt;
    const auto up = solver.eye(load, Branch::unloading);
    const auto load_up = up ? load_for_drop(solver, drop, load, Branch::unloading) : std::nullopt;
    if (!load_down || !load_up) return std::nullopt;
    return FrictionLoop{*down, *up, *load_down, *load_up};
}

// From nothing to twice the load; empty when a point has no answer.
std::vector<LoadPoint> curve_of(PackSolver& solver, double load, double empty, Branch branch) {
    std::vector<LoadPoint> curve;
    const int points = solver.leaves() > kManyLeaves ? kFewerPoints : kCurvePoints;
    for (int point = points; point-- > 0;) { // fewest contacts first
        const double each = 2 * load * point / (points - 1);
        const auto eye = solver.eye(each, branch);
        if (!eye) return {};
        curve.push_back({eye->drop - empty, each});
    }
    std::reverse(curve.begin(), curve.end());
    return curve;
}

double closing_at_bolt(const PackState& empty) {
    double most = 0;
    for (const LeafState& leaf : empty.leaves)
        most = std::max(most, 2 * leaf.press);
    return most;
}

std::optional<NipBook> nip_book_of(const Pack& pack, const BookView& book, double load) {
    double cubes = 0, least = pack.leaves[0].thickness, most = least;
    for (const Leaf& leaf : pack.leaves) {
        cubes += leaf.thickness * leaf.thickness * leaf.thickness;
        least = std::min(least, leaf.thickness);
        most = std::max(most, leaf.thickness);
    }
    if (book.full == 0 || book.graduated == 0 || most > kOneThickness * least) return std::nullopt;
    const double thickness = std::cbrt(cubes / static_cast<double>(pack.leaves.size()));
    const BookPack each{load / 2,  book.half_length, pack.width,
                        thickness, book.full,        book.graduated};
    return NipBook{thickness, nip(each, pack.modulus), closing_load(each), equalised_stress(each)};
}

// The pack as it would be if every leaf fitted the one above, without clips.
Pack fitted(const Pack& pack) {
    Pack plain = pack;
    plain.clips.clear();
    for (Leaf& leaf : plain.leaves)
        leaf.curvature.reset();
    return plain;
}

bool work_states(PackSolver& solver, double load, PackWork& work) {
    const auto bump = solver.state(2 * load, Branch::frictionless); // fewest contacts first
    const auto loaded = solver.state(load, Branch::frictionless);
    const auto empty = solver.state(0, Branch::frictionless);
    if (!empty || !loaded || !bump) return false;
    work.empty = *empty;
    work.loaded = *loaded;
    work.stress_bump = greatest_stress(*bump);
    work.stress_max = std::max(greatest_stress(*loaded), greatest_stress(*empty));
    work.rate = loaded->eye.rate;
    work.deflection = loaded->eye.drop - empty->eye.drop;
    work.clip_closing = empty->clips;
    return true;
}

void work_friction(PackSolver& solver, double load, PackWork& work) {
    work.loop = loop_of(solver, load, work.loaded.eye.drop);
    if (!work.loop) return;
    work.curve_back = curve_of(solver, load, work.empty.eye.drop, Branch::unloading);
    work.curve = curve_of(solver, load, work.empty.eye.drop, Branch::loading);
    if (work.curve.empty() || work.curve_back.empty()) work.loop.reset();
}

} // namespace

bool one_thickness(const Pack& pack) {
    const double first = pack.leaves.front().thickness;
    return std::all_of(pack.leaves.begin(), pack.leaves.end(), [first](const Leaf& leaf) {
        return std::fabs(leaf.thickness - first) < 1e-6;
    });
}

double greatest_stress(const PackState& state) {
    double most = 0;
    for (const LeafState& leaf : state.leaves)
        most = std::max(most, std::fabs(leaf.stress));
    return most;
}

std::optional<PackWork> work_out(const Pack& pack, double load, int spare) {
    PackWork work{};
    PackSolver solver(pack);
    if (!work_states(solver, load, work)) return std::nullopt;
    if (pack.friction > 0) work_friction(solver, load, work);
    if (!work.loop) {
        work.curve_back.clear();
        work.curve = curve_of(solver, load, work.empty.eye.drop, Branch::frictionless);
    }
    work.closing = closing_at_bolt(work.empty);
    if (!pack.clips.empty()) {
        Pack loose = pack;
        loose.clips.clear();
        const auto unclipped = solve_pack(loose, 0);
        if (!unclipped) return std::nullopt;
        work.closing = closing_at_bolt(*unclipped);
    }
    const auto plain = PackSolver(fitted(pack)).eye(load, Branch::frictionless);
    if (!plain) return std::nullopt;
    work.fitted_rate = plain->rate;
    work.common_rate = common_curvature_rate(pack);
    work.frequency = bounce_frequency(work.rate, load);
    work.book = book_view(pack, load, spare);
    work.nip_book = nip_book_of(pack, work.book, load);
    const Leaf& master = pack.leaves.front();
    if (master.curvature)
        work.built_arch = rise_of_arc(*master.curvature, master.length) - work.empty.eye.drop;
    return work;
}

} // namespace fettle::spring
