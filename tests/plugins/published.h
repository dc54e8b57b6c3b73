// What the tables of published values share: how sure a figure is, and comparing by a share.
#pragma once

#include "screw_threads/designation.h"

#include <doctest/doctest.h>

#include <cmath>

namespace fettle::test {

enum Provenance {
    kSeen,         // inputs and result read in a public copy of the source
    kQuestionSeen, // the problem read, the printed answer from memory
    kMemory,       // from memory altogether
};

inline bool within(double value, double published, double share) {
    INFO("computed ", value, ", published ", published);
    CHECK(std::abs(value - published) <= share * std::abs(published));
    return std::abs(value - published) <= share * std::abs(published);
}

inline screw::Thread thread(const char* designation) {
    const auto outcome = screw::read_thread(designation);
    REQUIRE_MESSAGE(std::holds_alternative<screw::Thread>(outcome), designation);
    return std::get<screw::Thread>(outcome);
}

} // namespace fettle::test
