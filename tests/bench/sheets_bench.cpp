// What a worked sheet costs: through the host's process against a direct call of the same plugin,
// three shim stacks from a tin of 60, and a pack of 20 leaves with contact.
#include "base/quantity.h"
#include "calc/run_sheet.h"
#include "plugins/plugin_library.h"
#include "shim/stack_search.h"
#include "spring/pack_contact.h"

#include <benchmark/benchmark.h>
#include <nlohmann/json.hpp>

#include <random>

namespace {

using namespace fettle;

const calc::TypedInputs kBolt = {
    {"thread", "3/8-20 BSF"}, {"grade", "SAE 5"}, {"surface", "oiled"}};

test::TypedById typed_bolt(const fettle_sheet& sheet) {
    test::TypedById typed = test::presets_of(sheet);
    for (const auto& [id, text] : kBolt)
        typed[id] = test::Typed::of(text.c_str());
    return typed;
}

const fettle_sheet& sheet_of(const test::PluginLibrary& library) {
    return *library.describe()->sheets[0];
}

void direct_call(benchmark::State& state) {
    const test::PluginLibrary library("torque");
    const auto typed = typed_bolt(sheet_of(library));
    for (auto _ : state)
        benchmark::DoNotOptimize(test::run(sheet_of(library), typed).code);
}

void through_the_host(benchmark::State& state) {
    calc::Catalogue sheets(FETTLEBOOK_BIN_DIR "/fettlebook-calc", {FETTLEBOOK_PLUGIN_DIR});
    for (auto _ : state) {
        auto answer = calc::run_sheet(sheets, "torque.tighten", kBolt);
        if (!answer) state.SkipWithError(answer.failure().sentence.c_str());
        benchmark::DoNotOptimize(answer.ok());
    }
}

// Sixty shims as they are measured: half of them in tenths of a thou, half in hundredths of a
// millimetre; lengths in grains of 254 / 100 nm would not be whole, so in nanometres.
std::vector<std::int64_t> mixed_tin() {
    std::mt19937 random(60);
    std::vector<std::int64_t> tin;
    for (int i = 0; i < 30; ++i)
        tin.push_back(2540 * std::uniform_int_distribution<int>(30, 300)(random));
    for (int i = 0; i < 30; ++i)
        tin.push_back(10000 * std::uniform_int_distribution<int>(8, 80)(random));
    return tin;
}

std::vector<std::int64_t> thou_tin() {
    std::mt19937 random(60);
    std::vector<std::int64_t> tin;
    for (int i = 0; i < 60; ++i)
        tin.push_back(25400 * std::uniform_int_distribution<int>(3, 30)(random));
    return tin;
}

void stacks(benchmark::State& state, const std::vector<std::int64_t>& in_nanometres,
            std::int64_t grain) {
    std::vector<std::int64_t> tin, targets;
    for (const std::int64_t shim : in_nanometres)
        tin.push_back(shim / grain);
    for (const std::int64_t target : {1'066'800, 952'500, 787'400})
        targets.push_back(target / grain);
    bool proven = true;
    for (auto _ : state)
        proven = proven && shim::best_stacks(targets, tin, 5, 6'000'000).proven;
    state.counters["proven"] = proven ? 1 : 0;
}

void three_stacks_whole_thou(benchmark::State& state) {
    stacks(state, thou_tin(), 25400);
}
void three_stacks_mixed(benchmark::State& state) {
    stacks(state, mixed_tin(), 20);
}

spring::Pack twenty_leaves() {
    spring::Pack pack{.leaves = {}, .width = 0.06, .clamp = 0.1, .modulus = 207e9};
    for (int i = 0; i < 20; ++i)
        pack.leaves.push_back({.length = 1.2 - 0.05 * i,
                               .thickness = i % 3 == 0 ? 0.008 : 0.007,
                               .curvature = 0.5 + 0.02 * i});
    pack.friction = 0.1;
    return pack;
}

// From nothing: the pack built, and both branches with all forces and stresses at one load.
void pack_of_twenty(benchmark::State& state) {
    const spring::Pack pack = twenty_leaves();
    bool found = true;
    for (auto _ : state) {
        spring::PackSolver solver(pack);
        found = found && solver.state(8000, spring::Branch::loading) &&
                solver.state(8000, spring::Branch::unloading);
    }
    state.counters["found"] = found ? 1 : 0;
}

// The contact problem alone at a load near the last one, as along a curve.
void next_load_of_twenty(benchmark::State& state) {
    spring::PackSolver solver(twenty_leaves());
    double load = 4000;
    for (auto _ : state) {
        load = load < 8000 ? load + 100 : 4000;
        benchmark::DoNotOptimize(solver.eye(load, spring::Branch::loading));
    }
}

BENCHMARK(direct_call)->Unit(benchmark::kMillisecond);
BENCHMARK(through_the_host)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK(three_stacks_whole_thou)->Unit(benchmark::kMillisecond);
BENCHMARK(three_stacks_mixed)->Unit(benchmark::kMillisecond);
BENCHMARK(pack_of_twenty)->Unit(benchmark::kMillisecond);
BENCHMARK(next_load_of_twenty)->Unit(benchmark::kMillisecond);

} // namespace

// The plugin opener shared with the tests checks with doctest; here it only needs to be there.
#define DOCTEST_CONFIG_IMPLEMENT
#include <doctest/doctest.h>

BENCHMARK_MAIN();
