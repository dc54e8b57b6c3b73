// The command line: finds the verb among the arguments, runs it, prints its report.
#pragma once

#include <filesystem>
#include <iosfwd>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace fettle::cli {

inline constexpr int kDone = 0;
inline constexpr int kRefused = 1; // refused or failed, one sentence on stderr
inline constexpr int kUsage = 2;   // the arguments are no command

// What to open when there was no verb.
struct WindowWanted {
    std::filesystem::path notebook;
    std::optional<std::filesystem::path> pictures = {}; // draw every screen into files here instead
    std::vector<std::pair<int, int>> sizes = {}; // of the pictures, pixels; none: the usual ones
    int letters = 100;                           // in the pictures, percent
};

struct Outcome {
    int exit_code = kDone;
    std::optional<WindowWanted> window;
};

struct Streams {
    std::istream& in;
    std::ostream& out;
    std::ostream& err;
    bool err_is_terminal = false;
};

// `arguments` without the program's name. Catches what libraries throw; any thread.
Outcome run(const std::vector<std::string>& arguments, const Streams& streams);

} // namespace fettle::cli
