#include "shim/stack_sheet.h"

#include "shim/words.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace fettle::shim {
namespace {

using plugin::figure;
using plugin::line;
using plugin::Refusal;

constexpr double kNanometre = 1e-9;
constexpr std::size_t kMostTargets = 8;
constexpr std::size_t kMostShims = 200;
constexpr int kUsualMost = 5;
constexpr int kGreatestMost = 40;
constexpr double kThickest = 0.1;               // m
constexpr std::int64_t kMostCells = 16'000'000; // of one table of sums
constexpr std::int64_t kWorkLimit = 2'000'000;

// Adding decimals leaves dust in the last binary places; a stack that fits must show an error of 0.
double to_nanometre(double metres) {
    return static_cast<double>(std::llround(metres / kNanometre)) * kNanometre;
}

std::optional<Refusal> unfit_lengths(const char* field, const char* one,
                                     const std::vector<double>& lengths, std::size_t greatest) {
    if (lengths.empty() || lengths.size() > greatest) {
        return Refusal{field,
                       line(field, ": ", std::to_string(lengths.size()),
                            " lengths typed; accepted are 1 to ", std::to_string(greatest), ".")};
    }
    for (std::size_t i = 0; i < lengths.size(); ++i) {
        if (lengths[i] >= 1e-6 && lengths[i] <= kThickest) continue;
        return Refusal{field, line(field, ": ", one, " ", std::to_string(i + 1), " is ",
                                   both_fine(lengths[i]), "; accepted is 0.001 mm to 100 mm.")};
    }
    return std::nullopt;
}

std::optional<Refusal> unfit(const StackTyped& typed) {
    if (auto no = unfit_lengths("target", "target", typed.targets, kMostTargets)) return no;
    if (auto no = unfit_lengths("tin", "shim", typed.tin, kMostShims)) return no;
    if (typed.most && !(*typed.most >= 1 && *typed.most <= kGreatestMost)) {
        return Refusal{"most", line("most: ", figure(*typed.most),
                                    " shims in a stack; accepted "
                                    "are 1 to ",
                                    std::to_string(kGreatestMost), ".")};
    }
    if (typed.keep_back && !(*typed.keep_back >= 0 && *typed.keep_back <= kMostShims)) {
        return Refusal{"keep_back",
                       line("keep_back: ", figure(*typed.keep_back), " shims; accepted are 0 to ",
                            std::to_string(kMostShims), ".")};
    }
    return std::nullopt;
}

std::vector<std::int64_t> in_grains(const std::vector<double>& lengths, std::int64_t grain) {
    std::vector<std::int64_t> grains;
    for (const double length : lengths) {
        const auto nanometres = std::llround(length / kNanometre);
        grains.push_back(std::max<std::int64_t>(1, (nanometres + grain / 2) / grain));
    }
    return grains;
}

struct Grain {
    std::int64_t nanometres;
    bool exact; // every length is a whole number of it
};

// The coarsest grain in which every measured length is whole; where the table of sums would not fit
// with it, one that is coarser still and no longer exact.
Grain grain_for(const StackTyped& typed) {
    std::int64_t common = 0;
    std::int64_t tin_total = 0;
    std::int64_t thickest = 0;
    for (const std::int64_t shim : in_grains(typed.tin, 1)) {
        common = std::gcd(common, shim);
        tin_total += shim;
        thickest = std::max(thickest, shim);
    }
    std::int64_t target = 0;
    for (const std::int64_t each : in_grains(typed.targets, 1)) {
        common = std::gcd(common, each);
        target = std::max(target, each);
    }
    const std::int64_t highest = std::min(tin_total, target + thickest / 2);
    const std::int64_t columns = kMostCells / static_cast<std::int64_t>(typed.tin.size() + 1);
    if (highest / common < columns) return {common, true};
    return {highest / columns + 1, false};
}

void tell_stack(const StackTyped& typed, StackAnswer& answer, std::size_t index) {
    std::string parts;
    for (const std::size_t shim : answer.stacks[index]) {
        parts += line(parts.empty() ? "" : " + ", both_fine(typed.tin[shim]), " [",
                      std::to_string(shim + 1), "]");
    }
    if (parts.empty()) parts = "no shim";
    answer.account.working.push_back(line(
        "target ", std::to_string(index + 1), ", ", both_fine(typed.targets[index]), ": ", parts,
        " = ", both_fine(answer.sums[index]), ", error ", both_fine(answer.errors[index])));
}

// A reading is a rounded number: an error that is the tolerance but for that is within it.
bool beyond(double error, double tolerance) {
    return std::fabs(error) > tolerance + kNanometre;
}

void judge(const StackTyped& typed, StackAnswer& answer) {
    auto& notes = answer.account.notes;
    for (std::size_t i = 0; i < answer.errors.size(); ++i) {
        if (!typed.tolerance || !beyond(answer.errors[i], *typed.tolerance)) continue;
        notes.push_back(
            {FETTLE_STOP, line("Target ", std::to_string(i + 1), " is missed by ",
                               both_fine(std::fabs(answer.errors[i])),
                               ", more than the tolerance of ", both_fine(*typed.tolerance),
                               ". Another shim is needed, or one must be lapped.")});
    }
    if (!typed.tolerance) {
        notes.push_back({FETTLE_INFO, "No tolerance was typed, so the error was not judged."});
    }
}

void tell_proof(const Stacks& found, const Grain& grain, double slack, StackAnswer& answer) {
    auto& account = answer.account;
    if (!grain.exact) {
        account.notes.push_back(
            {FETTLE_INFO,
             line("Lengths this fine were compared in steps of ",
                  figure(static_cast<double>(grain.nanometres) * 1e-3, 2), " µm; a stack up to ",
                  figure(slack * 1e6, 2), " µm nearer may exist for a target.")});
    }
    if (found.proven) {
        account.working.push_back("searched to the end: no stacks from this tin come nearer, and "
                                  "none as near take fewer shims");
        return;
    }
    if (found.bound.error == found.total.error) {
        account.notes.push_back(
            {FETTLE_INFO, line("The work limit was reached. No stacks come nearer, that is proven; "
                               "but whether fewer than ",
                               std::to_string(found.total.shims), " shims would do (at least ",
                               std::to_string(found.bound.shims), ") is not.")});
        return;
    }
    account.notes.push_back(
        {FETTLE_INFO, line("The work limit was reached. These are the best stacks found; it is "
                           "proven only that the errors of all targets together cannot be less "
                           "than ",
                           both_fine(answer.bound), ".")});
}

// Places of the shims kept back, thinnest first.
std::vector<std::size_t> kept_shims(const StackTyped& typed) {
    std::vector<std::size_t> order(typed.tin.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return typed.tin[a] < typed.tin[b]; });
    const auto so_many = static_cast<std::size_t>(typed.keep_back.value_or(0));
    std::size_t kept = 0;
    while (kept < order.size() &&
           (kept < so_many || typed.tin[order[kept]] < typed.keep_thin.value_or(0) - kNanometre))
        ++kept;
    order.resize(kept);
    return order;
}

