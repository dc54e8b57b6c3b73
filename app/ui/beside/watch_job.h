// The folder that is watched while the window is open: a thread that waits for pictures in it and
// hands them over, a batch at a time, to be taken in as if they had been dropped. UI thread only;
// owns the thread.
#pragma once

#include "base/result.h"

#include <filesystem>
#include <functional>
#include <mutex>
#include <optional>
#include <thread>
#include <vector>

namespace fettle::ui {

class WatchJob {
  public:
    // `wake` is called on the other thread whenever there is something to hand over.
    explicit WatchJob(std::function<void()> wake);
    ~WatchJob();

    void start(const std::filesystem::path& folder); // instead of the one before
    void stop();

    bool running() const { return thread_.joinable(); }
    const std::filesystem::path& folder() const { return folder_; }

    // Once a frame: what has appeared since, and why the watching ended by itself, if it did.
    std::vector<std::filesystem::path> take_found();
    std::optional<Failure> take_failure();

  private:
    std::function<void()> wake_;
    std::filesystem::path folder_;
    std::mutex held_; // of the two below, shared with the thread
    std::vector<std::filesystem::path> found_;
    std::optional<Failure> failure_;
    std::jthread thread_; // last: ends before the rest goes
};

} // namespace fettle::ui
