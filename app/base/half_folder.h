// Folders that are made whole or not at all.
#pragma once

#include "base/result.h"

#include <filesystem>
#include <string_view>
#include <vector>

namespace fettle {

// A folder in the making, under a hidden name beside its place and open to nobody else. Gone with
// this object unless it was given its own name.
class HalfFolder {
  public:
    // `wanted` must be new, or an empty folder; folders above it are made. Fails with refused or
    // io, naming it.
    static Result<HalfFolder> start(const std::filesystem::path& wanted);
    HalfFolder(HalfFolder&& other) noexcept;
    HalfFolder& operator=(HalfFolder&&) = delete;
    ~HalfFolder();

    const std::filesystem::path& path() const { return half_; }
    const std::filesystem::path& wanted() const { return wanted_; }
    // Brings all of it to the disk and gives it its name, as open to others as the empty folder
    // that stood there or as the umask says.
    Done settle();

  private:
    HalfFolder(std::filesystem::path wanted, std::filesystem::path half)
        : wanted_(std::move(wanted)), half_(std::move(half)) {}
    std::filesystem::path wanted_, half_;
};

// True for what a killed program left: BEFORE, the number of a process that runs no longer, perhaps
// letters by chance (private_name), AFTER. An empty BEFORE takes whatever stands before the number.
bool is_left_half(std::string_view name, std::string_view before, std::string_view after);
// All of them in a folder. Links are such entries themselves.
std::vector<std::filesystem::path> left_halves(const std::filesystem::path& folder,
                                               std::string_view before, std::string_view after);
// Removes them.
void sweep_left_halves(const std::filesystem::path& folder, std::string_view before,
                       std::string_view after);

} // namespace fettle
