// Run while the project is built: writes the manual page and the completions of three shells from
// the grammar of the command line. Not installed. usage: fettlebook-describe OUT_DIR MAN_HEAD
// MAN_TAIL
#include "cli/completions.h"
#include "cli/man_page.h"

#include <filesystem>
#include <fstream>
#include <iostream>
#include <sstream>

namespace {

std::string text_of(const char* file) {
    std::ostringstream text;
    text << std::ifstream(file).rdbuf();
    return text.str();
}

bool write(const std::filesystem::path& file, const std::string& text) {
    std::ofstream out(file);
    return static_cast<bool>(out << text << std::flush);
}

} // namespace

int main(int count, char** arguments) {
    using namespace fettle::cli;
    if (count != 4) return 2;
    const std::filesystem::path folder = arguments[1];
    const VerbWords program = grammar();
    const std::string head = text_of(arguments[2]), tail = text_of(arguments[3]);
    if (!head.empty() && !tail.empty() &&
        write(folder / "fettlebook.1", head + man_page_of(program) + tail) &&
        write(folder / "fettlebook.bash", bash_completion(program)) &&
        write(folder / "_fettlebook", zsh_completion(program)) &&
        write(folder / "fettlebook.fish", fish_completion(program)))
        return 0;
    std::cerr << "The manual page and completions cannot be written to " << folder << ".\n";
    return 1;
}
