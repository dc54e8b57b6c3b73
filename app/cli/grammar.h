// What the command line accepts, as plain values read off the grammar itself: the manual page and
// the shells' completions are written from these, so that neither can say anything else than the
// program.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace CLI {
class App;
}

namespace fettle::cli {

enum class Takes { nothing, text, choice, file, folder };

struct OptionWords {
    std::string name;  // "--part"; of a positional its placeholder, "PHOTO"
    std::string value; // the placeholder of what stands behind it, "TAG"; empty for a flag
    std::string about;
    Takes takes = Takes::nothing;
    std::vector<std::string> choices; // as typed without quoting: "as-found"
    bool required = false;
    bool repeated = false;
};

struct VerbWords {
    std::string name; // one word: "add"; of the program its name
    std::string about;
    std::string more; // what its help says below the options
    std::vector<OptionWords> positionals, options;
    std::vector<VerbWords> verbs; // those below it
};

// The whole command line, from the program down.
VerbWords grammar();

VerbWords described(const CLI::App& verb);

} // namespace fettle::cli
