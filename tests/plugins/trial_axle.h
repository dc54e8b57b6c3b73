// A made-up axle for trying the advice of shim.trial: its true errors only the test knows; readings
// follow from its shims, and a run follows the advice until it is reached or withheld.
#pragma once

#include "plugins/flank_normals.h"
#include "plugins/shim_sheet.h"

#include <algorithm>
#include <random>

namespace fettle::test {

struct Shims {
    double pinion, left, right; // m
};

// An axle: where its gears stand follows from its shims; readings follow from where they stand.
struct Axle {
    double thicker_is_nearer = 1; // sense of the pinion shim
    bool ring_on_right = false;
    double pinion_right = 30 * kThou;    // the shim with which the pinion stands right
    double meets_at = 0;                 // ring gear's place where the teeth meet, pinion right
    double ring = 0.703, pinion = 0.188; // backlash a move, truly
    double run_out = 1 * kThou;
    double best_backlash = 7.5 * kThou; // where the pattern is centred along the tooth
    double phase = 0.3;
    std::mt19937* jitter = nullptr; // of a hand that reads to about a third of a thousandth

    double too_near(const Shims& shims) const {
        return thicker_is_nearer * (shims.pinion - pinion_right);
    }
    double backlash(const Shims& shims) const {
        const double toward = ring_on_right ? shims.right - shims.left : shims.left - shims.right;
        return ring * (-toward / 2 - meets_at) - pinion * too_near(shims);
    }
    const char* height(const Shims& shims) const {
        const double near = too_near(shims);
        return near > 2 * kThou ? "flank" : near < -2 * kThou ? "face" : "centre";
    }
    // side 1: drive, which goes to the toe as the pinion comes nearer; -1: coast, to the heel.
    const char* along(const Shims& shims, double side) const {
        const double place = (backlash(shims) - best_backlash) / (1.2 * kThou) -
                             side * too_near(shims) / (6 * kThou);
        return place > 1 ? "heel" : place < -1 ? "toe" : "centre";
    }
};

inline TypedById readings(const Axle& axle, const Shims& shims) {
    std::vector<double> teeth;
    for (int tooth = 0; tooth < 4; ++tooth) {
        const double turn = std::cos(axle.phase + tooth * 90 * kDegree) * axle.ring * axle.run_out;
        const double missed =
            axle.jitter == nullptr
                ? 0
                : std::uniform_real_distribution<double>(-0.3, 0.3)(*axle.jitter) * kThou;
        teeth.push_back(std::max(0.1 * kThou, axle.backlash(shims) + turn / 2 + missed));
    }
    return {{"pinion", Typed::of(shims.pinion)},
            {"left", Typed::of(shims.left)},
            {"right", Typed::of(shims.right)},
            {"backlash", Typed::list(teeth)},
            {"runout", Typed::of(axle.run_out)},
            {"drive_height", Typed::of(axle.height(shims))},
            {"drive_along", Typed::of(axle.along(shims, 1))},
            {"coast_height", Typed::of(axle.height(shims))},
            {"coast_along", Typed::of(axle.along(shims, -1))},
            {"wanted", thous({6, 9})},
            {"ring_side", Typed::of(axle.ring_on_right ? "right" : "left")},
            {"pinion_acts", Typed::of(axle.thicker_is_nearer > 0 ? "nearer the ring gear"
                                                                 : "away from the ring gear")}};
}

// The table of an answer as the host fills it into the next sheet of the same task.
inline Typed carried_on(const SheetAnswer& answer) {
    std::vector<double> cells;
    for (const auto& row : answer.tables.at("trials"))
        cells.insert(cells.end(), row.begin(), row.end());
    return Typed::list(cells, 11);
}

inline double built(double wanted) { // what a tin gives: half thousandths
    return std::round(wanted / (0.5 * kThou)) * 0.5 * kThou;
}

inline Shims advised(const SheetAnswer& answer) {
    return {built(answer.numbers.at("next_pinion")), built(answer.numbers.at("next_left")),
            built(answer.numbers.at("next_right"))};
}

struct Run {
    int trials = 0;
    bool reached = false;
    SheetAnswer last;
    Shims shims;
};

inline Run set_up(const ShimSheet& sheet, const Axle& axle, Shims shims, int most) {
    Run run{0, false, {}, shims};
    Typed earlier = Typed::list({}, 11);
    while (run.trials < most) {
        TypedById typed = readings(axle, run.shims);
        if (!earlier.numbers.empty()) typed["earlier"] = earlier;
        run.last = sheet.answer(typed);
        ++run.trials;
        run.reached = run.last.has_note(FETTLE_REACHED);
        if (run.reached || run.last.numbers.count("next_pinion") == 0) return run;
        earlier = carried_on(run.last);
        run.shims = advised(run.last);
    }
    return run;
}

} // namespace fettle::test
