// Where plugin libraries may be loaded from: only what nobody but the user and root can write to.
// Any thread.
#pragma once

#include "base/result.h"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace fettle::calc {

// Why this file or folder is not to be trusted, as a sentence; nothing when it is. Links are
// resolved first; for a file the folder it lies in counts, too, and all folders above: whoever may
// rename one of them could put another in its place. As nobody else can, what is loaded by the
// resolved path afterwards is what was examined.
std::optional<std::string> why_not_trusted(const std::filesystem::path& path);

// The libraries (*.so) in a folder, by name. A folder that does not exist has none; one that cannot
// be read or trusted is a failure (io, refused).
Result<std::vector<std::filesystem::path>> libraries_in(const std::filesystem::path& folder);

} // namespace fettle::calc
