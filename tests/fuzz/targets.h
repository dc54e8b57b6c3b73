// Every reader of foreign bytes, each as one function of bytes: for libFuzzer (run.sh) and for the
// ordinary test that reads the kept inputs again. A reader may refuse whatever it likes; it must
// not crash, hang, or hand on what is not finite.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <vector>

namespace fuzz {

using Input = std::span<const std::uint8_t>;

struct Target {
    const char* name; // of its folder below corpus/
    void (*read)(Input input);
};

void must(bool holds); // else the program is aborted
void must_be_text(const std::string& sentence);

void archive(Input input);
void carried(Input input);
void given_data(Input input);

// For programs that have but one of them, by its name; nullptr: there is none.
const Target* target_called(const char* name);
const std::vector<Target>& targets();

} // namespace fuzz
