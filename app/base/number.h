// The number at the front of a typed quantity: decimals with point or comma, fractions, mixed
// numbers. Internal to base; rooms use parse_number and parse_quantity. Knows no unit.
#pragma once

#include "base/result.h"

#include <string_view>

namespace fettle {

struct ScannedNumber {
    double value = 0;      // finite
    double last_place = 0; // worth of the last decimal written; 0 for whole numbers and fractions
    std::string_view rest; // what follows, untrimmed; a view into the scanned text
};

// `plain` as plain_typed gives it, without leading blanks. Fails with not_found when no number
// stands at the front (sentence empty: the caller knows what was wanted), with invalid and a
// sentence when there is one that cannot be taken: two readings, division by zero, out of range.
Result<ScannedNumber> scan_number(std::string_view plain);

} // namespace fettle
