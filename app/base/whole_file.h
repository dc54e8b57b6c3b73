// Files that are written whole or not at all.
#pragma once

#include "base/result.h"

#include <filesystem>
#include <string_view>

namespace fettle {

// Written beside its place, brought to the disk and moved there: a file of that name is whole, the
// old one or the new. Fails with io, naming the file.
Done write_whole(const std::filesystem::path& file, std::string_view bytes);

} // namespace fettle
