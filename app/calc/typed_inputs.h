// From what the user typed into a sheet to the SI values that a plugin calculates with.
//
//   number  5/16, 1 3/4 in, 12 thou: base/quantity.h; a bare number takes the input's unit
//   list    items split by ";", or by blanks and commas; a unit at the very end counts for all bare
//           items before it: 8 12 20 thou
//   table   rows split by ";" or a new line, cells by "|" or blanks; in blank-split rows a mixed
//           fraction is 1-3/4 and a unit stands without blank: 36in; trailing optional cells may
//           miss
//   choice  the choice itself or the beginning of one alone, upper or lower case
//   text    trimmed
// Whatever could be read in two ways is a problem that names both, never a guess. Any thread.
#pragma once

#include "base/result.h"
#include "calc/sheet.h"

#include <cstdint>
#include <map>
#include <string>
#include <vector>

namespace fettle::calc {

using TypedInputs = std::map<std::string, std::string>; // input id -> text
using Problems = std::map<std::string, std::string>;    // input id -> sentence

// One input in SI. Which members are filled follows from the input's shape.
struct SiValue {
    bool given = false;               // false: left blank
    double number = 0;                // number
    std::string text = {};            // text and choice
    std::vector<double> numbers = {}; // list, or a table row by row with NaN for a blank cell
    std::uint32_t rows = 0;
    std::uint32_t columns = 0;
    std::string typed_unit =
        {}; // number: the canonical unit it was typed in; list: of its first item
    // Half the worth of the last decimal typed, SI; 0 for whole numbers and fractions.
    double half_step = 0;
    std::vector<double> half_steps = {}; // one for each of `numbers`; empty when all are 0
};

struct ReadInputs {
    TypedInputs typed;           // as taken: presets filled in for inputs that were not named
    std::vector<SiValue> values; // one for each input of the sheet, in its order
    Problems problems;           // empty: the sheet can be calculated
    std::string first_problem;   // the first in the order of the sheet, for a place with one line
};

// What a fresh form holds: the presets, rows of a table each on its line.
TypedInputs fresh_inputs(const Sheet& sheet);

// Whether this input is asked now. A condition on an input that is hidden itself does not hold.
bool is_asked(const Sheet& sheet, const Input& input, const TypedInputs& typed);

// Reads all inputs of the sheet at once. Those not asked for now are left as not given, whatever
// was typed there. An input that `typed` does not name takes its preset; one
// that is named and blank stays blank. Names that the sheet doesn't have are problems, too.
ReadInputs read_inputs(const Sheet& sheet, const TypedInputs& typed);

// One field alone, for checking while somebody types. Fails with invalid; the sentence names label,
// id, the typed text and what is accepted.
Result<SiValue> read_input(const Input& input, const std::string& typed);

// What a field accepts, in a few words: "a length; a bare number is taken in mm".
std::string accepted(const Input& input);

} // namespace fettle::calc
