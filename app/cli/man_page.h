// The part of the manual page that the program's grammar says: options and verbs, as roff with the
// man macros (man(7)). What stands before and after is written by hand, in app/desktop/.
#pragma once

#include "cli/grammar.h"

#include <string>

namespace fettle::cli {

std::string man_page_of(const VerbWords& program);

} // namespace fettle::cli
