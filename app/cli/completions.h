// What the shells need to complete a command line of the program: verbs, options, closed choices,
// files and folders. Written from the grammar; the tests run them in the shells themselves.
#pragma once

#include "cli/grammar.h"

#include <string>

namespace fettle::cli {

std::string bash_completion(const VerbWords& program);
std::string zsh_completion(const VerbWords& program);
std::string fish_completion(const VerbWords& program);

} // namespace fettle::cli
