// Lists and tables as they are typed: splitting into items, rows and cells, and what to ask back
// when a split could go two ways. Internal to the room. Any thread.
#pragma once

#include "base/result.h"
#include "calc/typed_inputs.h"

#include <string_view>

namespace fettle::calc {

// `text` is trimmed and not blank. Failures' sentences say what is wrong with the text or the item
// without naming the input. Bounds are not looked at.
Result<SiValue> read_list(const Input& input, std::string_view text);
Result<SiValue> read_table(const Input& input, std::string_view text);

} // namespace fettle::calc