// The best stacks of what is not kept back; places are those in the whole tin.
Stacks search_without(const StackTyped& typed, const Grain& grain,
                      const std::vector<std::size_t>& kept, int most, std::int64_t work_limit) {
    std::vector<std::size_t> places;
    std::vector<double> tin;
    for (std::size_t i = 0; i < typed.tin.size(); ++i) {
        if (std::find(kept.begin(), kept.end(), i) != kept.end()) continue;
        places.push_back(i);
        tin.push_back(typed.tin[i]);
    }
    Stacks found = best_stacks(in_grains(typed.targets, grain.nanometres),
                               in_grains(tin, grain.nanometres), most, work_limit);
    for (Stack& stack : found.of_target) {
        for (std::size_t& shim : stack)
            shim = places[shim];
    }
    return found;
}

double sum_of(const StackTyped& typed, const Stack& stack) {
    double sum = 0;
    for (const std::size_t shim : stack)
        sum += typed.tin[shim];
    return sum;
}

bool all_within(const StackTyped& typed, const Stacks& found) {
    for (std::size_t i = 0; i < typed.targets.size(); ++i) {
        if (beyond(sum_of(typed, found.of_target[i]) - typed.targets[i], *typed.tolerance))
            return false;
    }
    return true;
}

struct Choice {
    Stacks found;
    std::vector<std::size_t> kept; // still kept back
    std::size_t released = 0;
    bool proven = true; // that fewer released would not do
};

