// A quantity as short as it reads well: "8 mm" where format_quantity gives "8.00000 mm". For bounds
// and for what was typed; answers keep the digits that their declaration asks for. Any thread.
#pragma once

#include <string>
#include <string_view>

namespace fettle::calc {

// To 6 significant digits, closing zeros left away. Precondition as for base's format_quantity.
std::string short_quantity(double si, std::string_view kind, std::string_view unit);

} // namespace fettle::calc
