// A folder of plugins for one test, gone when the test is done; and a Catalogue over it.
#pragma once

#include "calc/catalogue.h"

#include <doctest/doctest.h>
#include <stdlib.h>

#include <chrono>
#include <filesystem>
#include <string>

namespace fettle::calc {

inline const std::filesystem::path kWorker = FETTLEBOOK_BIN_DIR "/fettlebook-calc";
inline const std::filesystem::path kBuilt = FETTLEBOOK_BAD_PLUGIN_DIR;

class PluginFolder {
  public:
    PluginFolder() {
        std::string pattern = std::filesystem::temp_directory_path() / "fettle-calc-XXXXXX";
        REQUIRE(mkdtemp(pattern.data()) != nullptr); // made for its owner alone
        path_ = pattern;
    }
    ~PluginFolder() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    PluginFolder(const PluginFolder&) = delete;
    PluginFolder& operator=(const PluginFolder&) = delete;

    const std::filesystem::path& path() const { return path_; }

    // Copies a library of build/.../bad_plugins, under another name if wanted.
    std::filesystem::path add(const std::string& built, const std::string& as = {}) const {
        const auto to = path_ / ((as.empty() ? built : as) + ".so");
        std::filesystem::copy_file(kBuilt / (built + ".so"), to,
                                   std::filesystem::copy_options::overwrite_existing);
        std::filesystem::permissions(to, std::filesystem::perms::owner_all);
        return to;
    }

  private:
    std::filesystem::path path_;
};

// Far more than any honest plugin needs, since the tests' machine may be busy with other things.
inline CallLimits patient() {
    return {std::chrono::seconds(60), std::chrono::seconds(60), 2ull << 30};
}

inline std::string reason_for(const Catalogue& catalogue, const std::string& file_name) {
    for (const auto& refused : catalogue.refused())
        if (refused.path.filename() == file_name) return refused.reason;
    return {};
}

inline bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

} // namespace fettle::calc
