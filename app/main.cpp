// The program: a verb goes to the command line, no verb to the window.
#include "cli/cli.h"
#include "ui/app.h"

#include <unistd.h>

#include <iostream>

int main(int count, char** arguments) {
    using namespace fettle;
    const cli::Streams streams{std::cin, std::cout, std::cerr, isatty(STDERR_FILENO) == 1};
    const auto outcome = cli::run({arguments + 1, arguments + count}, streams);
    if (!outcome.window) return outcome.exit_code;
    const cli::WindowWanted& wanted = *outcome.window;
    return ui::run_window({.notebook_folder = wanted.notebook,
                           .pictures = wanted.pictures,
                           .sizes = wanted.sizes,
                           .letters = static_cast<float>(wanted.letters) / 100});
}
