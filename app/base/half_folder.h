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

// "12345" of a process that runs no longer. One of another user that runs is not to be signalled,
// which is not the same.
bool is_ended_process(std::string_view digits);
// What killed programs left in a folder: entries called BEFORE, the number of a process that runs
// no longer, perhaps letters by chance (private_name), AFTER. Links are such entries themselves. An
// empty BEFORE takes whatever stands before the number.
std::vector<std::filesystem::path> left_halves(const std::filesystem::path& folder,
                                               std::string_view before, std::string_view after);
// Removes them.
void sweep_left_halves(const std::filesystem::path& folder, std::string_view before,
                       std::string_view after);

} // namespace fettle
