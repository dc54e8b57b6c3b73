// A sheet of the plugin "shim", asked with what a test types over its presets.
#pragma once

#include "plugins/asked_sheet.h"

#include <utility>
#include <vector>

namespace fettle::test {

inline constexpr double kThou = 2.54e-5; // m, by definition of the inch

using ShimSheet = AskedSheet;

inline Typed thou(double thousandths) {
    return Typed::of(thousandths * kThou);
}

inline Typed thous(std::vector<double> thousandths) {
    for (double& each : thousandths)
        each *= kThou;
    return Typed::list(std::move(thousandths));
}

} // namespace fettle::test
