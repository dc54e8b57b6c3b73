// A folder that is watched: pictures that appear in it, or below it, are given out once each is
// written completely. Knows no notebook. Owns an inotify descriptor; one thread at a time.
#pragma once

#include "base/result.h"

#include <chrono>
#include <filesystem>
#include <memory>
#include <stop_token>
#include <vector>

namespace fettle::photos {

class FolderWatch {
  public:
    // A file counts as complete when nobody has it open for writing and it has not changed for
    // `settle`. Pictures that are there already are given out first. Names and subfolders are
    // chosen as by find_pictures(). Fails with not_found, invalid (no folder) and io (the system
    // will not watch any more folders).
    static Result<FolderWatch> open(const std::filesystem::path& folder,
                                    std::chrono::milliseconds settle = std::chrono::seconds(1));
    FolderWatch(FolderWatch&&) noexcept;
    FolderWatch& operator=(FolderWatch&&) noexcept;
    ~FolderWatch();

    // Waits until pictures are complete and gives them, sorted; none when `stop` or the end of
    // `patience` comes first. A picture that changes later is given again. Fails (not_found) when
    // the folder is gone.
    Result<std::vector<std::filesystem::path>> next(const std::stop_token& stop,
                                                    std::chrono::milliseconds patience);

  private:
    struct State;
    explicit FolderWatch(std::unique_ptr<State> state);
    std::unique_ptr<State> state_;
};

} // namespace fettle::photos
