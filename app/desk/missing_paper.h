// The shopping list on paper: what a vehicle lacks, group by group, with a square to tick, what is
// on its way and what might fit. A4.
#pragma once

#include "notebook/missing.h"

#include <filesystem>

namespace fettle::desk {

// Gives the number of pages; fails with io.
Result<int> write_missing(const std::vector<MissingLine>& lines, const std::string& of, Day today,
                          const std::filesystem::path& file);

// "papers/missing.pdf" and "papers/missing.csv" in the notebook's folder: where the window writes.
std::filesystem::path place_of_missing(const Notebook& notebook, const std::string& ending);

} // namespace fettle::desk
