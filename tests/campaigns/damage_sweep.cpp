// Damage by dice, for as long as one likes: `damage_sweep FIRST LAST` turns, wipes and cuts by the
// seeds from FIRST to LAST (tests/notebook/damage.h). Each time the notebook must be as it was, or
// say what is wrong; and what is salvaged must equal what was there, or say that something is lost.
#define DOCTEST_CONFIG_IMPLEMENT
#include "notebook/damage.h"
#include "notebook/salvage.h"

#include <cstdlib>
#include <iostream>

namespace {

using namespace notebook_tests;

std::uint32_t first_seed = 1, last_seed = 200;

enum class Saved { whole, told, refused, silent };

Saved salvaged(const Evening& evening, std::uint32_t seed) {
    const auto out = evening.folder / ("out" + std::to_string(seed));
    const auto report = salvage_record(evening.file, out);
    if (!report) return Saved::refused;
    // History does not come along, and with it no lines of its own.
    const auto content = Evening::records_of(must(Notebook::open(out, store::Access::read)));
    fs::remove_all(out);
    if (content == evening.content) return Saved::whole;
    return report->is_whole() ? Saved::silent : Saved::told;
}

} // namespace

TEST_CASE("damage is told, and what can be read is saved") {
    const Evening evening;
    int equal = 0, told = 0, whole = 0, parts = 0, refused = 0;
    for (std::uint32_t seed = first_seed; seed <= last_seed; ++seed) {
        CAPTURE(seed);
        evening.put(damaged_by(seed, evening.bytes));
        const auto outcome = evening.outcome();
        CHECK(outcome != Evening::Outcome::silent);
        if (outcome == Evening::Outcome::equal) {
            ++equal;
            continue;
        }
        ++told;
        evening.put(damaged_by(seed, evening.bytes));
        const auto saved = salvaged(evening, seed);
        CHECK(saved != Saved::silent);
        whole += saved == Saved::whole, parts += saved == Saved::told;
        refused += saved == Saved::refused;
    }
    std::cout << "seeds " << first_seed << " to " << last_seed << ": " << equal
              << " changed nothing, " << told << " were told; of those salvaged whole " << whole
              << ", with losses told " << parts << ", refused " << refused << std::endl;
}

int main(int count, char** words) {
    if (count > 1) first_seed = std::uint32_t(std::strtoul(words[1], nullptr, 10));
    if (count > 2) last_seed = std::uint32_t(std::strtoul(words[2], nullptr, 10));
    return doctest::Context().run();
}