Choice choose(const StackTyped& typed, const Grain& grain, int most) {
    Choice choice{{}, kept_shims(typed)};
    std::int64_t work_left = kWorkLimit;
    for (;;) {
        choice.found = search_without(typed, grain, choice.kept, most, work_left);
        if (choice.kept.empty() || !typed.tolerance || all_within(typed, choice.found))
            return choice;
        choice.proven = choice.proven && choice.found.proven;
        work_left -= choice.found.work;
        std::size_t releases = 1;
        if (work_left < kWorkLimit / 4) { // one last search, with all there is
            work_left = kWorkLimit / 4;
            releases = choice.kept.size();
        }
        choice.kept.resize(choice.kept.size() - releases);
        choice.released += releases;
    }
}

void tell_kept(const StackTyped& typed, const Choice& choice, StackAnswer& answer) {
    answer.kept_back = static_cast<double>(choice.kept.size());
    if (!choice.kept.empty()) {
        answer.account.working.push_back(
            line("kept back for a later trial: the ", std::to_string(choice.kept.size()),
                 " thinnest, up to ", both_fine(typed.tin[choice.kept.back()])));
    }
    if (choice.released == 0) return;
    answer.account.notes.push_back(
        {FETTLE_INFO,
         line("Without the thin shims kept back the stacks miss by more than the tolerance, so ",
              std::to_string(choice.released), " of them, the thickest first, ",
              choice.released == 1 ? "was" : "were", " released",
              choice.proven ? "." : "; whether fewer would do was not proven.")});
}

} // namespace

plugin::Outcome<StackAnswer> work_stack(const StackTyped& typed) {
    if (auto refusal = unfit(typed)) return *refusal;
    const int most = static_cast<int>(typed.most.value_or(kUsualMost));
    const Grain grain = grain_for(typed);
    const Choice choice = choose(typed, grain, most);
    const Stacks& found = choice.found;
    StackAnswer answer{};
    answer.stacks = found.of_target;
    answer.account.working.push_back(
        line("best: least sum of errors over all targets, then fewest shims; at most ",
             std::to_string(most), " in a stack, ", std::to_string(typed.tin.size()),
             " in the tin, none used twice"));
    for (std::size_t i = 0; i < typed.targets.size(); ++i) {
        answer.sums.push_back(sum_of(typed, answer.stacks[i]));
        answer.errors.push_back(to_nanometre(answer.sums.back() - typed.targets[i]));
        answer.error_total += std::fabs(answer.errors.back());
        answer.shims_used += static_cast<double>(answer.stacks[i].size());
        tell_stack(typed, answer, i);
    }
    const double grain_length = static_cast<double>(grain.nanometres) * kNanometre;
    const double slack = grain.exact ? 0 : grain_length * (most + 1);
    answer.bound = std::clamp(static_cast<double>(found.bound.error) * grain_length -
                                  slack * static_cast<double>(typed.targets.size()),
                              0.0, answer.error_total);
    tell_kept(typed, choice, answer);
    tell_proof(found, grain, slack, answer);
    judge(typed, answer);
    return answer;
}

} // namespace fettle::shim
