// The log of the last acts beside a notebook's database, when it was deleted or damaged after the
// program's sudden end: told, and what is left of it kept, before SQLite takes it for never
// written.
#pragma once

#include "base/result.h"

#include <filesystem>
#include <string>
#include <string_view>

namespace fettle {

inline constexpr std::string_view kAsFound = "as-found-"; // and a number: folders in a notebook

// A sentence that says what is missing; empty when nothing is. Fails with io.
Result<std::string> tell_lost_log(const std::filesystem::path& folder);

// The same for a notebook that is about to be written to: what is left of a damaged log is first
// copied, with the database, to a folder as-found-N in it, which the sentence names. The next
// opening then finds nothing amiss.
// Precondition: nobody else has it open for writing.
Result<std::string> put_lost_log_aside(const std::filesystem::path& folder);

} // namespace fettle
