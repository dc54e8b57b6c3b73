// Two machines by dice, for as long as one likes: `carry_sweep FIRST LAST [ACTS]` tries the seeds
// from FIRST to LAST. What a seed does is in tests/notebook/two_machines.h; a fault names its seed.
#define DOCTEST_CONFIG_IMPLEMENT
#include "notebook/two_machines.h"

#include <cstdlib>
#include <iostream>

namespace {
unsigned first_seed = 1, last_seed = 20;
int acts = 300;
} // namespace

TEST_CASE("both copies end equal and nothing is lost, whatever the seed") {
    for (unsigned seed = first_seed; seed <= last_seed; ++seed) {
        const int differences = live_on_two_machines(seed, acts);
        std::cout << "seed " << seed << ": " << acts << " acts, " << differences << " differences"
                  << std::endl;
    }
}

int main(int count, char** words) {
    if (count > 1) first_seed = unsigned(std::strtoul(words[1], nullptr, 10));
    if (count > 2) last_seed = unsigned(std::strtoul(words[2], nullptr, 10));
    if (count > 3) acts = std::atoi(words[3]);
    return doctest::Context().run();
}
