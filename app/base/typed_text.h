// Brings what keyboards, phones and web pages put into a quantity down to one plain alphabet, so
// that the number and unit parsers need to know ASCII only. Knows no unit and no number grammar.
#pragma once

#include <string>
#include <string_view>

namespace fettle {

// Spaces of any width become ' ', minus signs '-', fraction slashes '/', primes and typographic
// quotes ' and ", middle dots '.', multiplication crosses '*', µ 'u', ° "deg", vulgar fractions "
// 3/4", superscripts and subscripts digits. Bytes that fit none of these stay as they are.
std::string plain_typed(std::string_view text);

} // namespace fettle
