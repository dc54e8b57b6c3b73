// Bench, the first screen: what can be done now in the hours one has today, what waits, for what
// and with whom, and what needs a look. Three columns of plain lists; each thing leads to where it
// is dealt with.
#pragma once

#include "notebook/bench.h"
#include "ui/beside/snapshot.h"
#include "ui/context.h"
#include "ui/frame/page.h"
#include "ui/screens/bench/rebuild.h"

#include <optional>
#include <string>
#include <vector>

namespace fettle::ui {

// What has been read, once after each change. The lists of tasks point into `all`.
struct BenchRead {
    OnBench all;
    std::vector<NextTask> next;             // ready, the best to do next first
    std::vector<const TaskStanding*> waits; // those that wait for something outside first
};

// What a person is in the middle of.
struct BenchState {
    Snapshot<BenchRead, Day> read;
    std::string hours, hours_error; // as typed
    std::optional<double> hours_shown;
    bool hours_active = false; // being written in
    TaskId at{};               // the task the keyboard is on
    bool take_keyboard = false;
    int last_frame = -1;
    std::string backup; // that one is wanted; empty: it is not
    int view = 0;       // 0: today's work, 1: the rebuild at a glance
    RebuildState rebuild;
};

void draw_bench(Page& page, Context& context, BenchState& state);
void lead_to(BenchState& state, const Place& place); // by its view: "rebuild"

// The three lists (bench_lists.cpp).
void draw_can_be_done(Page& page, Context& context, BenchState& state, const BenchRead& read);
void draw_waits(Page& page, Context& context, BenchState& state, const BenchRead& read);
void draw_needs_a_look(Page& page, Context& context, BenchState& state, const BenchRead& read);

} // namespace fettle::ui
