// How a value stands in a file of data, and the other way round, without loss.
//
// JSON (RFC 8259): a value that is not there is null, whole numbers are written whole, other
// numbers with as many digits as bring the same number back. CSV (RFC 4180): what is not there is
// \N, so that an empty field is an empty text; a text that begins with a backslash has one more.
// Bytes that are no UTF-8 text, or hold a zero, are {"hex": "..."} and \xHEX. Pure; any thread.
#pragma once

#include "notebook/record_rows.h"

#include <nlohmann/json.hpp>

#include <optional>
#include <string>
#include <string_view>

namespace fettle::desk {

using DataJson = nlohmann::ordered_json;

// Precondition: no number is infinite.
DataJson to_json(const Cell& cell);
std::string to_csv(const Cell& cell);

// Nothing when the value is none of what the column holds.
std::optional<Cell> from_json(const DataJson& value, store::Holding holding);
std::optional<Cell> from_csv(std::string_view field, store::Holding holding);

// "a whole number of up to 64 bits", "a text": what a column takes.
std::string accepted_by(store::Holding holding);

} // namespace fettle::desk
