// libFuzzer's way in: the target that the environment names (FUZZ_TARGET).
#include "fuzz/targets.h"

#include <cstdio>
#include <cstdlib>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const fuzz::Target* const target = [] {
        const char* name = std::getenv("FUZZ_TARGET");
        const auto* found = fuzz::target_called(name ? name : "");
        if (!found) {
            std::fputs("FUZZ_TARGET names no target of tests/fuzz/targets.cpp\n", stderr);
            std::exit(2);
        }
        return found;
    }();
    target->read({data, size});
    return 0;
}
