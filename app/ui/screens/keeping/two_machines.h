// Two machines: carry what has changed to a file, meet such a file, and settle what both machines
// changed differently, both values side by side.
#pragma once

#include "notebook/differences.h"
#include "notebook/sides.h"
#include "ui/beside/snapshot.h"
#include "ui/context.h"
#include "ui/frame/page.h"

#include <string>
#include <vector>

namespace fettle::ui {

inline constexpr Chord kTwoMachines{.key = 'M', .ctrl = true};

struct TwoMachinesRead {
    Sides sides;
    std::vector<Difference> differences;
};

enum class PathFor { nothing, carry, meet };

// What a person is in the middle of.
struct TwoMachinesState {
    PathFor path_for = PathFor::nothing;
    bool wants_caret = false;
    std::string path, error;

    DifferenceId at{};
    bool typing = false; // another text for the chosen one
    std::string text, text_error;

    Snapshot<TwoMachinesRead> read;
};

void draw_two_machines(Page& page, Context& context, TwoMachinesState& state);
// How many, for the list of screens; empty: none.
std::string to_settle(int differences);

} // namespace fettle::ui
