// A folder of the test's own, gone when the test is.
#pragma once

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

class TempFolder {
  public:
    TempFolder() {
        auto pattern = (std::filesystem::temp_directory_path() / "fettle-test-XXXXXX").string();
        path_ = mkdtemp(pattern.data());
    }
    TempFolder(const TempFolder&) = delete;
    TempFolder& operator=(const TempFolder&) = delete;
    ~TempFolder() {
        std::error_code error;
        std::filesystem::remove_all(path_, error);
    }
    const std::filesystem::path& path() const { return path_; }
    std::filesystem::path operator/(const std::filesystem::path& name) const {
        return path_ / name;
    }

  private:
    std::filesystem::path path_;
};

inline std::string file_text(const std::filesystem::path& file) {
    std::error_code none;
    const auto size = std::filesystem::file_size(file, none);
    std::string text(none ? 0 : size, '\0');
    std::ifstream(file, std::ios::binary).read(text.data(), std::streamsize(text.size()));
    return text;
}

inline void write_file(const std::filesystem::path& file, const std::string& text) {
    std::ofstream(file, std::ios::binary) << text;
}
