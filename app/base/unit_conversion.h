// Conversions between the units of the table and SI, done by UDUNITS-2 behind one owner of its
// handles. Internal to base. Knows the table, no spelling and no person. Any thread.
#pragma once

#include "base/result.h"
#include "base/unit_spellings.h"

namespace fettle {

// `unit` must be an element of unit_table(). Fail with io when UDUNITS' own database of units
// cannot be read, with invalid when the unit does not convert to the SI unit of its kind.
Result<double> unit_to_si(double value, const UnitSpelling& unit);
Result<double> unit_from_si(double si, const UnitSpelling& unit);

} // namespace fettle
