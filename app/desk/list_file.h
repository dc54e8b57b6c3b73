// A parts list read from its file, for both faces.
#pragma once

#include "base/csv.h"

#include <filesystem>

namespace fettle::desk {

// Fails with io or invalid, naming the file.
Result<CsvTable> read_list_file(const std::filesystem::path& file, CsvText in);

} // namespace fettle::desk
