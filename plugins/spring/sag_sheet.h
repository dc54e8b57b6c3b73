// The sheet spring.sag in words: refuses readings that contradict each other, has them judged,
// writes working, verdicts and notes. Knows the notes and refusals of the plugin contract, but no
// sink and no host. SI units.
#pragma once

#include "describe.hpp"
#include "spring/sag.h"

#include <array>
#include <string>

namespace fettle::spring {

struct SagAnswer {
    SagFound found;
    std::array<std::string, 2> verdicts;
    std::string verdict;
    plugin::Account account;
};

plugin::Outcome<SagAnswer> work_sag(const SagTyped& typed);

} // namespace fettle::spring
