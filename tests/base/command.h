// Runs an outside program and gives what it printed; for tests that compare with such programs.
#pragma once

#include <cstdio>
#include <memory>
#include <string>

namespace fettle::test {

// Standard output without the last line end; "FAILED: ..." when the program is missing or fails, so
// that a comparison with it fails as well.
inline std::string output_of(const std::string& command) {
    std::FILE* pipe = popen(command.c_str(), "r");
    if (pipe == nullptr) return "FAILED: cannot start " + command;
    std::string output;
    char piece[256];
    while (std::fgets(piece, sizeof piece, pipe) != nullptr)
        output += piece;
    if (pclose(pipe) != 0) return "FAILED: " + command;
    while (output.ends_with('\n'))
        output.pop_back();
    return output;
}

} // namespace fettle::test
