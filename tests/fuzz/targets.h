// Every reader of foreign bytes, each as one function of bytes: for libFuzzer (run.sh) and for the
// ordinary test that reads the kept inputs again. A reader may refuse whatever it likes; it must
// not crash, hang, or hand on what is not finite.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace fuzz {

using Input = std::span<const std::uint8_t>;

struct Target {
    const char* name; // of its folder below corpus/
    void (*read)(Input input);
};

// For programs that have but one of them, by its name; nullptr: there is none.
const Target* target_called(const char* name);
const std::vector<Target>& targets();

} // namespace fuzz
